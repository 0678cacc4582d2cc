use super::commands::Tried;

/// Of the commands that except a case from the rules of the house.
pub(super) const RULES: &[Tried] = &[
    ("except", "rule rim overlap left", "enter", "layers 1"),
    (
        "except",
        "rule rim overlap left",
        "e 2 down down 2 . 5 down down t h i n enter",
        "reads rim overlap left: limit under 2 mm; warning under 2.5 mm",
    ),
    (
        "except",
        "rule rim overlap left",
        "e 2 down down 2 , 5 down down t h i n enter",
        "excepted rim_overlap_left.usual because thin",
    ),
    (
        "except",
        "rule rim overlap left",
        "e 2 down down ctrl-u down down x enter",
        "says exception: rim overlap left: limit under 2 mm; no warning",
    ),
    (
        "except",
        "rule rim overlap left",
        "e 2 m m down down 3 down down x enter e 1 down down down down y enter",
        "excepted rim_overlap_left.usual because xy",
    ),
    (
        "except",
        "rule rim overlap left",
        "e 2 enter",
        "error warning under: expected at least the limit, 2: a warning comes before it",
    ),
    (
        "except",
        "rule rim overlap left",
        "e . 6 enter",
        "error because: expected a reason",
    ),
    (
        "except",
        "rule rim overlap left",
        "e . 6 enter x enter",
        "reads rim overlap left: limit under 0.6 mm; warning under 1 mm",
    ),
    (
        "except",
        "rule rim overlap left",
        "e up x enter",
        "error that is your centre's rule already: change a number, or leave with esc",
    ),
    (
        "except",
        "rule tilt of a disc, SD",
        "e 3 1 down x enter",
        "error value: expected a number from 0 to 30 deg",
    ),
    (
        "except",
        "rule tilt of a disc, SD",
        "e 8 tab x enter",
        "reads tilt of a disc, SD: 8 deg",
    ),
    (
        "except",
        "rule aortic annulus, angle to the septum",
        "e 8 0 down 5 down x enter",
        "reads aortic annulus, angle to the septum: 80 ± 5 deg",
    ),
    (
        "except",
        "rule least chance of a shape that fits",
        "e . 2 down x enter",
        "error the chance of what does not fit would be over the chance of what fits",
    ),
    (
        "except",
        "rule the outlet septum is malaligned",
        "e",
        "says an exclusion is answered at the end of the readings, not excepted",
    ),
    (
        "no_exception",
        "rule rim overlap left",
        "x",
        "says the rule counts as your centre has it",
    ),
    (
        "no_exception",
        "rule tilt of a disc, SD",
        "e 8 tab x enter x",
        "says your centre's rule counts again: tilt of a disc, SD",
    ),
    (
        "no_exception",
        "rule tilt of a disc, SD",
        "e 8 tab x enter delete u",
        "excepted tilt_sd because x",
    ),
    (
        "rule_of_check",
        "ranking even-wide/12x4",
        "r",
        "focus Rules",
    ),
];
