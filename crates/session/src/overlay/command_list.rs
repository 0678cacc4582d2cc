use super::{Taken, listed_beside};
use crate::editor::Editor;
use crate::key::{Key, KeyCode};
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

    /// Takes a key; `page` lines of it are seen at once.
    pub(crate) fn key(&mut self, key: Key, page: usize, keymap: &KeyMap) -> Taken {
        let last = self.found(keymap).len().saturating_sub(1);
        if let Some(line) = listed_beside(key, self.selected, last, page) {
            self.selected = line;
            return Taken::Yes;
        }
        match key.code {
            KeyCode::Enter => return Taken::Commit,
            KeyCode::Esc if self.editor.is_empty() => return Taken::Close,
            KeyCode::Esc => self.type_in(Editor::default()),
            _ => {
                let mut editor = self.editor.clone();
                editor.key(key);
                self.type_in(editor);
            }
        }
        Taken::Yes
    }

    /// Another text finds other commands: the selection returns to the first.
    pub(crate) fn type_in(&mut self, editor: Editor) {
        if editor.text() != self.editor.text() {
            self.selected = 0;
        }
        self.editor = editor;
    }
}
