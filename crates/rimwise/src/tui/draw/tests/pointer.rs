//! What is pointed at is what is seen there.

use super::stage::{FEW, after, assessed, drawn, on_page, seen, text};
use crate::tui::draw::Target;
use crate::tui::theme::Theme;
use ratatui::layout::Position;
use session::{Focus, Page, Session};

const SIZE: (u16, u16) = (120, 40);

/// The target on the first row of the page that holds a text, where it begins.
fn at(session: &Session, word: &str) -> Option<Target> {
    let page = text(&drawn(session, Theme::COLOUR, SIZE));
    let (row, line) = page
        .lines()
        .enumerate()
        .find(|(_, line)| line.contains(word))
        .unwrap_or_else(|| panic!("{word} is not on\n{page}"));
    let column = line.split(word).next().unwrap().chars().count();
    let at = |cells: usize| u16::try_from(cells).unwrap();
    seen(session, SIZE).at(Position::new(at(column), at(row)))
}

#[test]
fn readings_bays_candidates_and_pages_can_be_pointed_at() {
    let session = assessed("outlet-infant", FEW);
    let row = session.rows().iter().position(|row| {
        row.quantity()
            .is_some_and(|one| one.address() == "throat.minor")
    });
    assert_eq!(at(&session, "minor"), row.map(Target::Row));
    assert_eq!(at(&session, "offset-left/5x3 @"), Some(Target::Bay(1)));
    let second = session.listed()[1].place;
    assert_eq!(at(&session, "  2 g"), Some(Target::Candidate(second)));
    assert_eq!(at(&session, "3 fit map"), Some(Target::Page(Page::FitMap)));
    assert_eq!(at(&session, "Ranked"), Some(Target::Panel(Focus::Ranking)));
    let doubt = on_page(&session, "2");
    assert_eq!(
        at(&doubt, "↑ tight while"),
        Some(Target::Line(Focus::Doubt, 0))
    );
}

#[test]
fn nothing_is_pointed_at_through_what_lies_over_the_page() {
    let session = after(&assessed("outlet-infant", FEW), "enter");
    assert_eq!(at(&session, "minor"), None);
}
