use crate::edit::Edit;
use measurement::Reading;

/// What a guide makes of a key.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum GuideStep {
    /// It took the key.
    Stay,
    /// It asks to be closed.
    Close,
    /// It leaves the key to others.
    Pass,
    /// An answer; after it the next question, or the same one again.
    Answer(Edit, After),
    /// The last step is to be taken back.
    Undo,
    /// All of a reading is to be said.
    Form {
        /// The reading.
        reading: Box<Reading>,
        /// Whether the case does not have it yet.
        is_new: bool,
        /// What was typed as its value.
        value: String,
    },
}

/// What a guide asks after an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum After {
    /// What is open next.
    Next,
    /// The same question.
    Same,
}
