//! Text of a file never steers the terminal: not by control characters and not
//! by what turns the reading direction round.

mod everywhere;

use super::stage::{FEW, after, assess, case, drawn, fail, house_rules, on_page, shapes};
use crate::tui::theme::Theme;
use everywhere::everywhere;
use files::{parse_case, parse_guidance, parse_house_rules, shipped};
use measurement::ReadingId;
use ratatui::buffer::Buffer;
use session::Session;
use sizing::house_rules::{Band, Exception, Stated};
use sizing::{Case, HouseRules};

/// A sequence that colours the screen, a bell, a line break, a C1 control; a
/// reversal of the reading direction, an isolate, an Arabic mark, a line separator;
/// characters of no width, a wide one.
const HOSTILE: &str = "\u{1b}[31m\u{7}\n\u{9b}2J\u{202e}\u{2067}\u{61c}\u{2028}\u{200b}\u{2060}\
                       \u{feff}心";

/// The demonstration with hostile text wherever its file, its rules and the
/// published limits hold text: in each string that a file may so begin.
fn hostile() -> Session {
    let (name, text) = shipped::scenario("outlet-infant").unwrap();
    let parse = |text: &str| Some(parse_case(name, text).ok()?.into_value());
    let (case, _) = everywhere(text, HOSTILE, parse);
    let (name, text) = shipped::HOUSE_RULES;
    let parse = |text: &str| Some(parse_house_rules(name, text).ok()?.into_value());
    let (rules, in_rules) = everywhere(text, HOSTILE, parse);
    let (name, text) = shipped::GUIDANCE;
    let parse = |text: &str| Some(parse_guidance(name, text).ok()?.into_value());
    let (limits, in_limits) = everywhere(text, HOSTILE, parse);
    for field in ["title", "source", "fact", "says"] {
        assert!(in_rules.contains(field), "{field}: {in_rules:?}");
    }
    for field in ["title", "source", "says", "what", "settles", "way", "gives"] {
        assert!(in_limits.contains(field), "{field}: {in_limits:?}");
    }
    with_text(HOSTILE, case, rules).with_limits(limits)
}

/// A case and its rules with a text wherever a file holds text.
fn with_text(text: &str, mut case: Case, mut rules: HouseRules) -> Session {
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
    for exclusion in &mut rules.exclusions {
        exclusion.fact.insert_str(0, text);
    }
    for row in &mut rules.limits {
        row.source.insert_str(0, text);
    }
    case.exceptions.push(Exception {
        rule: "rim_overlap_left".parse().unwrap(),
        instead: Stated::Limits {
            stop: Band::NONE,
            caution: Band::NONE,
        },
        because: text.into(),
    });
    Session::open(case, vec![shapes], rules)
}

fn steers(letter: char) -> bool {
    letter.is_control()
        || matches!(letter, '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}')
        || matches!(letter, '\u{2060}'..='\u{206f}' | '\u{feff}')
}

/// What of a page would steer a terminal.
fn steering(page: &Buffer) -> Vec<&str> {
    let symbols = page.content().iter().map(ratatui::buffer::Cell::symbol);
    symbols
        .filter(|symbol| symbol.chars().any(steers))
        .collect()
}

/// A line of the page in words that would steer a terminal.
fn steering_in_words(session: &Session) -> Option<String> {
    let lines = crate::tui::draw::text(session, Theme::MONO, 80);
    let mut lines = lines.iter().map(ToString::to_string);
    lines.find(|line| line.chars().any(steers))
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
        "2 end",
        "3",
        "4",
        "4 end",
        "e",
        "a",
        "5",
        "5 end",
        "5 down down down down down enter",
        "6",
        "7",
        "6 e",
        "6 S",
        "N",
        "N x enter enter",
        "A",
        "A end",
        "O",
        "P",
        "K",
        "r",
    ];
    let pages = keys
        .iter()
        .map(|keys| on_page(&session, keys))
        .chain([opened, failed]);
    for (index, page) in pages.enumerate() {
        let at = keys.get(index).unwrap_or(&"before or instead of a result");
        for size in [(15, 3), (50, 12), (80, 24), (200, 60)] {
            let page = drawn(&page, Theme::COLOUR, size);
            assert_eq!(steering(&page), Vec::<&str>::new(), "{at} at {size:?}");
        }
        assert_eq!(steering_in_words(&page), None, "{at}");
    }
    let title = super::stage::text(&drawn(&session, Theme::COLOUR, (120, 40)));
    assert!(
        title.starts_with("␛[31m␇␊‹U+009B›2J‹U+202E›‹U+2067›‹U+061C›‹U+2028›‹U+200B›‹U+2060›"),
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
        let mut session = with_text(text, case("outlet-infant"), house_rules());
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
            let page = on_page(&session, keys);
            for size in [(1, 1), (40, 12), (80, 24), (120, 40)] {
                let page = drawn(&page, Theme::COLOUR, size);
                assert_eq!(steering(&page), Vec::<&str>::new(), "{keys} at {size:?}");
            }
            assert_eq!(steering_in_words(&page), None, "{keys}");
        }
    }
}

#[test]
fn pasted_text_is_shown_and_does_nothing() {
    let mut session = after(&hostile(), "s");
    session.update(session::Event::Paste(HOSTILE.to_owned()));
    let page = drawn(&session, Theme::COLOUR, (80, 24));
    assert_eq!(steering(&page), Vec::<&str>::new());
    assert!(
        super::stage::text(&page).contains("› [31m"),
        "the field holds the harmless rest"
    );
}
