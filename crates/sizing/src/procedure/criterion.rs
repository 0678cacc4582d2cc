use super::{Bounds, ObservationKind};
use crate::Subject;

/// A release criterion of one size, as it was written before the procedure.
#[derive(Clone, Debug, PartialEq)]
pub struct Criterion {
    /// The size, as `shape/size`.
    pub size: String,
    /// What is looked at.
    pub row: ObservationKind,
    /// Its subject.
    pub of: Subject,
    /// Who looks.
    pub who: String,
    /// How: views, scales and when again.
    pub view: String,
    /// Its bounds.
    pub bounds: Bounds,
    /// Where it comes from.
    pub source: String,
    /// Whether it was written only once the size was open.
    pub after_opening: bool,
    /// Every change since the first trial, the first one first.
    pub changes: Vec<CriterionChange>,
}

/// A change of a criterion after the first trial: it stays for good.
#[derive(Clone, Debug, PartialEq)]
pub struct CriterionChange {
    /// The minute after puncture.
    pub min: f64,
    /// The bounds before it.
    pub old: Bounds,
    /// The bounds after it.
    pub new: Bounds,
    /// Why.
    pub reason: String,
}

impl Criterion {
    /// What is looked at, with its subject: "regurgitation, aortic valve".
    pub fn name(&self) -> String {
        self.row.name_of(self.of)
    }
}
