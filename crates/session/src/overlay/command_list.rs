use super::layer::{Layer, Outcome};
use super::listed_beside;
use crate::editor::Editor;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::session::Session;
use crate::{Command, KeyMap};

/// Every command with its keys: the help, and a way to run what has no key.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CommandList {
    /// What was typed to find one.
    pub editor: Editor,
    /// The selected line among those found.
    pub selected: usize,
}

impl CommandList {
    /// The commands whose name, description, id or keys hold every word typed.
    pub fn found(&self, keymap: &KeyMap) -> Vec<&'static Command> {
        let text = self.editor.text().to_lowercase();
        let words: Vec<&str> = text.split_whitespace().collect();
        Command::all()
            .filter(|command| {
                let keys: Vec<String> = keymap.keys(command).iter().map(Key::to_string).collect();
                let Command { id, name, says, .. } = command;
                let all = format!("{id} {name} {says} {}", keys.join(" ")).to_lowercase();
                words.iter().all(|word| all.contains(word))
            })
            .collect()
    }

    /// The selected command.
    pub fn command(&self, keymap: &KeyMap) -> Option<&'static Command> {
        self.found(keymap).get(self.selected).copied()
    }

    /// Another text finds other commands: the selection returns to the first.
    fn type_in(&mut self, editor: Editor) {
        if editor.text() != self.editor.text() {
            self.selected = 0;
        }
        self.editor = editor;
    }
}

impl Layer for CommandList {
    fn key(&mut self, key: Key, session: &Session) -> Outcome {
        let keymap = session.keymap();
        let last = self.found(keymap).len().saturating_sub(1);
        if let Some(line) = listed_beside(key, self.selected, last, session.view().rooms.overlay) {
            self.selected = line;
            return Outcome::Stay;
        }
        match key.code {
            KeyCode::Enter => return self.command(keymap).map_or(Outcome::Close, Outcome::Run),
            KeyCode::Esc if self.editor.is_empty() => return Outcome::Close,
            KeyCode::Esc => self.type_in(Editor::default()),
            _ => {
                let mut editor = self.editor.clone();
                editor.key(key);
                self.type_in(editor);
            }
        }
        Outcome::Stay
    }

    fn paste(&mut self, text: &str) {
        let mut editor = self.editor.clone();
        editor.paste(text);
        self.type_in(editor);
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
