use crate::{Answer, CirculationFigure, Fact};
use measurement::Finding;

/// What settles an exclusion: one of each list must hold. An empty list of lists
/// settles nothing.
pub type Settles = Vec<Vec<Evidence>>;

/// Something known of a case that can settle an exclusion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Evidence {
    /// A graded fact is at least so grave.
    AtLeast(Fact, Grade),
    /// A graded fact is at most so grave.
    AtMost(Fact, Grade),
    /// A finding has this answer.
    Is(Finding, Answer),
    /// A finding has not this answer: not known counts as not.
    IsNot(Finding, Answer),
    /// A figure of the circulation lies in these bounds.
    Figure(CirculationFigure, FigureBounds),
}

/// Bounds of a figure, any of which may be missing.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FigureBounds {
    /// The value over which it must be.
    pub over: Option<f64>,
    /// The value under which it must be.
    pub under: Option<f64>,
    /// The least value within.
    pub at_least: Option<f64>,
    /// The largest value within.
    pub at_most: Option<f64>,
}

/// How grave a prolapse or a leak is, the best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// There is none.
    None,
    /// A trace.
    Trivial,
    /// Mild.
    Mild,
    /// Moderate.
    Moderate,
    /// Severe.
    Severe,
}

impl FigureBounds {
    /// Whether a value lies within all that there are.
    pub(crate) fn hold(self, value: f64) -> bool {
        self.over.is_none_or(|over| value > over)
            && self.under.is_none_or(|under| value < under)
            && self.at_least.is_none_or(|least| value >= least)
            && self.at_most.is_none_or(|most| value <= most)
    }
}
