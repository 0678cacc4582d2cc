//! What lies over the panels. The topmost layer takes a key or passes it on.

mod case_form;
mod command_list;
mod confirmation;
mod exception_form;
mod field;
mod guide;
mod layer;
mod openables;
mod prompt;
mod question;
mod reading_form;
mod shelf_form;
mod step;
mod typed;

pub use case_form::{CaseForm, CaseLine};
pub use command_list::CommandList;
pub use confirmation::Confirmation;
pub(crate) use confirmation::Reply;
pub use exception_form::ExceptionForm;
pub use field::Field;
pub(crate) use guide::closing;
pub use guide::{Ask, Chapter, Guide, Listed, Mark, Told};
pub(crate) use layer::{Layer, Next, Outcome};
pub use openables::{Openable, Openables};
pub use prompt::Prompt;
pub use question::{Choice, Question};
pub use reading_form::{ReadingForm, ReadingLine};
pub use shelf_form::{ShelfForm, ShelfPart};
pub(crate) use step::{After, Step};
pub use typed::Typed;

use crate::key::{Key, KeyCode};

/// A layer over the panels.
#[derive(Clone, Debug, PartialEq)]
pub enum Overlay {
    /// The drawing on the whole screen; it passes every key on, so that what
    /// moves a number moves the drawing.
    Drawing,
    /// What a terminal makes of dots, styles and widths; it passes every key on, so
    /// that looks can be changed under it.
    TestCard,
    /// A field for one line; it takes every key.
    Field(Field),
    /// What a new case begins with; it takes every key.
    Case(CaseForm),
    /// What the case needs, question by question; it takes every key but those
    /// held with Ctrl.
    Guide(Guide),
    /// Everything of one reading; it takes every key.
    Reading(ReadingForm),
    /// What counts instead of a rule of the house; it takes every key.
    Exception(ExceptionForm),
    /// A shape or a size of the shelf; it takes every key.
    Shelf(ShelfForm),
    /// A question with its answers; it takes every key.
    Question(Question),
    /// Every command with its keys, to be filtered and run; it takes every key.
    Commands(CommandList),
    /// The cases that can be opened.
    Open(Openables),
}

impl Overlay {
    /// What takes keys of it; `None` where it passes every key on.
    pub(crate) fn layer(&self) -> Option<&dyn Layer> {
        Some(match self {
            Self::Drawing | Self::TestCard => return None,
            Self::Field(it) => it,
            Self::Case(it) => it,
            Self::Guide(it) => it,
            Self::Reading(it) => it,
            Self::Exception(it) => it,
            Self::Shelf(it) => it,
            Self::Question(it) => it,
            Self::Commands(it) => it,
            Self::Open(it) => it,
        })
    }

    /// The same, to be changed.
    pub(crate) fn layer_mut(&mut self) -> Option<&mut dyn Layer> {
        Some(match self {
            Self::Drawing | Self::TestCard => return None,
            Self::Field(it) => it,
            Self::Case(it) => it,
            Self::Guide(it) => it,
            Self::Reading(it) => it,
            Self::Exception(it) => it,
            Self::Shelf(it) => it,
            Self::Question(it) => it,
            Self::Commands(it) => it,
            Self::Open(it) => it,
        })
    }

    /// Whether what is typed into it is somebody's words, such as a title, a reason
    /// or a path.
    pub fn takes_words(&self) -> bool {
        self.layer().is_some_and(Layer::takes_words)
    }
}

/// The line of a form of so many that a key goes to from another, round its ends;
/// `None` where it goes to none.
fn line_beside(key: Key, line: usize, count: usize) -> Option<usize> {
    let count = count.max(1);
    let by = match key.code {
        KeyCode::Up => count - 1,
        KeyCode::Tab if key.shift => count - 1,
        KeyCode::Down | KeyCode::Tab => 1,
        _ => return None,
    };
    Some((line + by) % count)
}

/// The line of a list that a key goes to from another, not past its last; `page`
/// lines are seen at once. `None` where it goes to none.
fn listed_beside(key: Key, line: usize, last: usize, page: usize) -> Option<usize> {
    Some(match key.code {
        KeyCode::Up => line.saturating_sub(1),
        KeyCode::Down => (line + 1).min(last),
        KeyCode::PageUp => line.saturating_sub(page),
        KeyCode::PageDown => (line + page).min(last),
        _ => return None,
    })
}

/// A phrase as the beginning of a sentence.
fn capital(phrase: &str) -> String {
    let mut letters = phrase.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}

/// What a layer makes of a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Taken {
    /// It took the key.
    Yes,
    /// It asks to be closed.
    Close,
    /// It asks for what it stands for to be done.
    Commit,
}
