use super::ListFilter;
use super::layer::{Layer, Outcome};
use crate::editor::Editor;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::session::Session;
use crate::{Command, KeyMap};

/// Every command with its keys: the help, and a way to run what has no key.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CommandList {
    /// What was typed to find one, and which of those found is selected.
    pub filter: ListFilter,
}

impl CommandList {
    /// The commands whose name, description, id or keys hold every word typed.
    pub fn found(&self, keymap: &KeyMap) -> Vec<&'static Command> {
        Command::all()
            .filter(|command| {
                let keys: Vec<String> = keymap.keys(command).iter().map(Key::to_string).collect();
                let Command { id, name, says, .. } = command;
                let text = format!("{id} {name} {says} {}", keys.join(" "));
                self.filter.holds(&text)
            })
            .collect()
    }

    /// The selected command.
    pub fn command(&self, keymap: &KeyMap) -> Option<&'static Command> {
        self.found(keymap).get(self.filter.selected).copied()
    }
}

impl Layer for CommandList {
    fn key(&mut self, key: Key, session: &Session) -> Outcome {
        let keymap = session.keymap();
        match key.code {
            KeyCode::Enter => return self.command(keymap).map_or(Outcome::Close, Outcome::Run),
            KeyCode::Esc if self.filter.editor.is_empty() => return Outcome::Close,
            KeyCode::Esc => {
                self.filter.type_in(Editor::default());
            }
            _ => {
                let last = self.found(keymap).len().saturating_sub(1);
                self.filter.key(key, last, session.view().visible.overlay);
            }
        }
        Outcome::Stay
    }

    fn paste(&mut self, text: &str) {
        self.filter.paste(text);
    }

    fn footer(&self, _session: &Session) -> Vec<Hint> {
        hints(&[
            ("enter", "run"),
            ("up", "up"),
            ("down", "down"),
            ("esc", "close"),
        ])
    }
}
