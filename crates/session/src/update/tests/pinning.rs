use super::commands::Tried;

/// Of the commands that pin devices, and change and move what is pinned.
pub(super) const PINNING: &[Tried] = &[
    ("pin", "ranking even-wide/5x3", "p", "bays even-wide/5x3"),
    (
        "pin",
        "ranking even-wide/5x3",
        "p p",
        "says it is pinned already",
    ),
    (
        "unpin",
        "bays even-wide/5x3 offset-left/5x3",
        "p",
        "bays offset-left/5x3",
    ),
    ("next_size", "bays even-wide/5x3", ".", "bays even-wide/5x4"),
    (
        "next_size",
        "bays even-wide/12x4",
        ".",
        "says it is the last size of its shape",
    ),
    (
        "previous_size",
        "bays even-wide/5x4",
        ",",
        "bays even-wide/5x3",
    ),
    (
        "next_shape",
        "bays even-wide/5x3",
        ">",
        "bays even-medium/5x3",
    ),
    (
        "previous_shape",
        "bays even-medium/5x3",
        "<",
        "bays even-wide/5x3",
    ),
    (
        "previous_shape",
        "bays even-wide/5x3",
        "shift-up",
        "says it is the first shape",
    ),
    (
        "turn",
        "bays offset-left/5x3 at 30",
        "t t",
        "bays offset-left/5x3 at 60",
    ),
    (
        "turn",
        "bays even-wide/5x3",
        "t",
        "says its discs are on the axis: a turn changes nothing",
    ),
    (
        "turn_back",
        "bays offset-left/5x3 at 0",
        "T",
        "bays offset-left/5x3 at 345",
    ),
    (
        "best_turn",
        "bays offset-left/5x3 at 30",
        "b",
        "bays offset-left/5x3",
    ),
    (
        "best_turn",
        "bays offset-left/5x3",
        "b",
        "says it is at its best turn",
    ),
    (
        "swap_discs",
        "bays larger-left/5x3",
        "x",
        "bays larger-left/5x3 swapped",
    ),
    (
        "swap_discs",
        "bays larger-left/5x3",
        "x x",
        "bays larger-left/5x3",
    ),
    (
        "swap_discs",
        "bays even-wide/5x3",
        "x",
        "says its two sides are alike",
    ),
    (
        "next_bay",
        "bays even-wide/5x3 offset-left/5x3",
        "right right",
        "bay 1",
    ),
    (
        "previous_bay",
        "bays even-wide/5x3 offset-left/5x3",
        "right left left",
        "bay 0",
    ),
    (
        "filter",
        "ranking even-wide/5x3",
        "/ p l u g enter",
        "filter plug",
    ),
    (
        "only_verdict",
        "ranking even-wide/5x3",
        "o o",
        "filter borderline",
    ),
    (
        "only_verdict",
        "ranking even-wide/5x3",
        "o o o o o",
        "filter ",
    ),
    (
        "show_all",
        "ranking even-wide/5x3",
        "o / x enter c",
        "filter ",
    ),
    (
        "find_quantity",
        "vein.diameter 4",
        "/ a o r t i c space r i m enter right",
        "aortic.rim 1.6",
    ),
];
