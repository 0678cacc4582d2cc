//! Files that something else changes, or takes away.

use super::*;

#[test]
fn a_file_that_changes_is_told_with_the_next_key_once() {
    let desk = Desk::new("disk-changed");
    let mut window = Window::open(&desk.case());
    window.press("enter 7 enter");
    let theirs = desk.text().replacen("value: 4.6", "value: 5.5", 1);
    fs::write(desk.case(), &theirs).unwrap();
    std::thread::sleep(Duration::from_secs(1));
    // Not while something is typed.
    window.press("enter 8");
    window.press("enter");
    let (asks, about) = window.asks();
    assert!(asks.ends_with("case.ron was changed on disk."));
    assert_eq!(about, ["made here: defect, long axis 7.0 → 8.0 mm"]);
    window.press("esc");
    assert_eq!(window.throat(), 8.0);
    std::thread::sleep(Duration::from_secs(1));
    window.press("down");
    assert!(window.0.overlays().is_empty(), "told once");

    fs::write(desk.case(), theirs.replacen("5.5", "5.6", 1)).unwrap();
    std::thread::sleep(Duration::from_secs(1));
    window.press("down r");
    assert_eq!(window.throat(), 5.6);
    window.press("u");
    assert_eq!(window.throat(), 8.0);

    fs::remove_file(desk.case()).unwrap();
    std::thread::sleep(Duration::from_secs(1));
    window.press("down");
    assert!(window.asks().0.ends_with("case.ron is no longer there."));
    window.press("esc w");
    assert!(window.asks().0.contains("no longer there"));
    window.press("o");
    assert!(window.says().starts_with("saved "), "{}", window.says());
}

#[test]
fn what_the_journal_of_a_lost_file_holds_is_restored() {
    let desk = Desk::new("disk-lost");
    Window::open(&desk.case()).press("enter 7 enter");
    fs::remove_file(desk.case()).unwrap();
    assert!(Keeper::has_journal_of(&desk.case()));

    let mut window = Window::of_shipped();
    window.1.open(&mut window.0, &desk.case()).unwrap();
    let (asks, about) = window.asks();
    assert!(
        asks.ends_with("The file is no longer there: saving makes it anew."),
        "{asks}"
    );
    assert_eq!(about, [CHANGED]);
    window.press("esc");
    assert_eq!(window.throat(), 4.6);
    drop(window);

    let mut window = Window::of_shipped();
    window.1.open(&mut window.0, &desk.case()).unwrap();
    window.press("r");
    assert_eq!(window.throat(), 7.0);
    assert!(window.0.is_unsaved());
    window.press("enter 8 enter w o");
    assert!(window.says().starts_with("saved "), "{}", window.says());
    drop(window);
    assert_eq!(desk.names(), ["case.ron"]);
    assert_eq!(Window::open(&desk.case()).throat(), 8.0);
}

#[test]
fn a_file_that_was_never_there_is_not_opened() {
    let desk = Desk::new("disk-never");
    let mut window = Window::of_shipped();
    assert!(
        window
            .1
            .open(&mut window.0, &desk.0.join("no.ron"))
            .is_err()
    );
    assert!(window.0.overlays().is_empty());
    assert_eq!(desk.names(), ["case.ron"]);
}
