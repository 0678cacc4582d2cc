//! Published limits and open questions: a file says them, the program counts.

mod circumstances;
mod condition;
mod measure;
mod parameter;
mod question;
mod row;

pub use condition::{Bounds, Condition};
pub use measure::{Measure, OfAdult, OfChild, Shared};
pub use parameter::{Parameter, ParameterInfo};
pub use question::Question;
pub use row::{Bearing, LimitRow, Reach};

use physiology::MixedVenous;

/// What is published of closing a defect, and what is to be asked before.
///
/// Rows of adults and of children are of different types: an adult's limit on
/// absolute resistance cannot be held against a child, whose resistance is
/// indexed.
#[derive(Clone, Debug, PartialEq)]
pub struct Limits {
    /// Their title.
    pub title: String,
    /// Single numbers, one for each [`Parameter`], in its order, with its source.
    pub parameters: Vec<(f64, String)>,
    /// Which saturation stands for mixed venous blood.
    pub mixed_venous: MixedVenous,
    /// Rows for children.
    pub children: Vec<LimitRow<OfChild>>,
    /// Rows for adults.
    pub adults: Vec<LimitRow<OfAdult>>,
    /// What is to be measured, and the question it settles.
    pub questions: Vec<Question>,
    /// Other ways than a catheter, always said.
    pub ways: Vec<Way>,
}

/// Another way than closing by catheter.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// Its name.
    pub way: String,
    /// What it gives.
    pub gives: String,
    /// What it loses.
    pub loses: String,
    /// Where that comes from.
    pub source: String,
}

impl Limits {
    /// The value of a parameter.
    pub fn parameter(&self, parameter: Parameter) -> f64 {
        self.parameters[parameter.index()].0
    }
}
