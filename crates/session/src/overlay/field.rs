use super::{Prompt, Taken};
use crate::editor::Editor;
use crate::key::{Key, KeyCode};

/// A field for one line: every printed key is text and none a command.
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    /// What is asked.
    pub prompt: Prompt,
    /// What was typed.
    pub editor: Editor,
    /// What is wrong with it, if it was refused.
    pub error: Option<String>,
}

impl Field {
    pub(crate) fn new(prompt: Prompt, text: impl Into<String>) -> Self {
        Self {
            prompt,
            editor: Editor::selected(text),
            error: None,
        }
    }

    pub(crate) fn key(&mut self, key: Key) -> Taken {
        match key.code {
            KeyCode::Enter => Taken::Commit,
            KeyCode::Esc => Taken::Close,
            _ => {
                if self.editor.key(key) {
                    self.error = None;
                }
                Taken::Yes
            }
        }
    }
}
