//! Whatever is pressed or pasted, the page draws.

use super::stage::{FEW, assess, assessed, drawn, drawn_in};
use crate::tui::draw::Studio;
use crate::tui::theme::Theme;
use proptest::prelude::*;
use proptest::sample::select;
use session::{Command, Event, Key, KeyCode, Session};
use std::sync::LazyLock;

static OPENED: LazyLock<Session> = LazyLock::new(|| assessed("outlet-infant", FEW));

/// What a person may do.
#[derive(Clone, Debug)]
enum Act {
    Press(Key),
    Paste(String),
    /// The worker answers.
    Answer,
    /// The terminal has another size.
    Resize(u16, u16),
}

/// Every key that a command has, and Enter and Tab more often, to get anywhere.
fn bound_key() -> impl Strategy<Value = Key> {
    let of_commands = Command::all().flat_map(|command| command.keys).copied();
    let keys = of_commands.chain(["enter", "tab", "enter", "tab", "f9", "backspace"]);
    select(keys.map(|key| key.parse().unwrap()).collect::<Vec<Key>>())
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        20 => bound_key().prop_map(Act::Press),
        4 => any::<char>().prop_map(|text| Act::Press(Key::plain(KeyCode::Char(text)))),
        2 => ".{0,60}".prop_map(Act::Paste),
        1 => Just(Act::Answer),
        2 => (1..=250_u16, 1..=80_u16).prop_map(|(width, height)| Act::Resize(width, height)),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn nothing_stops_the_page_and_kept_pictures_are_those_drawn_anew(
        acts in prop::collection::vec(act(), 0..60),
    ) {
        let mut session = OPENED.clone();
        let mut size = (100, 30);
        let mut studio = Studio::default();
        for act in acts {
            match act {
                Act::Press(key) => drop(session.update(Event::Key(key))),
                Act::Paste(text) => drop(session.update(Event::Paste(text))),
                Act::Answer => assess(&mut session, FEW),
                Act::Resize(width, height) => size = (width, height),
            }
            let theme = Theme::of(session.view().looks);
            let kept = drawn_in(&session, theme, size, &mut studio);
            prop_assert_eq!(kept, drawn(&session, theme, size));
        }
    }
}
