use super::ListFilter;
use super::layer::{Layer, Outcome};
use crate::editor::Editor;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::keymap::KeyMap;
use crate::model::Model;

/// Every command with its keys: the help, and a way to run what has no key.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CommandList {
    /// What was typed to find one, and which of those found is selected.
    pub filter: ListFilter,
}

impl CommandList {
    /// The ids of the commands whose name, description, id or keys hold every word
    /// typed.
    pub fn found(&self, keymap: &KeyMap) -> Vec<&'static str> {
        let found = keymap.bindings().iter().filter(|binding| {
            let keys: Vec<String> = binding.keys.iter().map(Key::to_string).collect();
            let text = format!("{} {} {}", binding.id, binding.text, keys.join(" "));
            self.filter.holds(&text)
        });
        found.map(|binding| binding.id).collect()
    }

    /// The selected command.
    fn command(&self, keymap: &KeyMap) -> Option<&'static str> {
        self.found(keymap).get(self.filter.selected).copied()
    }
}

impl Layer for CommandList {
    fn key(&mut self, key: Key, model: &Model) -> Outcome {
        let keymap = model.keymap();
        match key.code {
            KeyCode::Enter => return self.command(keymap).map_or(Outcome::Close, Outcome::Run),
            KeyCode::Esc if self.filter.editor.is_empty() => return Outcome::Close,
            KeyCode::Esc => {
                self.filter.type_in(Editor::default());
            }
            _ => {
                let last = self.found(keymap).len().saturating_sub(1);
                self.filter.key(key, last, model.view().visible.overlay);
            }
        }
        Outcome::Stay
    }

    fn paste(&mut self, text: &str) {
        self.filter.paste(text);
    }

    fn footer(&self, _session: &Model) -> Vec<Hint> {
        hints(&[
            ("enter", "run"),
            ("up", "up"),
            ("down", "down"),
            ("esc", "close"),
        ])
    }
}
