use super::commands::Tried;

/// Of the commands that leave, save, open and reload.
pub(super) const FILING: &[Tried] = &[
    ("leave", "aortic.rim 1.5", "q", "leaving"),
    ("leave", "aortic.rim 1.5", "enter 7 ctrl-c", "leaving"),
    ("leave", "aortic.rim 1.5", "right q n", "leaving"),
    ("leave", "aortic.rim 1.5", "right q esc", "layers 0"),
    (
        "leave",
        "aortic.rim 1.5",
        "N x enter enter esc q",
        "asks Unsaved: x. Leave?",
    ),
    (
        "next_case",
        "file a.ron",
        "ctrl-n",
        "says one case was opened: `rimwise *.ron` opens several",
    ),
    (
        "previous_case",
        "file a.ron",
        "ctrl-p",
        "says one case was opened: `rimwise *.ron` opens several",
    ),
    ("leave", "file a.ron", "q", "leaving"),
    ("leave", "file a.ron", "right u q", "leaving"),
    (
        "leave",
        "file a.ron",
        "right q",
        "asks Unsaved: a.ron. Leave?",
    ),
    ("leave", "file a.ron", "right q esc", "layers 0"),
    ("leave", "file a.ron", "right q n", "leaving"),
    ("leave", "file a.ron", "right q ctrl-c", "leaving"),
    (
        "leave",
        "file a.ron",
        "right q s",
        "errand Save(Save { to: \"a.ron\", over: false, leaves: true })",
    ),
    (
        "save",
        "file a.ron",
        "right w",
        "errand Save(Save { to: \"a.ron\", over: false, leaves: false })",
    ),
    (
        "save",
        "aortic.rim 1.5",
        "ctrl-s b enter",
        "errand Save(Save { to: \"b\", over: false, leaves: false })",
    ),
    (
        "save",
        "aortic.rim 1.5",
        "w enter",
        "errand Save(Save { to: \"muscular-outlet-defect-3-6-kg-short-aortic-rim.ron\", over: false, leaves: false })",
    ),
    (
        "save",
        "aortic.rim 1.5",
        "w ctrl-u enter",
        "error expected the path of a file",
    ),
    (
        "save_as",
        "file a.ron",
        "W backspace m enter",
        "errand Save(Save { to: \"a.rom\", over: false, leaves: false })",
    ),
    ("save_as", "file a.ron", "W esc", "layers 0"),
    (
        "sheet",
        "file a.ron",
        "E enter",
        "errand Sheet(SheetFile { to: \"a.pdf\", over: false })",
    ),
    ("sheet", "file a.ron", "E esc", "layers 0"),
    (
        "sheet",
        "aortic.rim 1.5",
        "E enter",
        "error expected the path of a file",
    ),
    (
        "sheet",
        "aortic.rim 1.5",
        "E b . t x t enter",
        "errand Sheet(SheetFile { to: \"b.txt\", over: false })",
    ),
    (
        "sheet",
        "aortic.rim 1.5",
        "right E",
        "says the list is still being worked out",
    ),
    ("open", "file a.ron", "O", "errand Choose"),
    (
        "open",
        "file a.ron",
        "right ctrl-o",
        "asks Unsaved: a.ron. Open another?",
    ),
    ("open", "file a.ron", "right ctrl-o n", "errand Choose"),
    ("suspend", "aortic.rim 1.5", "Z", "suspending"),
    ("reload", "file a.ron", "R", "errand Reload"),
    (
        "reload",
        "aortic.rim 1.5",
        "ctrl-r",
        "says the case is in no file yet",
    ),
];

#[test]
fn cases_opened_together_are_gone_through_in_order_and_nothing_unsaved_is_left() {
    let paths: Vec<std::path::PathBuf> = ["a.ron", "b.ron", "c.ron"].map(Into::into).into();
    let mut session = super::glance::opened("file b.ron").with_conference(paths.clone());
    assert_eq!(session.place_in_conference(), Some((1, 3)));
    let opened = |session: &crate::Session| {
        session.outbox.iter().rev().find_map(|effect| match effect {
            crate::Effect::File(crate::Errand::Open(path)) => Some(path.clone()),
            _ => None,
        })
    };
    crate::fixture::press(&mut session, "ctrl-n");
    assert_eq!(opened(&session).as_ref(), Some(&paths[2]));
    crate::fixture::press(&mut session, "ctrl-p");
    assert_eq!(opened(&session).as_ref(), Some(&paths[0]));
    session.outbox.clear();
    crate::fixture::press(&mut session, "right ctrl-n");
    assert_eq!(opened(&session), None, "asked first");
    crate::fixture::press(&mut session, "n");
    assert_eq!(opened(&session).as_ref(), Some(&paths[2]));
}
