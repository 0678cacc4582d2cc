use super::confirmation::{self, NotYet, confirmed};
use super::layer::{Layer, Next, Outcome};
use super::{Confirmation, Prompt, Reply, Taken};
use crate::editor::Editor;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::session::Session;

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

    fn take(&mut self, key: Key) -> Taken {
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

impl Layer for Field {
    fn key(&mut self, key: Key, session: &Session) -> Outcome {
        match self.take(key) {
            Taken::Yes => return Outcome::Stay,
            Taken::Close => return Outcome::Close,
            Taken::Commit => {}
        }
        let read = || self.prompt.read(&self.editor.text(), session);
        match confirmed(self.asks.take(), read, session) {
            Ok(change) => Outcome::Do(change, Next::Page),
            Err(NotYet::Asks(asks)) => {
                self.asks = Some(*asks);
                Outcome::Stay
            }
            Err(NotYet::Refused(refused)) => {
                self.refuse(refused.to_string());
                Outcome::Stay
            }
        }
    }

    /// After a question what is pasted is the right value.
    fn paste(&mut self, text: &str) {
        if self.asks.take().is_some() {
            self.editor = Editor::default();
        }
        self.editor.paste(text);
        self.error = None;
    }

    fn refuse(&mut self, why: String) {
        self.error = Some(why);
    }

    fn takes_words(&self) -> bool {
        matches!(self.prompt, Prompt::Reason(..) | Prompt::SaveTo { .. })
    }

    fn footer(&self, _session: &Session) -> Vec<Hint> {
        if self.asks.is_some() {
            return confirmation::footer();
        }
        hints(&[("enter", "accept"), ("esc", "cancel"), ("ctrl-u", "clear")])
    }
}
