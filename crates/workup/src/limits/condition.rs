use super::NamedFigure;
use crate::figures::Figures;
use crate::truth::Truth;
use measurement::{Answer, Finding, Findings, is_at_least, is_at_most, is_over, is_under};

/// The bounds of a figure, any of which may be missing.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bounds {
    /// The least value within the bounds.
    pub at_least: Option<f64>,
    /// The value that the figure must be over.
    pub over: Option<f64>,
    /// The largest value within the bounds.
    pub at_most: Option<f64>,
    /// The value that the figure must be under.
    pub under: Option<f64>,
}

impl Bounds {
    /// Whether a value is within the bounds. A value on a bound, within
    /// [`TOLERANCE`](measurement::TOLERANCE), is at it and neither over nor under.
    pub fn hold(&self, value: f64) -> bool {
        self.at_least.is_none_or(|least| is_at_least(value, least))
            && self.over.is_none_or(|over| is_over(value, over))
            && self.at_most.is_none_or(|most| is_at_most(value, most))
            && self.under.is_none_or(|under| is_under(value, under))
    }
}

/// A condition that a row of guidance asks of a case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Condition<M> {
    /// A figure must lie within bounds.
    Figure(M, Bounds),
    /// A finding must have an answer.
    Finding(Finding, Answer),
}

impl<M: NamedFigure> Condition<M> {
    /// Whether the condition holds.
    pub(crate) fn holds(&self, figures: &Figures, findings: &Findings) -> Truth {
        match self {
            Self::Figure(measure, bounds) => Truth::of(
                figures
                    .get(measure.figure())
                    .map(|value| bounds.hold(value)),
            ),
            Self::Finding(finding, wanted) => match findings.get(finding) {
                None | Some(Answer::Unknown) => Truth::NotKnown,
                Some(answer) => Truth::of(Some(answer == wanted)),
            },
        }
    }

    /// The figure or finding that the condition depends on, in words.
    pub(crate) fn about(&self) -> &'static str {
        match self {
            Self::Figure(measure, _) => measure.figure().info().label,
            Self::Finding(finding, _) => finding.label(),
        }
    }
}
