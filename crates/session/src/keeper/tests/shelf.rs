//! The user's own catalogue.

use super::*;

fn window(desk: &Desk) -> Window {
    let own = desk.own();
    let mut window = Window::of_shipped();
    if own.is_file() {
        let file = files::read_catalogue(&own).unwrap();
        window.0 = window.0.with_own_shapes(file.into_value());
    }
    window.1 = window.1.with_own_shapes(&own).unwrap();
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
        says.starts_with("put aside: even-wide/5x3; kept in "),
        "{says}"
    );
    assert!(desk.own_text().contains("\"even-wide/5x3\","));
    window_of_today.press("u");
    assert!(!desk.own_text().contains("even-wide/5x3"));
    window_of_today.press("U e down 5 . 2 enter");
    drop(window_of_today);

    let commented = desk
        .own_text()
        .replacen("put_aside", "// mine\n    put_aside", 1);
    fs::write(desk.own(), &commented).unwrap();
    let mut tomorrow = window(&desk);
    let shelf = tomorrow.0.document().shelf();
    assert!(shelf.is_aside("even-wide/5x3"));
    assert_eq!(shelf.origin("even-wide"), crate::Origin::OwnOver);
    tomorrow.press("down S");
    assert_eq!(
        tomorrow.says().split(';').next(),
        Some("on the shelf again: even-wide/5x3")
    );
    assert!(desk.own_text().contains("// mine"), "comments stay");
    tomorrow.press("up delete");
    assert_eq!(
        tomorrow.0.document().shelf().origin("even-wide"),
        crate::Origin::Came
    );
    assert!(files::read_catalogue(&desk.own()).is_ok());
}

#[test]
fn a_file_that_something_else_changed_is_told_and_not_written_over() {
    let desk = Desk::new("shelf-changed");
    let mut window = window(&desk);
    window.press("down S");
    let theirs = format!("{}// theirs\n", desk.own_text());
    fs::write(desk.own(), &theirs).unwrap();
    window.press("down S");
    let says = window.says();
    assert!(
        says.starts_with("changed here, not on disk: ") && says.contains("changed on disk since"),
        "{says}"
    );
    assert_eq!(desk.own_text(), theirs);
    assert_eq!(window.0.document().shelf().own().put_aside.len(), 2);
}
