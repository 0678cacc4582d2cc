//! Text of a file never steers the terminal: not by control characters and not
//! by what turns the reading direction round.

use super::stage::{FEW, after, assess, case, drawn, fail, house_rules, shapes};
use crate::tui::theme::Theme;
use measurement::ReadingId;
use ratatui::buffer::Buffer;
use session::Session;
use sizing::house_rules::{Band, Exception, RuleAddress, Stated};

/// A sequence that colours the screen, a bell, a line break, a C1 control, a
/// reversal of the reading direction, a character of no width, a wide one.
const HOSTILE: &str = "\u{1b}[31m\u{7}\n\u{9b}2J\u{202e}\u{200b}心";

/// The demonstration with hostile text wherever a file holds text.
fn hostile() -> Session {
    let mut case = case("outlet-infant");
    case.title.insert_str(0, HOSTILE);
    for reading in &mut case.readings {
        reading.id = ReadingId(format!("{HOSTILE}{}", reading.id.0));
        reading.image = Some(HOSTILE.into());
    }
    let mut shapes = shapes();
    shapes.title.insert_str(0, HOSTILE);
    for shape in &mut shapes.shapes {
        for text in [&mut shape.id, &mut shape.name, &mut shape.about] {
            text.insert_str(0, HOSTILE);
        }
        for size in &mut shape.sizes {
            size.label.push_str(HOSTILE);
        }
    }
    let mut rules = house_rules();
    for exclusion in &mut rules.exclusions {
        exclusion.fact.insert_str(0, HOSTILE);
    }
    for row in &mut rules.limits {
        row.source.insert_str(0, HOSTILE);
    }
    case.exceptions.push(Exception {
        rule: RuleAddress("hold_left".into()),
        instead: Stated::Limits {
            stop: Band::NONE,
            caution: Band::NONE,
        },
        because: HOSTILE.into(),
    });
    Session::open(case, vec![shapes], rules)
}

fn steers(letter: char) -> bool {
    letter.is_control() || matches!(letter, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}')
}

/// What of a page would steer a terminal.
fn steering(page: &Buffer) -> Vec<&str> {
    let symbols = page.content().iter().map(ratatui::buffer::Cell::symbol);
    symbols
        .filter(|symbol| symbol.chars().any(steers))
        .collect()
}

#[test]
fn hostile_text_is_shown_and_does_nothing() {
    let opened = hostile();
    let mut session = opened.clone();
    assess(&mut session, FEW);
    let mut failed = opened.clone();
    fail(&mut failed, HOSTILE);
    let keys = [
        "",
        "G",
        "enter",
        "s",
        "s x enter",
        "right",
        "tab t",
        "tab tab",
        "tab tab p",
        "/ x",
        "?",
        "z",
        "2",
        "e",
        "5",
        "5 down down down down down enter",
    ];
    let pages = keys
        .iter()
        .map(|keys| after(&session, keys))
        .chain([opened, failed]);
    for (index, page) in pages.enumerate() {
        for size in [(15, 3), (50, 12), (80, 24), (200, 60)] {
            let page = drawn(&page, Theme::COLOUR, size);
            assert_eq!(
                steering(&page),
                Vec::<&str>::new(),
                "page {index} at {size:?}"
            );
        }
    }
    let title = super::stage::text(&drawn(&session, Theme::COLOUR, (120, 40)));
    assert!(
        title.starts_with("␛[31m␇␊‹U+009B›2J‹U+202E›‹U+200B›心Muscular"),
        "{title}"
    );
}

#[test]
fn pasted_text_is_shown_and_does_nothing() {
    let mut session = after(&hostile(), "s");
    session.paste(HOSTILE);
    let page = drawn(&session, Theme::COLOUR, (80, 24));
    assert_eq!(steering(&page), Vec::<&str>::new());
    assert!(
        super::stage::text(&page).contains("› [31m"),
        "the field holds the harmless rest"
    );
}
