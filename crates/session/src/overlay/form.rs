//! Forms: lines of which each says one part of a thing.

use super::confirmation::{self, Confirmation, ConfirmationAnswer};
use super::layer::{Layer, Next, Outcome};
use super::task::Task;
use crate::editor::Editor;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::model::Model;
use crate::{Refused, amount};
use files::Word;

/// A form over the page, line by line; it takes every key.
#[derive(Clone, Debug, PartialEq)]
pub struct Form<Of, Part> {
    /// What it is of, as it was opened.
    pub of: Of,
    /// Its lines from top to bottom; a value that may be asked about stands first.
    pub lines: Vec<(Part, FormEntry)>,
    /// The index of the selected line.
    pub selected: usize,
    /// What is wrong with it, if it was refused.
    pub error: Option<String>,
    /// What is asked back about what was typed, before it is taken.
    pub asks: Option<Confirmation>,
}

/// What a line of a form says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FormEntry {
    /// It is typed.
    Typed(Editor),
    /// It is chosen.
    Chosen {
        /// The words of the file for all that can be chosen.
        words: Vec<&'static str>,
        /// The index of the chosen one.
        index: usize,
    },
}

impl FormEntry {
    /// A line that is typed, filled in with a text that the first typed character
    /// replaces.
    pub(super) fn typed(text: impl Into<String>) -> Self {
        Self::Typed(Editor::selected(text))
    }

    /// A line that chooses among all values of a kind, one of them chosen.
    pub(super) fn chosen<W: Word>(value: W) -> Self {
        let words = W::WORDS.iter();
        let index = words.clone().position(|&(_, one)| one == value);
        Self::Chosen {
            words: words.map(|&(word, _)| word).collect(),
            index: index.unwrap_or(0),
        }
    }
}

/// What a form is of: what it makes of its lines.
pub(crate) trait FormSubject<Part>: Sized {
    /// What follows once its change is made.
    const NEXT: Next = Next::Page;
    /// What Enter does, in a word or two.
    const ENTER: &'static str = "accept";

    /// The change that its lines ask for.
    fn read(form: &Form<Self, Part>, model: &Model) -> Result<Task, FormError<Part>>;

    /// Whether what is typed on a line is somebody's words.
    fn takes_words(&self, _part: Part) -> bool {
        false
    }

    /// Whether Enter on a line that says something goes on to the next line.
    fn goes_on(_part: Part) -> bool {
        false
    }
}

/// What is wrong with a form, and on which line.
pub(crate) struct FormError<Part> {
    /// The line; `None`: the selected one.
    part: Option<Part>,
    /// What is wrong.
    says: String,
}

impl<Part> FormError<Part> {
    /// An error of the form as a whole.
    pub(super) const fn of_form(says: String) -> Self {
        Self { part: None, says }
    }

    /// An error on a line, told under its label.
    pub(super) fn on(part: Part, label: &str, says: impl std::fmt::Display) -> Self {
        Self {
            part: Some(part),
            says: format!("{}: {says}", label.trim_start()),
        }
    }
}

impl<Part> From<Refused> for FormError<Part> {
    fn from(refused: Refused) -> Self {
        Self::of_form(refused.to_string())
    }
}

/// What was typed is no number.
#[derive(Clone, Copy, Debug)]
pub(super) struct NoNumber;

impl<Of, Part: Copy + PartialEq> Form<Of, Part> {
    pub(super) const fn with(of: Of, lines: Vec<(Part, FormEntry)>) -> Self {
        Self {
            of,
            lines,
            selected: 0,
            error: None,
            asks: None,
        }
    }

    /// The part of the selected line.
    pub fn part(&self) -> Option<Part> {
        self.lines.get(self.selected).map(|(part, _)| *part)
    }

    /// The editor of the selected line, where that is typed.
    pub fn editor(&self) -> Option<&Editor> {
        match self.lines.get(self.selected) {
            Some((_, FormEntry::Typed(editor))) => Some(editor),
            _ => None,
        }
    }

    fn editor_mut(&mut self) -> Option<&mut Editor> {
        match self.lines.get_mut(self.selected) {
            Some((_, FormEntry::Typed(editor))) => Some(editor),
            _ => None,
        }
    }

    fn entry(&self, part: Part) -> Option<&FormEntry> {
        let line = self.lines.iter().find(|(one, _)| *one == part);
        line.map(|(_, entry)| entry)
    }

    /// What was typed for a part.
    pub fn text(&self, part: Part) -> String {
        match self.entry(part) {
            Some(FormEntry::Typed(editor)) => editor.text().trim().to_owned(),
            _ => String::new(),
        }
    }

    /// What is chosen for a part.
    pub(super) fn choice<W: Word>(&self, part: Part) -> Option<W> {
        match self.entry(part)? {
            FormEntry::Chosen { index, .. } => W::WORDS.get(*index).map(|&(_, value)| value),
            FormEntry::Typed(_) => None,
        }
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

    /// Goes to the line that is wrong and says what is.
    fn show(&mut self, error: FormError<Part>) {
        let is_wrong = |(part, _): &(Part, FormEntry)| Some(*part) == error.part;
        let line = self.lines.iter().position(is_wrong);
        self.selected = line.unwrap_or(self.selected);
        self.error = Some(error.says);
    }

    /// Puts a text in place of the value that was asked about: what is typed next
    /// replaces it.
    fn retype(&mut self, text: impl Into<String>) {
        self.selected = 0;
        if let Some(editor) = self.editor_mut() {
            *editor = Editor::selected(text);
        }
    }

    /// A key on the selected line.
    fn fill(&mut self, key: Key) {
        let is_taken = match self.lines.get_mut(self.selected) {
            Some((_, FormEntry::Typed(editor))) => editor.key(key),
            Some((_, FormEntry::Chosen { words, index })) => {
                let count = words.len().max(1);
                let by = match key.code {
                    KeyCode::Right | KeyCode::Char(' ') => 1,
                    KeyCode::Left => count - 1,
                    _ => 0,
                };
                *index = (*index + by) % count;
                by > 0
            }
            None => false,
        };
        if is_taken {
            self.error = None;
        }
    }
}

/// A key while a question waits for its answer; `None` where it is one for the lines.
fn answer<Of, Part>(form: &mut Form<Of, Part>, key: Key) -> Option<Outcome>
where
    Of: FormSubject<Part>,
    Part: Copy + PartialEq,
{
    let asked = form.asks.take()?;
    match Confirmation::answer(key) {
        ConfirmationAnswer::Keep => return Some(Outcome::Do(Task::Edit(asked.edit), Of::NEXT)),
        ConfirmationAnswer::Drop => {
            form.retype("");
            form.error = Some("dropped; type the right value".to_owned());
            return Some(Outcome::Stay);
        }
        ConfirmationAnswer::Correct => {
            form.selected = 0;
            let text = form.editor().map_or_else(String::new, Editor::text);
            form.retype(text);
        }
        // Something else of it may be what is wrong.
        ConfirmationAnswer::Nothing
            if form.lines.len() > 1 && key.printed().is_none() && key.code != KeyCode::Enter => {}
        ConfirmationAnswer::Nothing => {
            form.asks = Some(asked);
            return Some(Outcome::Stay);
        }
    }
    None
}

/// Takes what the lines say, unless it is wrong, or odd and asked about first.
fn accept<Of, Part>(form: &mut Form<Of, Part>, model: &Model) -> Outcome
where
    Of: FormSubject<Part>,
    Part: Copy + PartialEq,
{
    match Of::read(form, model) {
        Err(error) => form.show(error),
        Ok(change) => {
            if let Task::Edit(edit) = &change {
                form.asks = Confirmation::of(edit, model);
            }
            if form.asks.is_none() {
                return Outcome::Do(change, Of::NEXT);
            }
        }
    }
    Outcome::Stay
}

impl<Of: FormSubject<Part>, Part: Copy + PartialEq> Layer for Form<Of, Part> {
    fn key(&mut self, key: Key, model: &Model) -> Outcome {
        if let Some(outcome) = answer(self, key) {
            return outcome;
        }
        let is_filled = |part| Of::goes_on(part) && !self.text(part).is_empty();
        let goes_on = self.part().is_some_and(is_filled);
        let count = self.lines.len().max(1);
        let by = match key.code {
            KeyCode::Esc => return Outcome::Close,
            KeyCode::Enter if !goes_on => return accept(self, model),
            KeyCode::Enter => 1,
            KeyCode::Up if count > 1 => count - 1,
            KeyCode::Tab if count > 1 && key.shift => count - 1,
            KeyCode::Down | KeyCode::Tab if count > 1 => 1,
            _ => {
                self.fill(key);
                return Outcome::Stay;
            }
        };
        self.selected = (self.selected + by) % count;
        Outcome::Stay
    }

    /// After a question what is pasted is the right value.
    fn paste(&mut self, text: &str) {
        if self.asks.take().is_some() {
            self.retype("");
        }
        if let Some(editor) = self.editor_mut() {
            editor.paste(text);
            self.error = None;
        }
    }

    fn refuse(&mut self, why: String) {
        self.error = Some(why);
    }

    fn takes_words(&self) -> bool {
        self.part().is_some_and(|part| self.of.takes_words(part))
    }

    fn footer(&self, _session: &Model) -> Vec<Hint> {
        if self.asks.is_some() {
            return confirmation::footer();
        }
        let goes_on = self.part().is_some_and(Of::goes_on);
        let enter = ("enter", if goes_on { "go on" } else { Of::ENTER });
        let is_chosen = |(_, entry): &(Part, FormEntry)| matches!(entry, FormEntry::Chosen { .. });
        let of_line = if self.lines.iter().any(is_chosen) {
            ("right", "next choice")
        } else {
            ("ctrl-u", "clear")
        };
        if self.lines.len() > 1 {
            hints(&[enter, ("down", "next line"), of_line, ("esc", "cancel")])
        } else {
            hints(&[enter, ("esc", "cancel"), of_line])
        }
    }
}
