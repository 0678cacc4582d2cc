//! The page in its themes, with the marks of its styles.

use super::stage::{FEW, MANY, after, assessed, drawn, modifier, on_page, rows, text};
use crate::tui::theme::Theme;
use ratatui::buffer::{Buffer, Cell};
use ratatui::style::Color;
use session::{Looks, Palette, Session};

const SIZES: [(u16, u16); 3] = [(80, 24), (120, 40), (200, 60)];

fn themes() -> [(&'static str, Theme); 4] {
    Palette::ALL.map(|(name, palette)| {
        let looks = Looks {
            palette,
            ..Looks::default()
        };
        (name, Theme::of(looks))
    })
}

/// A page in two themes: under each row the marks of its styles in the dark one,
/// behind `C` its colours there, and behind `M` the marks without colour, where they
/// are others.
fn in_two_themes(session: &Session, size: (u16, u16)) -> String {
    let themes = themes();
    let of = |name: &str| themes.iter().find(|one| one.0 == name).expect("a theme").1;
    let [dark, mono] = ["dark", "mono"].map(|name| drawn(session, of(name), size));
    let lines = |page: &Buffer, mark: fn(&Cell) -> char| -> Vec<String> {
        let line = rows(page).map(|cells| cells.map(mark).collect::<String>());
        line.map(|line| line.trim_end().to_owned()).collect()
    };
    let (marks, mono_marks) = (lines(&dark, modifier), lines(&mono, modifier));
    let colours = lines(&dark, colour);
    let mut told = Vec::new();
    for (row, text) in text(&dark).lines().enumerate() {
        told.push(format!("│ {text}"));
        let other = (mono_marks[row] != marks[row]).then_some(("M", &mono_marks[row]));
        let under = [(" ", &marks[row]), ("C", &colours[row])];
        for (head, line) in under.into_iter().chain(other) {
            if !line.is_empty() || head == "M" {
                told.push(format!("{head} {line}"));
            }
        }
    }
    told.join("\n")
}

/// A letter for the colour of a cell.
fn colour(cell: &Cell) -> char {
    match cell.fg {
        Color::Reset => ' ',
        Color::Cyan => 'c',
        Color::Yellow => 'y',
        Color::Magenta => 'm',
        _ => '?',
    }
}

#[test]
fn every_page_in_two_themes_at_three_sizes() {
    let session = assessed("outlet-infant", MANY);
    for (name, page) in [
        ("plan", after(&session, "tab tab down")),
        ("presented", after(&session, "P")),
        ("doubt", on_page(&session, "2")),
        ("fit-map", on_page(&session, "3")),
        ("work-up", on_page(&session, "4")),
        ("rules", after(&session, "5 down down")),
        ("shelf", after(&session, "6 down down S")),
    ] {
        for (width, height) in SIZES {
            let name = format!("{name}-{width}x{height}");
            insta::assert_snapshot!(name, in_two_themes(&page, (width, height)));
        }
    }
}

#[test]
fn no_theme_sets_a_ground_and_all_say_the_same() {
    let session = assessed("outlet-infant", FEW);
    for keys in [
        "",
        "2",
        "3",
        "4",
        "5",
        "6 S",
        "P",
        "?",
        "enter x enter",
        "N x enter enter",
    ] {
        let page = on_page(&session, keys);
        let texts = themes().map(|(name, theme)| {
            let page = drawn(&page, theme, (100, 30));
            let grounds = page.content().iter().filter(|cell| cell.bg != Color::Reset);
            assert_eq!(grounds.count(), 0, "{name} {keys}");
            text(&page)
        });
        for text in &texts[1..] {
            assert_eq!(text, &texts[0], "{keys}");
        }
    }
}
