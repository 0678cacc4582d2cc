//! Guidance: published limits, open questions and other ways, as a file gives them.

mod circumstances;
mod condition;
mod measure;
mod parameter;
mod question;
mod row;

pub use condition::{Bounds, Condition};
pub use measure::{NamedFigure, OfAdult, OfChild, SharedFigure};
pub use parameter::{Parameter, ParameterInfo};
pub use question::Question;
pub use row::{Bearing, LimitRow, Reach};

use physiology::MixedVenous;

/// Guidance on closing a defect: published limits, and what must be asked first.
///
/// Rows of adults and of children are of different types: an adult's limit on
/// absolute resistance cannot be held against a child, whose resistance is
/// indexed.
#[derive(Clone, Debug, PartialEq)]
pub struct Limits {
    /// The title of the guidance.
    pub title: String,
    /// The value and source of each [`Parameter`], at the parameter's own index.
    pub parameters: Vec<(f64, String)>,
    /// The parameters that the file lacks and that are those of the shipped guidance, by
    /// their words in files.
    pub from_shipped: Vec<&'static str>,
    /// Which saturation stands for mixed venous blood.
    pub mixed_venous: MixedVenous,
    /// Limits for children.
    pub children: Vec<LimitRow<OfChild>>,
    /// Limits for adults.
    pub adults: Vec<LimitRow<OfAdult>>,
    /// What must be measured, and the question that each settles.
    pub questions: Vec<Question>,
    /// Other ways than by catheter, which every work-up names.
    pub ways: Vec<Alternative>,
}

/// Another way than closing by catheter, with what speaks for and against it.
#[derive(Clone, Debug, PartialEq)]
pub struct Alternative {
    /// The name of the way.
    pub way: String,
    /// What speaks for it.
    pub gives: String,
    /// What speaks against it.
    pub loses: String,
    /// The source.
    pub source: String,
}

impl Limits {
    /// The value of a parameter.
    pub fn parameter(&self, parameter: Parameter) -> f64 {
        self.parameters[parameter.index()].0
    }
}
