use crate::{Answer, Facts, Subject};
use geometry::Occluder;
use measurement::{Conduction, is_under};
use std::fmt;

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
    /// The discs are stiff (your centre's conformability).
    StiffDiscs,
    /// Chordae of the valve insert on the edge.
    ChordaeOnEdge,
    /// Nobody knows whether chordae of the valve insert on the edge.
    ChordaeUnknown,
    /// The shape lacks a disc on one side or both.
    MissingDisc,
    /// The conduction before was that of a second-degree, left bundle, bifascicular
    /// or complete block, or nobody knows.
    BlockBefore,
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
    /// It in words, as the end of a sentence: what is not known counts as if it
    /// were so.
    pub fn says(self) -> String {
        match self {
            Self::Prolapse => "a cusp prolapses or may".to_owned(),
            Self::WeightUnder(weight) => {
                format!("the weight is under {weight} kg or was not measured")
            }
            Self::AgeUnder(age) => format!("the age is under {age} years or was not given"),
            Self::StiffDiscs => "the discs are stiff".to_owned(),
            Self::ChordaeOnEdge => "chordae insert on the edge".to_owned(),
            Self::ChordaeUnknown => "nobody knows whether chordae insert on the edge".to_owned(),
            Self::MissingDisc => "the shape lacks a disc".to_owned(),
            Self::BlockBefore => "there was a block before, or may have been".to_owned(),
        }
    }

    /// Whether a text is one as house rules write it: `weight_under(10)`.
    pub(super) fn is_word(text: &str) -> bool {
        let under = |kind: &str| {
            let number = text
                .strip_prefix(kind)?
                .strip_prefix('(')?
                .strip_suffix(')')?;
            number.parse::<f64>().ok()
        };
        let plain = [
            Self::Prolapse,
            Self::StiffDiscs,
            Self::ChordaeOnEdge,
            Self::ChordaeUnknown,
            Self::MissingDisc,
            Self::BlockBefore,
        ];
        plain.iter().any(|one| one.to_string() == text)
            || under("weight_under")
                .or_else(|| under("age_under"))
                .is_some()
    }

    /// Whether it holds for a shape and the subject of a check.
    pub fn holds(self, at: &Circumstances, occluder: &Occluder, of: Subject) -> bool {
        let chordae = match of {
            Subject::Valve(valve) => at.facts.chordae_on_edge(valve),
            _ => Answer::No,
        };
        match self {
            Self::Prolapse => at.facts.prolapse.may_be(),
            Self::WeightUnder(limit) => at.weight.is_none_or(|weight| is_under(weight, limit)),
            Self::AgeUnder(limit) => at.age.is_none_or(|age| is_under(age, limit)),
            Self::StiffDiscs => occluder.conformability < at.stiff_below,
            Self::ChordaeOnEdge => chordae == Answer::Yes,
            Self::ChordaeUnknown => chordae == Answer::Unknown,
            Self::MissingDisc => occluder.discs.iter().any(Option::is_none),
            Self::BlockBefore => !matches!(
                at.facts.conduction,
                Conduction::Normal | Conduction::FirstDegree
            ),
        }
    }
}

/// As house rules name it.
impl fmt::Display for Condition {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Prolapse => formatter.write_str("prolapse"),
            Self::WeightUnder(weight) => write!(formatter, "weight_under({weight})"),
            Self::AgeUnder(age) => write!(formatter, "age_under({age})"),
            Self::StiffDiscs => formatter.write_str("stiff_discs"),
            Self::ChordaeOnEdge => formatter.write_str("chordae_on_edge"),
            Self::ChordaeUnknown => formatter.write_str("chordae_unknown"),
            Self::MissingDisc => formatter.write_str("missing_disc"),
            Self::BlockBefore => formatter.write_str("block_before"),
        }
    }
}
