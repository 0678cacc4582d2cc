//! The sheet that is written from the screen.

use super::*;
use crate::SheetFile;
use crate::overlay::Prompt;

impl Window {
    /// Asks for a sheet in a file; what is to be made then.
    fn asks_for(&mut self, path: &Path) -> SheetFile {
        self.press("E ctrl-u");
        self.0.paste(&path.display().to_string());
        self.press("enter");
        self.made()
    }

    /// What was asked for last.
    fn made(&mut self) -> SheetFile {
        let asked = self.2.iter().rev().find_map(|effect| match effect {
            Effect::File(Errand::Sheet(asked)) => Some(asked.clone()),
            _ => None,
        });
        self.2.clear();
        asked.expect("a sheet is asked for")
    }

    fn write(&mut self, asked: &SheetFile, bytes: &[u8]) {
        let why = self.1.write_sheet(&mut self.0, asked, Ok(bytes.to_vec()));
        let is_said = self.says().starts_with("sheet written: ");
        assert_eq!(why.is_ok(), is_said, "{why:?}");
    }
}

fn window(desk: &Desk) -> Window {
    let mut window = Window::open(&desk.case());
    crate::fixture::assess(&mut window.0);
    window
}

#[test]
fn a_sheet_is_written_beside_the_case_and_never_over_anything_unasked() {
    let desk = Desk::new("sheet");
    let mut window = window(&desk);
    // As it is proposed: the name of the case, as a PDF.
    window.press("E enter");
    let asked = window.made();
    let path = desk.0.join("case.pdf");
    assert_eq!(
        asked,
        SheetFile {
            to: path.clone(),
            over: false
        }
    );
    window.write(&asked, b"first");
    assert!(
        window.says().starts_with("sheet written: "),
        "{}",
        window.says()
    );
    assert_eq!(fs::read(&path).unwrap(), b"first");
    // A second one asks, and a no leaves it as it is.
    let asked = window.asks_for(&path);
    window.write(&asked, b"second");
    assert!(window.asks().0.contains("is there already"));
    window.press("esc");
    assert_eq!(fs::read(&path).unwrap(), b"first");
    let asked = window.asks_for(&path);
    window.write(&asked, b"second");
    window.press("o");
    let asked = window.made();
    assert!(asked.over);
    window.write(&asked, b"second");
    assert_eq!(fs::read(&path).unwrap(), b"second");
    assert_eq!(
        desk.text(),
        files::shipped::SCENARIOS[0].1,
        "the case is as it was"
    );
}

#[test]
fn a_path_that_takes_no_sheet_is_asked_for_again_with_the_reason() {
    let desk = Desk::new("sheet-paths");
    let mut window = window(&desk);
    let link = desk.0.join("link.pdf");
    std::os::unix::fs::symlink(desk.case(), &link).unwrap();
    let cases = [
        (link, "is not a file that can be saved to"),
        (
            PathBuf::from("/dev/full"),
            "is not a file that can be saved to",
        ),
        (
            desk.0.join("no/such/folder.pdf"),
            "its folder does not exist",
        ),
    ];
    for (path, why) in cases {
        let asked = window.asks_for(&path);
        window.write(&asked, b"sheet");
        let Some(Overlay::Field(field)) = window.0.overlays().last() else {
            panic!("{} is not asked for again", path.display());
        };
        assert_eq!(field.of, Prompt::SheetTo);
        let error = field.error.clone().unwrap_or_default();
        assert!(error.contains(why), "{error}");
        window.press("esc");
    }
    assert_eq!(desk.text(), files::shipped::SCENARIOS[0].1);
}

#[test]
fn the_text_of_the_case_is_that_of_its_file_until_it_is_changed() {
    let desk = Desk::new("sheet-text");
    let mut window = window(&desk);
    assert_eq!(window.1.case_text(&window.0), desk.text());
    window.press("right");
    let changed = window.1.case_text(&window.0);
    assert_ne!(changed, desk.text());
    window.press("w");
    assert_eq!(changed, desk.text(), "it is what a save writes");
    let shipped = Window::of_shipped();
    assert_eq!(
        shipped.1.case_text(&shipped.0),
        files::shipped::SCENARIOS[0].1
    );
}
