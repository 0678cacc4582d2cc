//! The user's own catalogue.

use super::*;

fn window(desk: &Desk) -> Window {
    let own = desk.own();
    let mut window = Window::of_shipped();
    let file = own.is_file().then(|| files::read_catalogue(&own).unwrap());
    if let Some(file) = &file {
        window.0 = window.0.with_own_shapes(file.value().clone());
    }
    window.1 = window.1.with_own_shapes(&own, file);
    window.press("6");
    window
}

impl Desk {
    fn own(&self) -> PathBuf {
        self.0.join("settings/shapes.ron")
    }

    fn own_text(&self) -> String {
        fs::read_to_string(self.own()).unwrap()
    }
}

#[test]
fn every_change_of_the_shelf_is_in_the_file_and_taken_back_there() {
    let desk = Desk::new("shelf-kept");
    let mut window_of_today = window(&desk);
    window_of_today.press("down S");
    let says = window_of_today.says();
    assert!(
        says.starts_with("out of stock: even-wide/5x3; kept in "),
        "{says}"
    );
    assert!(desk.own_text().contains("\"even-wide/5x3\","));
    window_of_today.press("u");
    assert!(!desk.own_text().contains("even-wide/5x3"));
    window_of_today.press("U e down 5 . 2 enter");
    drop(window_of_today);

    let commented = desk
        .own_text()
        .replacen("out_of_stock", "// mine\n    out_of_stock", 1);
    fs::write(desk.own(), &commented).unwrap();
    let mut tomorrow = window(&desk);
    let shelf = tomorrow.0.document().shelf();
    assert!(shelf.is_aside("even-wide/5x3"));
    assert_eq!(shelf.origin("even-wide"), crate::Origin::OwnOver);
    tomorrow.press("down S");
    assert_eq!(
        tomorrow.says().split(';').next(),
        Some("in stock again: even-wide/5x3")
    );
    assert!(desk.own_text().contains("// mine"), "comments stay");
    tomorrow.press("up delete");
    assert_eq!(
        tomorrow.0.document().shelf().origin("even-wide"),
        crate::Origin::Came
    );
    assert!(files::read_catalogue(&desk.own()).is_ok());
}

/// A window that put one size aside, and another where the file was changed by
/// something else in between.
fn changed_underneath(desk: &Desk) -> (Window, String) {
    let mut window = window(desk);
    window.press("down S");
    let theirs = desk.own_text().replacen(
        "out_of_stock: [",
        "out_of_stock: [\"theirs/1x1\", // theirs\n",
        1,
    );
    fs::write(desk.own(), &theirs).unwrap();
    window.press("down S");
    let (question, _) = window.asks();
    assert!(question.contains("changed on disk since"), "{question}");
    assert_eq!(desk.own_text(), theirs, "not written over");
    assert_eq!(window.0.document().shelf().own().put_aside.len(), 2);
    (window, theirs)
}

#[test]
fn a_file_that_something_else_changed_is_read_or_written_over_when_told() {
    let desk = Desk::new("shelf-changed");
    let (mut window, theirs) = changed_underneath(&desk);
    window.press("esc");
    assert_eq!(desk.own_text(), theirs);
    window.press("down S r");
    assert_eq!(desk.own_text(), theirs);
    assert!(
        window.says().starts_with("read again: "),
        "{}",
        window.says()
    );
    assert!(window.0.document().shelf().is_aside("theirs/1x1"));
    // What was here is a step back, and is kept as any change is.
    window.press("u");
    assert!(!window.0.document().shelf().is_aside("theirs/1x1"));
    assert!(!desk.own_text().contains("\"theirs/1x1\""));
    assert!(files::read_catalogue(&desk.own()).is_ok());
}

#[test]
fn what_is_written_over_keeps_its_comments() {
    let desk = Desk::new("shelf-over");
    let (mut window, _) = changed_underneath(&desk);
    window.press("o");
    let text = desk.own_text();
    assert!(
        !text.contains("\"theirs/1x1\"") && text.contains("// theirs"),
        "{text}"
    );
    let read = files::read_catalogue(&desk.own()).unwrap();
    assert_eq!(read.value(), window.0.document().shelf().own());
}

#[test]
fn a_file_that_is_gone_is_written_anew_when_told() {
    let desk = Desk::new("shelf-gone");
    let mut window = window(&desk);
    window.press("down S");
    fs::remove_file(desk.own()).unwrap();
    window.press("down S");
    assert!(!desk.own().exists());
    window.press("o");
    assert!(desk.own_text().contains("even-wide/"));
}

#[test]
fn without_a_folder_nothing_is_said_to_be_kept() {
    let mut window = Window::of_shipped();
    window.1.tell_what_is_lost(&mut window.0);
    assert_eq!(
        window.says(),
        "HOME names no folder: a case in no file and changes of the stock are lost when the \
         program ends"
    );
    assert!(!window.0.keeps_shelf());
    window.press("6 down S");
    assert!(
        matches!(window.0.status(), Some(Status::Refused(_))),
        "no tick: {:?}",
        window.0.status()
    );
    assert_eq!(
        window.says(),
        "changed here, not on disk: HOME names no folder"
    );
}
