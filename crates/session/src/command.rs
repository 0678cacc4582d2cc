//! Every command of the program, in one table.
//!
//! A command is a pure function from the session to a [`Change`], or to the
//! reason why it cannot be done now. So what the footer, the help and the key
//! map say of it is what it does.

mod answers;
mod bays;
mod doubt;
mod drawing;
mod files;
mod fit_map;
mod look_back;
mod looks;
mod movement;
mod pages;
mod program;
mod ranking;
mod readings;
mod rules;
mod shelf;
mod trials;
mod why;

use crate::keymap::{Binding, KeyMap};
use crate::overlay::{Field, Overlay, Prompt, Task};
use crate::rules_change::RulesChange;
use crate::{Bay, Edit, Errand, Focus, Refused, Session, View};
use sizing::growth::Body;
use std::fmt;
use std::path::PathBuf;

pub(crate) use readings::go_to_quantity;

/// What a command changes.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// The document; a step to undo.
    Edit(Edit),
    /// A reading, within the step that nudged it before.
    Nudge(Edit),
    /// Where the operator is, and what lies over the panels.
    View(Box<View>, Vec<Overlay>),
    /// A text goes to the clipboard of the terminal.
    Copy(String),
    /// The last step, taken back.
    Undo,
    /// The last step taken back, done again.
    Redo,
    /// Something is done with files.
    Errand(Errand),
    /// The file is asked for in which the case is saved.
    AskPath {
        /// Whether the program ends once it is saved.
        leaves: bool,
    },
    /// It is so many minutes since puncture now.
    Minute(f64),
    /// It is so many days after the procedure.
    Day(u32),
    /// The child is to be shown grown.
    Grown(Body),
    /// The neighbours of a size are walked through.
    Why(Bay),
    /// The cases of a folder are looked back over.
    LookBack(PathBuf),
    /// A person is asked about a change of your centre's rules.
    AskRules(Box<RulesChange>),
    /// The terminal is left to the shell for a while.
    Suspend,
    /// The program ends.
    Leave,
}

impl From<Task> for Change {
    fn from(task: Task) -> Self {
        match task {
            Task::Edit(edit) => Self::Edit(edit),
            Task::Errand(errand) => Self::Errand(errand),
            Task::AskPath { leaves } => Self::AskPath { leaves },
            Task::Minute(now) => Self::Minute(now),
            Task::Day(day) => Self::Day(day),
            Task::Grown(body) => Self::Grown(body),
            Task::AskRules(asked) => Self::AskRules(asked),
            Task::Leave => Self::Leave,
        }
    }
}

impl Default for KeyMap {
    /// Every command on its own keys.
    fn default() -> Self {
        let binding = |command: &'static Command| Binding {
            id: command.id,
            text: format!("{} {}", command.name, command.says),
            panels: command.focus,
            keys: command
                .keys
                .iter()
                .filter_map(|key| key.parse().ok())
                .collect(),
        };
        Self::new(Command::all().map(binding).collect())
    }
}

/// One command.
pub struct Command {
    /// Its name in key maps.
    pub id: &'static str,
    /// Its name on screens, short enough for the footer.
    pub name: &'static str,
    /// What it does, in a phrase.
    pub says: &'static str,
    /// The panels in which its keys count; empty: everywhere.
    pub focus: &'static [Focus],
    /// The keys it has before the user's key map.
    pub keys: &'static [&'static str],
    /// Whether the footer shows it while it can be done.
    pub in_footer: bool,
    /// What it would change now.
    pub change: fn(&Session) -> Result<Change, Refused>,
}

impl Command {
    /// Every command, in the order in which they are shown.
    pub fn all() -> impl Iterator<Item = &'static Self> {
        [
            readings::COMMANDS,
            answers::COMMANDS,
            program::COMMANDS,
            files::COMMANDS,
            bays::COMMANDS,
            ranking::COMMANDS,
            drawing::COMMANDS,
            rules::COMMANDS,
            shelf::COMMANDS,
            trials::COMMANDS,
            look_back::COMMANDS,
            why::COMMANDS,
            doubt::COMMANDS,
            fit_map::COMMANDS,
            movement::COMMANDS,
            pages::COMMANDS,
            looks::COMMANDS,
        ]
        .into_iter()
        .flatten()
    }

    /// The names of the panels in which its keys count; empty: everywhere.
    pub fn panel_names(&self) -> String {
        let panels: Vec<&str> = self.focus.iter().map(|focus| focus.name()).collect();
        panels.join(", ")
    }

    /// The command with a name in key maps.
    pub fn named(id: &str) -> Option<&'static Self> {
        Self::all().find(|command| command.id == id)
    }

    /// Whether it can be done now; why not, otherwise.
    pub fn ready(&self, session: &Session) -> Result<(), Refused> {
        match (self.change)(session)? {
            Change::Edit(edit) | Change::Nudge(edit) => edit.check(session.document()),
            _ => Ok(()),
        }
    }

    /// The number of panels in which its keys count.
    pub(crate) const fn panels(&self) -> usize {
        if self.focus.is_empty() {
            Focus::ALL.len()
        } else {
            self.focus.len()
        }
    }

    /// Whether its keys count in a panel.
    pub fn counts_in(&self, focus: Focus) -> bool {
        self.focus.is_empty() || self.focus.contains(&focus)
    }
}

impl PartialEq for Command {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Eq for Command {}

impl fmt::Debug for Command {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.id)
    }
}

/// A change of where the operator is.
fn look(session: &Session, change: impl FnOnce(&mut View)) -> Change {
    let mut view = session.view().clone();
    change(&mut view);
    Change::View(Box::new(view), session.overlays().to_vec())
}

/// A change of what lies over the panels.
fn lay(session: &Session, change: impl FnOnce(&mut Vec<Overlay>)) -> Change {
    let mut overlays = session.overlays().to_vec();
    change(&mut overlays);
    Change::View(Box::new(session.view().clone()), overlays)
}

/// A layer over the panels.
fn open(session: &Session, layer: Overlay) -> Change {
    lay(session, |overlays| overlays.push(layer))
}

/// A field that asks for something, with a text to begin with.
fn ask(session: &Session, prompt: Prompt, text: impl Into<String>) -> Change {
    open(session, Overlay::Field(Field::new(prompt, text)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_command_has_a_name_of_its_own_and_says_what_it_does() {
        let ids: BTreeSet<&str> = Command::all().map(|command| command.id).collect();
        assert_eq!(ids.len(), Command::all().count());
        for command in Command::all() {
            assert!(
                !command.name.is_empty() && !command.says.is_empty(),
                "{command:?}"
            );
            assert!(command.name.chars().count() <= 16, "{command:?}");
            assert_eq!(Command::named(command.id), Some(command));
        }
    }

    #[test]
    fn no_command_is_on_a_key_that_keyboards_lack() {
        for command in Command::all() {
            assert!(!command.keys.is_empty(), "{command:?}");
            for key in command.keys {
                assert!(
                    !["[", "]", "{", "}", "`", "\\"].contains(key),
                    "{command:?}"
                );
            }
        }
    }
}
