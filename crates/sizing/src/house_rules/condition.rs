use crate::{Answer, Facts, Subject};
use geometry::Occluder;

/// When a row of limits counts.
///
/// What is not known counts as if it were so, where that is the stricter: a
/// missing weight brings the limits of a small child.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Condition {
    /// An aortic cusp prolapses, or nobody knows.
    Prolapse,
    /// The weight in kilograms is under this, or was not read.
    WeightUnder(f64),
    /// The age in years is under this, or was not read.
    AgeUnder(f64),
    /// The discs are stiff (the house rule's conformability).
    StiffDiscs,
    /// Chordae of the valve insert on the edge.
    ChordaeOnEdge,
    /// Nobody knows whether chordae of the valve insert on the edge.
    ChordaeUnknown,
}

/// What conditions are held against.
#[derive(Clone, Copy, Debug)]
pub struct Circumstances<'a> {
    /// Facts of the case.
    pub facts: &'a Facts,
    /// Weight in kilograms, if it was read.
    pub weight: Option<f64>,
    /// Age in years, if it was read.
    pub age: Option<f64>,
    /// The conformability under which a disc counts as stiff.
    pub stiff_below: f64,
}

impl Condition {
    /// Whether it holds for a shape and the subject of a check.
    pub fn holds(self, at: &Circumstances, occluder: &Occluder, of: Subject) -> bool {
        let chordae = match of {
            Subject::Valve(valve) => at.facts.chordae_on_edge(valve),
            _ => Answer::No,
        };
        match self {
            Self::Prolapse => at.facts.prolapse.may_be(),
            Self::WeightUnder(limit) => at.weight.is_none_or(|weight| weight < limit),
            Self::AgeUnder(limit) => at.age.is_none_or(|age| age < limit),
            Self::StiffDiscs => occluder.conformability < at.stiff_below,
            Self::ChordaeOnEdge => chordae == Answer::Yes,
            Self::ChordaeUnknown => chordae == Answer::Unknown,
        }
    }
}
