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
    with_text(HOSTILE)
}

/// The demonstration with a text wherever a file holds text.
fn with_text(text: &str) -> Session {
    let mut case = case("outlet-infant");
    case.title.insert_str(0, text);
    case.lesson = Some(text.to_owned());
    for (place, reading) in case.readings.iter_mut().enumerate() {
        reading.id = ReadingId(format!("{text}{}", reading.id.0));
        reading.image = Some(text.into());
        if place % 4 == 2 {
            reading.set_aside = Some(text.into());
        }
    }
    let mut shapes = shapes();
    shapes.title.insert_str(0, text);
    for shape in &mut shapes.shapes {
        for part in [&mut shape.id, &mut shape.name, &mut shape.about] {
            part.insert_str(0, text);
        }
        for size in &mut shape.sizes {
            size.label.push_str(text);
        }
    }
    let mut rules = house_rules();
    for exclusion in &mut rules.exclusions {
        exclusion.fact.insert_str(0, text);
    }
    for row in &mut rules.limits {
        row.source.insert_str(0, text);
    }
    case.exceptions.push(Exception {
        rule: RuleAddress("hold_left".into()),
        instead: Stated::Limits {
            stop: Band::NONE,
            caution: Band::NONE,
        },
        because: text.into(),
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
fn long_text_and_none_are_shown_on_every_page() {
    let long = format!("{HOSTILE} ").repeat(10_000 / HOSTILE.chars().count());
    for text in [
        long.as_str(),
        "",
        " ",
        "e\u{301}\u{301}\u{301}",
        "\u{200d}\u{fe0f}",
    ] {
        let mut session = with_text(text);
        assess(&mut session, FEW);
        for keys in [
            "",
            "tab",
            "tab tab p",
            "2",
            "3",
            "4",
            "5 end",
            "6 S",
            "6 e",
            "6 c",
            "e",
            "s",
            "?",
            "z",
            "P",
            "N",
            "N x enter enter",
            "O",
            "r",
        ] {
            let page = super::stage::on_page(&session, keys);
            for size in [(1, 1), (40, 12), (80, 24), (120, 40)] {
                let page = drawn(&page, Theme::COLOUR, size);
                assert_eq!(steering(&page), Vec::<&str>::new(), "{keys} at {size:?}");
            }
            let plain = crate::tui::draw::text(&page, Theme::MONO, 80);
            let line = plain.iter().map(ToString::to_string);
            let steering = line.into_iter().find(|line| line.chars().any(steers));
            assert_eq!(steering, None, "{keys}");
        }
    }
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
