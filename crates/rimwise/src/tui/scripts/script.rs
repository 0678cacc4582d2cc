//! What somebody may do who means well, and somebody who does not.

use super::chance::Chance;
use super::play::{Act, Play};
use crate::tui::input::Input;
use files::{Fault, shipped};
use ratatui::layout::{Position, Size};
use session::{Command, Key, KeyCode};
use std::time::Duration;

/// Steps of a script.
const STEPS: usize = 60;

/// Keys that lead somewhere, pressed one after the other.
const WAYS: [&str; 20] = [
    "enter 7 . 2 enter",
    "enter 4 . 6 enter w",
    "right right right",
    "right left",
    "u",
    "U",
    "w",
    "O down enter",
    "O enter n",
    "R",
    "N x enter enter",
    "s b e c enter",
    "tab tab p",
    "tab tab down p .",
    "enter 9 9 enter y",
    "enter 9 9 enter n esc",
    "r",
    "5 enter",
    "6 x u",
    "m space",
];

const SIZES: [(u16, u16); 6] = [
    (80, 24),
    (120, 40),
    (200, 60),
    (60, 15),
    (40, 10),
    (110, 30),
];

const PASTES: [&str; 6] = [
    "5.5",
    "4,4\n",
    "12 mm",
    "",
    "\u{1b}[31m\u{7}",
    "a long text that is no number",
];

/// Plays the script of a number; what it did.
pub(super) fn play(number: u64, play: &mut Play) -> Vec<Act> {
    let mut chance = Chance::new(number);
    let mut acts = Vec::new();
    // Every third script is of keys, mouse and answers alone: its record is whole.
    let is_calm = number.is_multiple_of(3);
    while acts.len() < STEPS && !play.has_ended {
        let mut pauses = [3, 10, 30, 120, 200, 400].to_vec();
        pauses.extend((chance.under(6) == 0).then_some(1500));
        let pause = Duration::from_millis(*chance.of(&pauses));
        for act in next(&mut chance, play, is_calm) {
            play.step(play.now() + pause, &act);
            acts.push(act);
        }
    }
    acts
}

fn next(chance: &mut Chance, play: &mut Play, is_calm: bool) -> Vec<Act> {
    let one = |input: Input| vec![Act::In(input)];
    match chance.under(100) {
        0..28 => keys(chance.of::<&str>(&WAYS)),
        // Ways out, which end most scripts.
        28 => keys(chance.of::<&str>(&["q s", "q esc", "q n", "ctrl-c"])),
        29..55 => one(Input::Key(bound_key(chance))),
        55..60 => one(Input::Key(Key::plain(KeyCode::Char(
            *chance.of(&['x', '7', '.', 'é', '?']),
        )))),
        60..63 => one(Input::Paste((*chance.of(&PASTES)).to_owned())),
        63..72 => mouse(chance),
        72..74 => one(Input::Size(Size::from(*chance.of(&SIZES)))),
        74..77 => one(Input::Wait),
        77..92 => answers(chance, play),
        92 => vec![Act::In(Input::Suspend), Act::In(Input::GoOn)],
        _ if is_calm => answers(chance, play),
        93..95 => {
            let text = shipped::SCENARIOS[0].1;
            let texts = [
                Some(text.to_owned()),
                Some(format!("{text}// from outside\n")),
                None,
            ];
            vec![Act::Outside(chance.of(&texts).clone())]
        }
        _ => {
            let fail = Act::Fail(chance.under(9), *chance.of(&Fault::ALL));
            [vec![fail], keys(chance.of::<&str>(&WRITING))].concat()
        }
    }
}

/// Keys that are written to disk.
const WRITING: [&str; 5] = [
    "right down",
    "right right down",
    "enter 7 . 1 enter w",
    "6 x",
    "w",
];

fn keys(keys: &str) -> Vec<Act> {
    let keys = keys.split(' ');
    keys.map(|key| Act::In(Input::Key(key.parse().unwrap())))
        .collect()
}

fn bound_key(chance: &mut Chance) -> Key {
    let commands: Vec<&Command> = Command::all().filter(|it| it.id != "leave").collect();
    let command = chance.of(&commands);
    chance.of(command.keys).parse().unwrap()
}

fn mouse(chance: &mut Chance) -> Vec<Act> {
    let at = |chance: &mut Chance| {
        let (x, y) = (chance.under(120), chance.under(40));
        Position::new(u16::try_from(x).unwrap(), u16::try_from(y).unwrap())
    };
    if chance.under(3) == 0 {
        let down = chance.under(2) == 0;
        return vec![Act::In(Input::Wheel(at(chance), down))];
    }
    let from = at(chance);
    let beside = Position::new(from.x + 3, from.y);
    let to = if chance.under(2) == 0 {
        beside
    } else {
        at(chance)
    };
    vec![
        Act::In(Input::Press(from)),
        Act::In(Input::Drag(to)),
        Act::In(Input::Release),
    ]
}

/// Some answers: of the newest request as a rule, or of one that gave way.
fn answers(chance: &mut Chance, play: &mut Play) -> Vec<Act> {
    let Some(newest) = play.requests().checked_sub(1) else {
        return vec![Act::In(Input::Wait)];
    };
    let index = match chance.under(4) {
        0 => chance.under(newest + 1),
        _ => newest,
    };
    let most = 1 + chance.under(4);
    let labels = (0..most).map_while(|_| play.next_answer(index));
    labels.map(|label| Act::In(Input::Reply(label))).collect()
}
