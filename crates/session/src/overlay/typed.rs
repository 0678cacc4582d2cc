use super::{Taken, line_beside};
use crate::editor::Editor;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::{Refused, amount};

/// Lines that are typed, each for one part of a thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Typed<Part> {
    /// What was typed for each part.
    pub lines: Vec<(Part, Editor)>,
    /// The selected line, from 0.
    pub line: usize,
    /// What is wrong with it, if it was refused.
    pub error: Option<String>,
}

impl<Part: Copy + PartialEq> Typed<Part> {
    pub(super) const fn new(lines: Vec<(Part, Editor)>) -> Self {
        Self {
            lines,
            line: 0,
            error: None,
        }
    }

    /// The part of the selected line.
    pub(super) fn part(&self) -> Option<Part> {
        self.lines.get(self.line).map(|(part, _)| *part)
    }

    /// What was typed for a part.
    pub(super) fn text(&self, part: Part) -> String {
        let mut lines = self.lines.iter();
        let line = lines.find(|(one, _)| *one == part);
        line.map_or_else(String::new, |(_, editor)| editor.text().trim().to_owned())
    }

    /// A typed number, with a point or a comma, with or without its unit; `None`
    /// where nothing was typed, an error where it is none.
    pub(super) fn number(&self, part: Part, unit: &str) -> Result<Option<f64>, NoNumber> {
        let text = self.text(part);
        if text.is_empty() {
            return Ok(None);
        }
        amount::plain(&text, unit).map(Some).ok_or(NoNumber)
    }

    /// Goes to the line of a part and says what is wrong with it.
    pub(super) fn wrong(&mut self, part: Part, label: &str, says: &str) -> Refused {
        let line = self.lines.iter().position(|(one, _)| *one == part);
        self.line = line.unwrap_or(self.line);
        Refused::new(format!("{}: {says}", label.trim_start()))
    }

    pub(super) fn key(&mut self, key: Key) -> Taken {
        match key.code {
            KeyCode::Enter => return Taken::Commit,
            KeyCode::Esc => return Taken::Close,
            _ => {}
        }
        if let Some(line) = line_beside(key, self.line, self.lines.len()) {
            self.line = line;
        } else {
            if let Some((_, editor)) = self.lines.get_mut(self.line) {
                editor.key(key);
            }
            self.error = None;
        }
        Taken::Yes
    }

    pub(super) fn paste(&mut self, text: &str) {
        if let Some((_, editor)) = self.lines.get_mut(self.line) {
            editor.paste(text);
            self.error = None;
        }
    }
}

/// What was typed is no number.
#[derive(Clone, Copy, Debug)]
pub(super) struct NoNumber;

/// The keys of a form of lines.
pub(super) fn footer() -> Vec<Hint> {
    hints(&[
        ("enter", "accept"),
        ("down", "next line"),
        ("ctrl-u", "clear"),
        ("esc", "cancel"),
    ])
}
