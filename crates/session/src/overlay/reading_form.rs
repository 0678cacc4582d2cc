use super::confirmation::{self, NotYet, confirmed};
use super::layer::{Layer, Next, Outcome};
use super::{Confirmation, Reply, Taken};
use crate::command::Change;
use crate::editor::Editor;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::{Edit, Refused, Session, amount};
use files::Word;
use measurement::{GroupKey, Reading};

/// Everything of one reading, line by line; it takes every key.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadingForm {
    /// The reading as it was opened, and its choices as they stand.
    pub reading: Reading,
    /// Whether it is a new one.
    pub is_new: bool,
    /// What was typed as its value.
    pub value: Editor,
    /// What was typed as its standard deviation; nothing: your centre's.
    pub sd: Editor,
    /// The selected line.
    pub line: ReadingLine,
    /// What is wrong with it, if it was refused.
    pub error: Option<String>,
    /// What is asked back about it, before it is taken.
    pub asks: Option<Confirmation>,
}

/// A line of the form of a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadingLine {
    /// The value.
    Value,
    /// The standard deviation.
    Sd,
    /// How it was taken.
    Modality,
    /// On which side.
    Side,
    /// When in the cycle.
    Phase,
    /// Between what.
    Method,
}

impl ReadingLine {
    /// Every line, from top to bottom.
    pub const ALL: [Self; 6] = [
        Self::Value,
        Self::Sd,
        Self::Modality,
        Self::Side,
        Self::Phase,
        Self::Method,
    ];

    /// What it asks.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Value => "value",
            Self::Sd => "SD",
            Self::Modality => "read by",
            Self::Side => "side",
            Self::Phase => "phase",
            Self::Method => "method",
        }
    }

    fn beside(self, forward: bool) -> Self {
        beside(&Self::ALL, self, forward)
    }
}

impl ReadingForm {
    pub(crate) fn new(reading: Reading, is_new: bool, value: String) -> Self {
        let quantity = reading.quantity;
        let sd = reading.sd.map(|sd| amount::number(quantity, sd));
        Self {
            reading,
            is_new,
            value: Editor::selected(value),
            sd: Editor::selected(sd.unwrap_or_default()),
            line: ReadingLine::Value,
            error: None,
            asks: None,
        }
    }

    /// The question, short enough for a line.
    pub fn title(&self) -> String {
        let quantity = self.reading.quantity;
        let new = if self.is_new { "new reading: " } else { "" };
        format!("{new}{quantity}, {}", quantity.unit().symbol())
    }

    /// The word of the file for what a line chooses; `None` where it is typed.
    pub fn choice(&self, line: ReadingLine) -> Option<&'static str> {
        match line {
            ReadingLine::Value | ReadingLine::Sd => None,
            ReadingLine::Modality => Some(self.reading.modality.word()),
            ReadingLine::Side => Some(self.reading.side.word()),
            ReadingLine::Phase => Some(self.reading.phase.word()),
            ReadingLine::Method => Some(self.reading.method.word()),
        }
    }

    /// The editor of a line that is typed.
    pub const fn editor(&self, line: ReadingLine) -> Option<&Editor> {
        match line {
            ReadingLine::Value => Some(&self.value),
            ReadingLine::Sd => Some(&self.sd),
            _ => None,
        }
    }

    /// Where the house rules put such a reading: its place among the kinds they
    /// take, the preferred at 0; `None` where they do not take it.
    pub fn preference(&self, session: &Session) -> Option<usize> {
        let document = session.document();
        let quantity = self.reading.quantity;
        let rule = sizing::resolve::preference(document.case(), document.rules(), quantity)?;
        let key = GroupKey {
            side: self.reading.side,
            phase: self.reading.phase,
            method: self.reading.method,
        };
        rule.patterns
            .iter()
            .position(|pattern| pattern.accepts(&key))
    }

    const fn editor_mut(&mut self) -> Option<&mut Editor> {
        match self.line {
            ReadingLine::Value => Some(&mut self.value),
            ReadingLine::Sd => Some(&mut self.sd),
            _ => None,
        }
    }

    fn take(&mut self, key: Key) -> Taken {
        if self.asks.is_some() {
            match Confirmation::answer(key) {
                Reply::Keep => return Taken::Commit,
                Reply::Drop => {
                    self.asks = None;
                    self.error = Some("not taken: type the right value".to_owned());
                    return Taken::Yes;
                }
                Reply::Correct => {
                    self.asks = None;
                    self.line = ReadingLine::Value;
                    self.value = Editor::selected(self.value.text());
                }
                // Something else of the reading may be what is wrong.
                Reply::Nothing if key.printed().is_none() && key.code != KeyCode::Enter => {
                    self.asks = None;
                }
                Reply::Nothing => return Taken::Yes,
            }
        }
        match key.code {
            KeyCode::Enter => return Taken::Commit,
            KeyCode::Esc => return Taken::Close,
            KeyCode::Up => self.line = self.line.beside(false),
            KeyCode::Down => self.line = self.line.beside(true),
            KeyCode::Tab => self.line = self.line.beside(!key.shift),
            code => {
                if let Some(editor) = self.editor_mut() {
                    editor.key(key);
                } else if let KeyCode::Right | KeyCode::Char(' ') = code {
                    self.choose(true);
                } else if code == KeyCode::Left {
                    self.choose(false);
                }
                self.error = None;
            }
        }
        Taken::Yes
    }

    fn choose(&mut self, forward: bool) {
        let reading = &mut self.reading;
        match self.line {
            ReadingLine::Value | ReadingLine::Sd => {}
            ReadingLine::Modality => reading.modality = next(reading.modality, forward),
            ReadingLine::Side => reading.side = next(reading.side, forward),
            ReadingLine::Phase => reading.phase = next(reading.phase, forward),
            ReadingLine::Method => reading.method = next(reading.method, forward),
        }
    }

    /// The edit it asks for; what is wrong with it, otherwise.
    pub(crate) fn read(&self, session: &Session) -> Result<Edit, Refused> {
        let quantity = self.reading.quantity;
        let value = amount::typed(quantity, &self.value.text())
            .ok_or_else(|| Refused::new(format!("expected {}", amount::range(quantity))))?;
        let sd = match self.sd.text().trim() {
            "" => None,
            text => Some(amount::typed(quantity, text).ok_or_else(|| {
                Refused::new("expected a number as SD, or nothing for your centre's")
            })?),
        };
        let reading = Reading {
            value,
            sd,
            ..self.reading.clone()
        };
        Ok(if self.is_new {
            Edit::Insert(session.document().case().readings.len(), reading)
        } else {
            Edit::Replace(reading)
        })
    }
}

impl Layer for ReadingForm {
    fn key(&mut self, key: Key, session: &Session) -> Outcome {
        match self.take(key) {
            Taken::Yes => return Outcome::Stay,
            Taken::Close => return Outcome::Close,
            Taken::Commit => {}
        }
        let asked = self.asks.take();
        let read = || self.read(session).map(Change::Edit);
        match confirmed(asked, read, session) {
            Ok(change) => Outcome::Do(change, Next::Question),
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

    /// After a question about the value what is pasted is the right one.
    fn paste(&mut self, text: &str) {
        if self.asks.take().is_some() {
            self.line = ReadingLine::Value;
            self.value = Editor::default();
        }
        if let Some(editor) = self.editor_mut() {
            editor.paste(text);
            self.error = None;
        }
    }

    fn refuse(&mut self, why: String) {
        self.error = Some(why);
    }

    fn footer(&self, _session: &Session) -> Vec<Hint> {
        if self.asks.is_some() {
            return confirmation::footer();
        }
        hints(&[
            ("enter", "accept"),
            ("down", "next line"),
            ("right", "next choice"),
            ("esc", "cancel"),
        ])
    }
}

/// The word beside one in the list of all, round its ends.
pub(super) fn next<W: Word>(one: W, forward: bool) -> W {
    let all: Vec<W> = W::WORDS.iter().map(|&(_, value)| value).collect();
    beside(&all, one, forward)
}

/// The one beside another in a list, round its ends.
pub(super) fn beside<T: Copy + PartialEq>(all: &[T], one: T, forward: bool) -> T {
    let place = all.iter().position(|other| *other == one).unwrap_or(0);
    let by = if forward {
        1
    } else {
        all.len().saturating_sub(1)
    };
    all.get((place + by) % all.len().max(1))
        .copied()
        .unwrap_or(one)
}
