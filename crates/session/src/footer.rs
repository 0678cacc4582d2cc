use crate::command::Command;
use crate::hint::Hint;
use crate::overlay::Overlay;
use crate::page::Focus;
use crate::session::Session;

/// Most hints of the footer: what one line of 80 columns holds.
const MOST: usize = 7;

impl Session {
    /// The keys that do something now: those of the panel first, and last the one
    /// that lists them all.
    pub fn footer(&self) -> Vec<Hint> {
        footer(self)
    }
}

fn footer(session: &Session) -> Vec<Hint> {
    let top = session.overlays().last();
    match top.and_then(Overlay::layer) {
        Some(layer) => layer.footer(session),
        None if top == Some(&Overlay::TestCard) => {
            let ids = ["next_colours", "close", "commands"];
            let commands = ids.into_iter().filter_map(Command::named);
            commands.filter_map(|it| hint(session, it)).collect()
        }
        None if session.view().is_presented() => of_room(session),
        None => of_panel(session),
    }
}

fn hint(session: &Session, command: &'static Command) -> Option<Hint> {
    let key = session.keymap().keys(command.id).first()?;
    Some(Hint {
        key: key.to_string(),
        does: command.name,
    })
}

/// The hints in a room: what goes from candidate to candidate, and the way back.
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
