use super::commands::Tried;

/// Of the commands on the shelf.
pub(super) const SHELF: &[Tried] = &[
    ("shelf_page", "aortic.rim 1.5", "6", "shelf even-wide"),
    (
        "out_of_stock",
        "shelf even-wide/5x3",
        "S",
        "aside even-wide/5x3",
    ),
    (
        "out_of_stock",
        "shelf even-wide/5x3",
        "S S",
        "says in stock again: even-wide/5x3",
    ),
    (
        "out_of_stock",
        "shelf even-wide",
        "S",
        "says out of stock: even-wide",
    ),
    ("out_of_stock", "shelf even-wide", "S u", "aside none"),
    (
        "out_of_stock",
        "ranking even-wide/5x3",
        "S",
        "says out of stock: even-wide/5x3",
    ),
    (
        "out_of_stock",
        "bays larger-left/5x3",
        "S",
        "aside larger-left/5x3",
    ),
    (
        "edit_shape",
        "shelf even-wide/5x3",
        "enter down 5 . 5 enter",
        "says changed even-wide/5x3",
    ),
    (
        "edit_shape",
        "shelf even-wide/5x3",
        "e down 5 , 5 enter",
        "even-wide is yours, over the one that came",
    ),
    (
        "edit_shape",
        "shelf even-wide/5x3",
        "e down 7 0 enter",
        "error waist: expected a number from 1 to 60 mm",
    ),
    (
        "edit_shape",
        "shelf even-wide/5x3",
        "e down x enter",
        "error waist: expected a number",
    ),
    (
        "edit_shape",
        "shelf even-wide/5x3",
        "e down down down 4 enter",
        "error left disc: expected at least the waist, 5 mm. Leave the disc out where there is none.",
    ),
    (
        "edit_shape",
        "shelf even-wide/5x3",
        "e down down down down down 9 enter",
        "error offset up: expected at most 3 mm. The disc must cover the whole end of the waist.",
    ),
    (
        "edit_shape",
        "shelf even-wide/5x3",
        "e enter",
        "error nothing was changed: change a line, or leave with esc",
    ),
    (
        "edit_shape",
        "shelf even-wide",
        "e down down 0 . 5 enter",
        "says changed even-wide",
    ),
    (
        "add_size",
        "shelf even-wide/5x3",
        "a 6 x 3 down 6 enter",
        "says added even-wide/6x3",
    ),
    (
        "add_size",
        "shelf even-wide/5x3",
        "a down 6 enter",
        "error size: expected another label; this one exists",
    ),
    (
        "new_shape",
        "shelf even-wide/5x3",
        "n o w n down o w n down p l u g down 0 . 5 down 4 5 down 5 x 4 down 5 down 4 down 9 \
         down down down down down down down down 5 enter",
        "own is yours",
    ),
    (
        "new_shape",
        "shelf even-wide/5x3",
        "n o w n enter",
        "error conformability: expected a number",
    ),
    (
        "new_shape",
        "shelf even-wide/5x3",
        "n e v e n - w i d e down e down e down 0 down 0 down a down 5 down 4 down down down down \
         down down down down down 5 enter",
        "error short name: expected a name that no other shape has",
    ),
    (
        "copy_shape",
        "shelf even-wide/5x3",
        "c m y - o w n enter",
        "my-own is yours",
    ),
    (
        "copy_shape",
        "shelf even-wide/5x3",
        "c enter",
        "error short name: expected a name that no other shape has",
    ),
    (
        "copy_shape",
        "shelf even-wide/5x3",
        "c B enter",
        "error short name: expected a name of small letters, digits and hyphens",
    ),
    (
        "remove_shape",
        "shelf even-wide/5x3",
        "delete",
        "says it came with the program and cannot be removed: mark it out of stock instead",
    ),
    (
        "remove_shape",
        "shelf even-wide/5x3",
        "c m i n e enter end delete u end delete",
        "says removed mine/12x4",
    ),
    (
        "remove_shape",
        "shelf even-wide",
        "c m i n e enter end delete delete delete",
        "says removed mine",
    ),
];
