//! Cases in no file.

use super::*;
use crate::Home;

#[test]
fn a_case_in_no_file_is_offered_after_a_crash_and_restored() {
    let desk = Desk::new("unfiled-crash");
    let mut window = Window::of_shipped_at(&desk);
    assert!(window.0.overlays().is_empty(), "nothing was left");
    window.press("N x enter down enter 5 enter");
    assert!(window.0.has_journal());
    drop(window);

    let mut window = Window::of_shipped_at(&desk);
    let (asks, about) = window.asks();
    assert!(
        asks.starts_with("Not saved before the program ended, and in no file yet: “x” with 1"),
        "{asks}"
    );
    assert_eq!(about[0], "new case: x");
    // A second window is not offered what the first one holds.
    assert!(Window::of_shipped_at(&desk).0.overlays().is_empty());
    window.press("q r");
    let document = window.0.document();
    assert_eq!(
        (document.home(), &*document.case().title),
        (&Home::Nowhere, "x")
    );
    assert_eq!(document.case().readings.len(), 1);
    assert!(window.0.is_unsaved());
    window.press("down enter 4 enter");
    drop(window);

    let mut window = Window::of_shipped_at(&desk);
    assert_eq!(window.asks().1.len(), 3, "it goes on where it was");
    window.press("r");
    window.save_as(&desk.0.join("mine.ron"));
    assert!(window.says().starts_with("saved "), "{}", window.says());
    drop(window);
    assert!(Window::of_shipped_at(&desk).0.overlays().is_empty());
    assert_eq!(desk.names(), ["case.ron", "mine.ron", "state"]);
}

#[test]
fn what_is_tried_on_a_shipped_case_is_kept_until_it_is_taken_back_or_dropped() {
    let desk = Desk::new("unfiled-shipped");
    let kept = |desk: &Desk| fs::read_dir(desk.0.join("state/unfiled")).map_or(0, Iterator::count);
    let mut window = Window::of_shipped_at(&desk);
    window.press("enter 7 enter");
    assert!(kept(&desk) > 0);
    window.press("u");
    assert!(!window.0.is_unsaved());
    window.press("U q n");
    assert!(window.is_leaving());
    drop(window);

    // Later is later, until it is dropped.
    for (key, still) in [("esc", true), ("d", false)] {
        let mut window = Window::of_shipped_at(&desk);
        assert_eq!(window.asks().1, [CHANGED]);
        window.press(key);
        assert_eq!(window.throat(), 4.6);
        drop(window);
        assert_eq!(Window::of_shipped_at(&desk).0.overlays().is_empty(), !still);
    }
    let mut window = Window::of_shipped_at(&desk);
    window.press("enter 7 enter q d");
    assert!(window.is_leaving());
    drop(window);
    assert_eq!(kept(&desk), 0);
}

#[test]
fn where_nothing_can_be_kept_it_is_told_and_the_change_stays() {
    let desk = Desk::new("unfiled-forbidden");
    fs::write(desk.0.join("state"), "a file in the way").unwrap();
    let mut window = Window::of_shipped_at(&desk);
    window.press("enter 7 enter");
    assert!(
        window.says().starts_with("not safe from a crash"),
        "{}",
        window.says()
    );
    assert_eq!(window.throat(), 7.0);
    assert!(!window.0.has_journal(), "leaving says what would be lost");
}

#[test]
fn cases_that_were_open_are_listed_the_newest_first() {
    let desk = Desk::new("unfiled-recent");
    let mut window = Window::of_shipped_at(&desk);
    window.1.open(&mut window.0, &desk.case()).unwrap();
    window.save_as(&desk.0.join("other.ron"));
    window.press("O");
    let Some(Overlay::Open(list)) = window.0.overlays().last() else {
        panic!("{}", window.says());
    };
    let found = list.found();
    let recent = ["other.ron", "case.ron"].map(|name| crate::Openable::Recent(desk.0.join(name)));
    assert_eq!(found[..2], recent);
    assert!(found.len() >= 2 + files::shipped::SCENARIOS.len());
    window.press("s l i t enter");
    assert_eq!(window.says(), format!("opened {}", window.0.case_name()));
    assert_eq!(window.0.document().home(), &Home::Shipped);
    assert!(!window.0.is_unsaved());
    window.press("O down enter");
    assert_eq!(window.0.document().home(), &Home::File(desk.case()));
}
