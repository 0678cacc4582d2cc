//! What lies over the panels. The topmost layer takes a key or passes it on.

mod case_form;
mod command_list;
mod confirmation;
mod criterion_form;
mod exception_form;
mod finder;
mod form;
mod guide;
mod layer;
mod lesson;
mod list_filter;
mod look_back;
mod observation_form;
mod openables;
mod prompt;
mod question;
mod reading_form;
mod shelf_form;
mod step;
mod task;
mod why;

pub use case_form::{CaseForm, CaseLine, NewCase};
pub use command_list::{CommandList, CommandMatch};
pub use confirmation::Confirmation;
pub(crate) use confirmation::ConfirmationAnswer;
pub use criterion_form::{CriterionForm, CriterionPart};
pub use exception_form::ExceptionForm;
pub use finder::Finder;
pub use form::{Form, FormEntry};
pub(crate) use guide::closing;
pub use guide::{Ask, Chapter, Guide, GuideLine, GuideText, Mark};
pub(crate) use layer::{Layer, Next, Outcome};
pub use list_filter::ListFilter;
pub use look_back::{LookBackPage, Proposal};
pub use observation_form::{ObservationForm, ObservationPart};
pub use openables::{Openable, Openables};
pub use prompt::{Field, Prompt};
pub use question::{Choice, Question};
pub use reading_form::{ReadingDraft, ReadingForm, ReadingLine};
pub use shelf_form::{ShapeDraft, ShelfForm, ShelfPart};
pub(crate) use step::{After, GuideStep};
pub(crate) use task::Task;
pub use why::WhyWalk;

use crate::lesson::LessonPlay;

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
    /// The bounds of a release criterion; it takes every key.
    Criterion(CriterionForm),
    /// What was seen, to be corrected; it takes every key.
    Observation(ObservationForm),
    /// A shape or a size of the shelf; it takes every key.
    Shelf(ShelfForm),
    /// A question with its answers; it takes every key.
    Question(Question),
    /// Every command with its keys, to be filtered and run; it takes every key.
    Commands(CommandList),
    /// Quantities found by the words of the trade; it takes every key.
    Find(Finder),
    /// The cases that can be opened.
    Open(Openables),
    /// A lesson that is played; it takes every key but those held with Ctrl.
    Lesson(LessonPlay),
    /// Why a size and not its neighbours; it takes every key.
    Why(WhyWalk),
    /// What the cases of a folder say together; it takes every key.
    LookBack(LookBackPage),
}

/// The layer of an overlay, shared or to be changed; `None` is returned where it passes
/// every key on.
macro_rules! layer_of {
    ($overlay:expr) => {
        match $overlay {
            Overlay::Drawing | Overlay::TestCard => return None,
            Overlay::Field(it) => it,
            Overlay::Case(it) => it,
            Overlay::Guide(it) => it,
            Overlay::Reading(it) => it,
            Overlay::Exception(it) => it,
            Overlay::Criterion(it) => it,
            Overlay::Observation(it) => it,
            Overlay::Shelf(it) => it,
            Overlay::Question(it) => it,
            Overlay::Commands(it) => it,
            Overlay::Find(it) => it,
            Overlay::Open(it) => it,
            Overlay::Lesson(it) => it,
            Overlay::Why(it) => it,
            Overlay::LookBack(it) => it,
        }
    };
}

impl Overlay {
    /// The layer that takes its keys; `None` where it passes every key on.
    pub(crate) fn layer(&self) -> Option<&dyn Layer> {
        Some(layer_of!(self))
    }

    /// The layer that takes its keys, to be changed.
    pub(crate) fn layer_mut(&mut self) -> Option<&mut dyn Layer> {
        Some(layer_of!(self))
    }

    /// Whether what is typed into it is somebody's words, such as a title, a reason
    /// or a path.
    pub fn takes_words(&self) -> bool {
        self.layer().is_some_and(Layer::takes_words)
    }
}

/// A phrase as the beginning of a sentence.
fn capital(phrase: &str) -> String {
    let mut letters = phrase.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}
