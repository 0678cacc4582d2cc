//! Which candidates stand side by side.

use super::stage::{FEW, after, assessed, drawn, drawn_in, text};
use crate::tui::draw::Studio;
use crate::tui::theme::Theme;
use session::{Focus, Session};

/// The names of the bays at 80 columns, as far as they are shown.
fn names(session: &Session) -> String {
    let page = text(&drawn(session, Theme::COLOUR, (80, 24)));
    let is_verdict = |row: &&str| ["● ", "◐ ", "○ "].iter().any(|glyph| row.contains(glyph));
    let mut rows = page.lines().filter(is_verdict);
    rows.next().expect("a row of names").to_owned()
}

/// The name that is selected in the list.
fn selected(session: &Session) -> String {
    sizing::device_name(&session.candidate().expect("a list").name())
}

#[test]
fn what_is_selected_in_the_list_stands_first_pinned_or_not() {
    let pinned_last = after(&assessed("outlet-infant", FEW), "tab tab end p");
    let last = selected(&pinned_last);
    for keys in ["", "home", "home down", "home down down down", "home end"] {
        let session = after(&pinned_last, keys);
        assert_first(&session, &selected(&session));
    }
    // With the keys elsewhere the pinned ones stand in their order.
    let elsewhere = after(&pinned_last, "tab");
    let first =
        sizing::device_name(&elsewhere.document().bays()[0].name(elsewhere.document().shelf()));
    assert_ne!(first, last);
    assert_first(&elsewhere, &first);
}

/// That a candidate stands in the first bay; a name is cut at its end where there is
/// little room.
fn assert_first(session: &Session, name: &str) {
    let names = names(session);
    let cut = names.split_once('…').map(|(cut, _)| cut);
    let is_cut = cut.is_some_and(|cut| name.starts_with(cut));
    assert!(names.starts_with(name) || is_cut, "{name} in {names}");
}

#[test]
fn the_drawing_alone_is_of_what_is_selected() {
    let session = after(&assessed("outlet-infant", FEW), "tab right tab down down z");
    let name = selected(&session);
    assert_eq!(session.view().selected[Focus::Bays], 1);
    let page = text(&drawn(&session, Theme::COLOUR, (80, 24)));
    assert!(page.contains(&name), "{name} is not on\n{page}");
    let bay = after(&session, "esc shift-tab z");
    let second = sizing::device_name(&bay.document().bays()[1].name(bay.document().shelf()));
    assert_ne!(second, name);
    let page = text(&drawn(&bay, Theme::COLOUR, (80, 24)));
    assert!(page.contains(&second), "{second} is not on\n{page}");
}

#[test]
fn the_first_frame_waits_for_no_picture_and_the_second_has_them() {
    let session = assessed("outlet-infant", FEW);
    let size = (100, 30);
    let mut studio = Studio::beginning_with_words();
    let whole = drawn(&session, Theme::COLOUR, size);
    let first = drawn_in(&session, Theme::COLOUR, size, &mut studio);
    assert!(studio.has_left_out());
    assert_ne!(first, whole);
    assert!(!text(&first).contains("not drawn"), "{}", text(&first));
    let second = drawn_in(&session, Theme::COLOUR, size, &mut studio);
    assert!(!studio.has_left_out());
    assert_eq!(second, whole);
}
