use crate::Subject;
use crate::trial::ObservationKind;
use measurement::look_back::{Difference, ForetoldPair};
use measurement::{Modality, Quantity, Unit, Valve};

/// One thing that is looked at, of one subject.
pub(super) type ObservationTarget = (ObservationKind, Subject);

/// A chance that was foretold of one thing, and what was seen of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct AnswerPair {
    pub(super) of: ObservationTarget,
    pub(super) foretold: ForetoldPair,
    /// Whether it is the case's first of this thing.
    pub(super) is_first: bool,
}

/// In which twentieth of what was foretold a value was seen.
#[derive(Clone, Copy, Debug)]
pub(super) struct ValuePair {
    pub(super) of: ObservationTarget,
    pub(super) twentieth: usize,
}

/// How far one reading of a case was from what was seen.
#[derive(Clone, Copy, Debug)]
pub(super) struct ReadingPair {
    pub(super) of: ReadBy,
    pub(super) difference: Difference,
    /// The variance of what was seen about the truth.
    pub(super) of_seen: f64,
}

/// What was read, and by what.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ReadBy {
    /// What the reading is compared with.
    pub what: ObservationKind,
    /// Its subject.
    pub of: Subject,
    /// By what it was read; `None`: by several, or worked out.
    pub by: Option<Modality>,
}

impl ReadBy {
    /// The quantities whose readings are compared: none of a gradient, which is worked
    /// out of several.
    pub fn quantities(self) -> Vec<Quantity> {
        match (self.what, self.of.valve()) {
            (ObservationKind::Distance, Some(valve)) => vec![Quantity::rim(valve)],
            (ObservationKind::Waist, _) => {
                vec![Quantity::DEFECT_LONG_AXIS, Quantity::DEFECT_SHORT_AXIS]
            }
            _ => Vec::new(),
        }
    }

    /// Its unit.
    pub const fn unit(self) -> Unit {
        match self.what.unit() {
            Some(unit) => unit,
            None => Unit::Mm,
        }
    }

    /// What was read, in words.
    pub fn label(self) -> String {
        let what = match (self.what, self.of.valve()) {
            (ObservationKind::Distance, Some(valve)) => rim(valve).to_owned(),
            (ObservationKind::Waist, _) => "perimeter-derived diameter".to_owned(),
            _ => format!("outflow gradient, {}", self.of.label()),
        };
        match (self.by, self.quantities().is_empty()) {
            (Some(by), _) => format!("{what}, by {}", by.label()),
            (None, true) => format!("{what}, worked out"),
            (None, false) => format!("{what}, measured in several ways"),
        }
    }
}

fn rim(valve: Valve) -> &'static str {
    Quantity::rim(valve).label()
}
