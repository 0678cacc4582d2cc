//! Which candidates stand side by side.

use super::stage::{FEW, after, assessed, drawn, drawn_in, text};
use crate::tui::draw::Studio;
use crate::tui::theme::Theme;
use session::{Focus, Session};

/// The names of the bays at 80 columns, as far as they are shown.
fn names(session: &Session) -> String {
    let page = text(&drawn(session, Theme::COLOUR, (80, 24)));
    let mut rows = page.lines().skip_while(|row| !row.contains("Side by side"));
    rows.nth(1).expect("a row of names").to_owned()
}

/// The name that is selected in the list.
fn selected(session: &Session) -> String {
    session.candidate().expect("a list").name()
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
    let first = elsewhere.document().bays()[0].name(elsewhere.document().shelf());
    assert_ne!(first, last);
    assert_first(&elsewhere, &first);
}

/// That a candidate stands in the first bay; names are cut at their beginning where
/// there is little room.
fn assert_first(session: &Session, name: &str) {
    let (names, size) = (names(session), name.split_once('/').expect("shape/size").1);
    let at = names.find(&format!("/{size} "));
    let at = at.unwrap_or_else(|| panic!("no {name} in {names}"));
    assert!(!names[..at].contains('/'), "{name} in {names}");
}

#[test]
fn the_drawing_alone_is_of_what_is_selected() {
    let session = after(&assessed("outlet-infant", FEW), "tab right tab down down z");
    let name = selected(&session);
    assert_eq!(session.view().selected[Focus::Bays], 1);
    let page = text(&drawn(&session, Theme::COLOUR, (80, 24)));
    assert!(page.contains(&name), "{name} is not on\n{page}");
    let bay = after(&session, "esc shift-tab z");
    let second = bay.document().bays()[1].name(bay.document().shelf());
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
