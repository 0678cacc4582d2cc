use crate::fact::choices;
use crate::overlay::{Ask, CaseLine, Overlay};
use crate::{Command, Focus, Session};
use sizing::Fact;
use sizing::resolve::neighbour_of;

/// A key and what it does now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// The key as it is written.
    pub key: String,
    /// What it does, in a word or two.
    pub does: &'static str,
}

/// Most hints of the footer: what one line of 80 columns holds.
const MOST: usize = 7;

/// The keys that do something now: those of the panel first, and last the one
/// that lists them all.
pub(crate) fn footer(session: &Session) -> Vec<Hint> {
    let is_asked = match session.view().overlays.last() {
        Some(Overlay::Field(field)) => field.asks.is_some(),
        Some(Overlay::Reading(form)) => form.asks.is_some(),
        Some(Overlay::Guide(guide)) => guide.asks.is_some(),
        _ => false,
    };
    if is_asked {
        return fixed(&[
            ("y", "keep it"),
            ("n", "drop it"),
            ("0-9", "the right value"),
        ]);
    }
    match session.view().overlays.last() {
        Some(Overlay::Field(_)) => {
            fixed(&[("enter", "accept"), ("esc", "cancel"), ("ctrl-u", "clear")])
        }
        Some(Overlay::Case(form)) => fixed(&[
            match form.line {
                CaseLine::Title => ("enter", "go on"),
                _ => ("enter", "begin the case"),
            },
            ("down", "next line"),
            ("right", "next choice"),
            ("esc", "cancel"),
        ]),
        Some(Overlay::Reading(_)) => fixed(&[
            ("enter", "accept"),
            ("down", "next line"),
            ("right", "next choice"),
            ("esc", "cancel"),
        ]),
        Some(Overlay::Exception(_) | Overlay::Shelf(_)) => fixed(&[
            ("enter", "accept"),
            ("down", "next line"),
            ("ctrl-u", "clear"),
            ("esc", "cancel"),
        ]),
        Some(Overlay::Guide(guide)) if !guide.editor.is_empty() => {
            fixed(&[("enter", "accept"), ("esc", "drop it"), ("ctrl-u", "clear")])
        }
        Some(Overlay::Guide(guide)) => of_guide(guide.ask()),
        Some(Overlay::Question(question)) => {
            let choices = question.choices.iter().map(|choice| Hint {
                key: choice.key.to_string(),
                does: choice.does,
            });
            let wait = question.wait.map(|wait| fixed(&[("esc", wait)]));
            choices.chain(wait.into_iter().flatten()).collect()
        }
        Some(Overlay::Open(_)) => fixed(&[
            ("enter", "open"),
            ("down", "next"),
            ("tab", "go on from it"),
            ("esc", "cancel"),
        ]),
        Some(Overlay::Commands(_)) => fixed(&[
            ("enter", "run"),
            ("up", "up"),
            ("down", "down"),
            ("esc", "close"),
        ]),
        Some(Overlay::TestCard) => {
            let ids = ["next_colours", "close", "commands"];
            let commands = ids.into_iter().filter_map(Command::named);
            commands.filter_map(|it| hint(session, it)).collect()
        }
        Some(Overlay::Drawing) | None if session.view().is_presented() => of_room(session),
        Some(Overlay::Drawing) | None => of_panel(session),
    }
}

fn of_guide(ask: &Ask) -> Vec<Hint> {
    let ends = [("up", "back"), ("esc", "close")];
    let own: &[(&str, &'static str)] = match ask {
        Ask::Quantity(quantity) if neighbour_of(quantity.info().structure).is_some() => &[
            ("enter", "accept or skip"),
            ("n", "out of reach"),
            ("e", "how"),
            ("u", "undo"),
        ],
        Ask::Quantity(_) => &[
            ("enter", "accept or skip"),
            ("e", "how measured"),
            ("u", "undo"),
        ],
        Ask::Absent(_) => &[("enter", "go on"), ("n", "there may be one"), ("u", "undo")],
        Ask::Fact(fact) => return of_fact(*fact, &ends),
        Ask::Exclusion(_) | Ask::Finding(_) => &[
            ("y", "yes"),
            ("n", "no"),
            ("?", "not known"),
            ("enter", "go on"),
            ("u", "undo"),
        ],
        Ask::List => &[("enter", "see the list"), ("down", "optional")],
    };
    fixed(&[own, &ends].concat())
}

/// The answers to a question after a fact.
fn of_fact(fact: Fact, ends: &[(&str, &'static str)]) -> Vec<Hint> {
    let common = [("enter", "go on"), ("ctrl-z", "undo")];
    if fact == Fact::Holes {
        let own = [("1-9", "how many"), ("u", "not known")];
        return fixed(&[&own[..], &common, ends].concat());
    }
    let own = choices(fact).into_iter().map(|choice| Hint {
        key: choice.key.to_string(),
        does: choice.says,
    });
    own.chain(fixed(&[&common[..], ends].concat())).collect()
}

fn fixed(hints: &[(&str, &'static str)]) -> Vec<Hint> {
    hints
        .iter()
        .map(|&(key, does)| Hint {
            key: key.to_owned(),
            does,
        })
        .collect()
}

fn hint(session: &Session, command: &'static Command) -> Option<Hint> {
    let key = session.keymap().keys(command).first()?;
    Some(Hint {
        key: key.to_string(),
        does: command.name,
    })
}

/// In a room: what goes from candidate to candidate, and the way back.
fn of_room(session: &Session) -> Vec<Hint> {
    let ids: &[&str] = match session.view().focus {
        Focus::Ranking => &["down", "up"],
        _ => &["next_bay", "previous_bay", "next_size", "previous_size"],
    };
    let commands = ids.iter().filter_map(|id| Command::named(id));
    let mut hints: Vec<Hint> = commands
        .filter(|command| command.ready(session).is_ok())
        .filter_map(|command| hint(session, command))
        .collect();
    let back = Command::named("present").and_then(|command| hint(session, command));
    hints.extend(back.map(|hint| Hint {
        does: "all panels",
        ..hint
    }));
    hints.extend(Command::named("commands").and_then(|it| hint(session, it)));
    hints
}

fn of_panel(session: &Session) -> Vec<Hint> {
    let is_list = |command: &Command| command.id == "commands";
    let is_of_panel = |command: &&'static Command| {
        command.in_footer && !is_list(command) && command.counts_in(session.view().focus)
    };
    let mut commands: Vec<&'static Command> = Command::all().filter(is_of_panel).collect();
    commands.sort_by_key(|command| command.panels());
    let mut hints: Vec<Hint> = commands
        .into_iter()
        .filter(|command| command.ready(session).is_ok())
        .filter_map(|command| hint(session, command))
        .take(MOST - 1)
        .collect();
    hints.extend(
        Command::all()
            .filter(|command| is_list(command))
            .filter_map(|command| hint(session, command)),
    );
    hints
}
