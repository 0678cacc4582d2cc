use super::filing::FILING;
use super::looking::LOOKING;
use super::pinning::PINNING;
use super::rules::RULES;
use super::shelf::SHELF;
use super::trials::TRIALS;

/// A command: its id, before, keys, after.
pub(super) type Tried = (&'static str, &'static str, &'static str, &'static str);

/// Every row, of every command.
pub(super) fn every_row() -> impl Iterator<Item = &'static Tried> {
    COMMANDS
        .iter()
        .chain(FILING)
        .chain(LOOKING)
        .chain(PINNING)
        .chain(RULES)
        .chain(SHELF)
        .chain(TRIALS)
}

/// Of the commands that touch no file.
const COMMANDS: &[Tried] = &[
    ("more", "aortic.rim 1.5", "right right", "aortic.rim 1.7"),
    ("more", "aortic.rim 1.5", "+ =", "aortic.rim 1.7"),
    (
        "more",
        "aortic.rim 60.0",
        "right",
        "says 60.0 mm is the most that is accepted",
    ),
    ("less", "aortic.rim 1.5", "left - h", "aortic.rim 1.2"),
    (
        "less",
        "aortic.rim 0.0",
        "left",
        "says 0.0 mm is the least that is accepted",
    ),
    (
        "much_more",
        "aortic.rim 1.5",
        "shift-right L",
        "aortic.rim 2.5",
    ),
    (
        "much_less",
        "aortic.rim 1.5",
        "shift-left H",
        "aortic.rim 0.5",
    ),
    (
        "type_value",
        "aortic.rim 1.5",
        "enter 2 . 4 enter",
        "aortic.rim 2.4",
    ),
    (
        "type_value",
        "aortic.rim 1.5",
        "enter backspace 8 enter",
        "aortic.rim 1.8",
    ),
    (
        "type_value",
        "aortic.rim 1.5",
        "enter 7 0 enter",
        "error expected mm, 0.0 to 60.0",
    ),
    (
        "type_value",
        "aortic.rim 1.5",
        "enter 7 x enter",
        "error expected mm, 0.0 to 60.0",
    ),
    (
        "type_value",
        "aortic.rim 1.5",
        "enter 7 esc",
        "aortic.rim 1.5",
    ),
    (
        "type_doubt",
        "aortic.rim 1.5",
        "d ctrl-u 0 , 8 enter",
        "aortic.rim sd 0.8",
    ),
    (
        "type_doubt",
        "aortic.rim 1.5",
        "d ctrl-u enter",
        "aortic.rim sd house",
    ),
    (
        "type_doubt",
        "aortic.rim 1.5",
        "d ctrl-u 0 enter",
        "error expected mm, above 0, at most 60.0",
    ),
    (
        "set_aside",
        "aortic.rim 1.5",
        "s o b l i q u e enter",
        "aortic.rim aside oblique",
    ),
    (
        "set_aside",
        "aortic.rim 1.5",
        "s o enter s",
        "says restored: aortic rim 1.5 mm",
    ),
    (
        "set_aside",
        "aortic.rim 1.5",
        "s space enter",
        "error expected a reason",
    ),
    (
        "add_reading",
        "vein.diameter unread",
        "a 4 . 5 enter",
        "vein.diameter 4.5",
    ),
    (
        "add_reading",
        "vein.diameter unread",
        "enter 4 enter",
        "vein.diameter 4",
    ),
    (
        "add_reading",
        "vein.diameter unread",
        "a 4 . 5 down . 3 down right enter",
        "says added: femoral vein, inner diameter 4.5 mm, transoesophageal echo, end-diastole, edge to edge",
    ),
    (
        "add_reading",
        "vein.diameter unread",
        "a x enter",
        "error expected mm, 0.5 to 30.0",
    ),
    (
        "edit_reading",
        "aortic.rim 1.5",
        "e ctrl-u 2 tab ctrl-u 0 . 4 enter",
        "says aortic rim 1.5 → 2.0 mm; SD of aortic rim 0.5 mm → 0.4 mm",
    ),
    (
        "edit_reading",
        "aortic.rim 1.5",
        "e up left left enter u",
        "says undone: aortic rim measured: transthoracic echo, left side, end-diastole, no longer edge to edge",
    ),
    (
        "edit_reading",
        "aortic.rim 1.5",
        "e down 9 9 enter",
        "error expected mm, above 0, at most 60.0",
    ),
    (
        "edit_reading",
        "aortic.rim 1.5",
        "e 7 esc",
        "aortic.rim 1.5",
    ),
    (
        "edit_reading",
        "vein.diameter unread",
        "e",
        "says the femoral vein, inner diameter was not measured: add a reading first",
    ),
    (
        "new_case",
        "aortic.rim 1.5",
        "N a space b enter right right enter",
        "case inlet_muscular with 0 readings",
    ),
    (
        "new_case",
        "aortic.rim 1.5",
        "N enter",
        "error expected a title, such as \"3.6 kg, short rim\"",
    ),
    (
        "new_case",
        "aortic.rim 1.5",
        "N x down down right down left enter u",
        "says undone: new case: x",
    ),
    (
        "new_case",
        "aortic.rim 1.5",
        "N x enter enter 4 , 8 enter esc",
        "says 42 open, 14 assumed; the list is being ranked; A opens the guide again",
    ),
    (
        "guide",
        "vein.diameter unread",
        "A 4 . 4 enter",
        "vein.diameter 4.4",
    ),
    (
        "guide",
        "vein.diameter unread",
        "A x",
        "error type a number, or: e how it was measured, u undo, esc close",
    ),
    (
        "guide",
        "vein.diameter unread",
        "A 4 0 enter",
        "error expected mm, 0.5 to 30.0",
    ),
    (
        "guide",
        "vein.diameter unread",
        "A enter",
        "asked Fact(TricuspidChordae)",
    ),
    (
        "guide",
        "vein.diameter unread",
        "A e 4 tab . 3 down right enter",
        "says added: femoral vein, inner diameter 4.0 mm, transoesophageal echo, end-diastole, edge to edge",
    ),
    (
        "guide",
        "vein.diameter unread",
        "A 4 enter ctrl-z",
        "asked Quantity(vein.diameter)",
    ),
    (
        "guide",
        "vein.diameter 4.4",
        "A y",
        "fact TricuspidChordae yes",
    ),
    (
        "add_reading",
        "aortic.cusp_depth 1",
        "right",
        "aortic.cusp_depth 1.1",
    ),
    (
        "answer",
        "exclusion cusp_in_defect",
        "space",
        "exclusion cusp_in_defect unknown",
    ),
    (
        "answer",
        "exclusion cusp_in_defect",
        "space space",
        "exclusion cusp_in_defect yes",
    ),
    (
        "answer",
        "fact Prolapse",
        "space space space",
        "fact Prolapse severe",
    ),
    (
        "answer",
        "finding arch_seen",
        "space",
        "says arch seen from end to end: unknown → yes",
    ),
    (
        "answer",
        "finding cyanosis",
        "space u",
        "finding cyanosis no",
    ),
    (
        "answer",
        "aortic.rim 1.5",
        "space",
        "says no question is selected",
    ),
    (
        "out_of_reach",
        "absent mitral_valve",
        "n",
        "says the mitral valve may be in reach",
    ),
    (
        "out_of_reach",
        "absent mitral_valve",
        "n n",
        "absent mitral_valve",
    ),
    (
        "out_of_reach",
        "aortic.rim 1.5",
        "n",
        "says 4 readings of the aortic valve count: set aside what is wrong first",
    ),
    (
        "out_of_reach",
        "vein.diameter 4",
        "n",
        "says no neighbour is selected that could be out of reach",
    ),
    ("find_quantity", "aortic.rim 1.5", "/ C F V esc", "layers 1"),
    (
        "find_quantity",
        "vein.diameter unread",
        "/ C F V enter 4 . 2 enter",
        "vein.diameter 4.2",
    ),
    (
        "find_quantity",
        "aortic.rim 1.5",
        "/ L V E D D enter 3 1 enter",
        "left_ventricle.diameter selected",
    ),
    ("undo", "aortic.rim 1.5", "right right u", "aortic.rim 1.5"),
    (
        "undo",
        "aortic.rim 1.5",
        "right ctrl-z",
        "says undone: aortic rim 1.5 → 1.6 mm",
    ),
    ("undo", "aortic.rim 1.5", "u", "says nothing to undo"),
    (
        "redo",
        "aortic.rim 1.5",
        "right right u U",
        "aortic.rim 1.7",
    ),
    ("redo", "aortic.rim 1.5", "ctrl-y", "says nothing to redo"),
    ("close", "aortic.rim 1.5", "z esc", "layers 0"),
    ("close", "aortic.rim 1.5", "? x esc", "layers 1"),
    ("close", "aortic.rim 1.5", "? x esc esc", "layers 0"),
    ("commands", "aortic.rim 1.5", "? r e d o", "layers 1"),
    (
        "commands",
        "aortic.rim 1.5",
        "right u : a g a i n space t a k e n enter",
        "aortic.rim 1.6",
    ),
    (
        "commands",
        "aortic.rim 1.5",
        "? C F V enter",
        "vein.diameter selected",
    ),
    (
        "commands",
        "aortic.rim 1.5",
        "? w i d e / 5 x 4 enter",
        "focus Ranking",
    ),
    ("face", "bays even-wide/5x3", "f", "shown Right Aortic"),
    ("valve", "bays even-wide/5x3", "v", "shown Left Tricuspid"),
    ("full_drawing", "aortic.rim 1.5", "z", "layers 1"),
    ("why", "aortic.rim 1.5", "i", "layers 1"),
    ("why", "aortic.rim 1.5", "i down down esc", "layers 0"),
    (
        "full_drawing",
        "aortic.rim 1.5",
        "z right",
        "aortic.rim 1.6",
    ),
    (
        "next_open",
        "patient.weight 3.6",
        "m",
        "fact TricuspidChordae selected",
    ),
    (
        "next_open",
        "patient.weight 3.6",
        "m m space m",
        "says nothing is missing",
    ),
];
