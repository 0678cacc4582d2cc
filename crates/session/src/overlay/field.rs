use super::{Confirmation, Prompt, Reply, Taken};
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
    /// What is asked back about it, before it is taken.
    pub asks: Option<Confirmation>,
}

impl Field {
    pub(crate) fn new(prompt: Prompt, text: impl Into<String>) -> Self {
        Self {
            prompt,
            editor: Editor::selected(text),
            error: None,
            asks: None,
        }
    }

    /// Takes a pasted text; after a question it is the right value.
    pub(crate) fn paste(&mut self, text: &str) {
        if self.asks.take().is_some() {
            self.editor = Editor::default();
        }
        self.editor.paste(text);
        self.error = None;
    }

    pub(crate) fn key(&mut self, key: Key) -> Taken {
        if self.asks.is_some() {
            match Confirmation::answer(key) {
                Reply::Keep => return Taken::Commit,
                Reply::Drop => {
                    self.asks = None;
                    self.editor = Editor::default();
                    self.error = Some("not taken: type the right value".to_owned());
                    return Taken::Yes;
                }
                Reply::Correct => {
                    self.asks = None;
                    self.editor = Editor::selected(self.editor.text());
                }
                Reply::Nothing => return Taken::Yes,
            }
        }
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
