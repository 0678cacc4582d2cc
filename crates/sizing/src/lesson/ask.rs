use crate::Subject;
use measurement::ReadingId;

/// What a lesson asks, by what the program is to work out.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// Which of these sizes stands first in the ranked list.
    WhichFirst(Vec<String>),
    /// Which of these sizes are not ruled out.
    WhichFit(Vec<String>),
    /// Which reading decides.
    Decides {
        /// For this size; `None`: the first in stock.
        size: Option<String>,
        /// How many of the readings that most likely turn the state count as right.
        within_first: usize,
    },
    /// The value of a check.
    Value {
        /// The check's id.
        check: String,
        /// Its subject.
        of: Subject,
        /// The size it is asked of.
        size: String,
        /// How far off an answer may be, in the unit of the check.
        within: f64,
    },
    /// To which value one reading must be moved until a check is inside its limit.
    NudgeUntil {
        /// The reading.
        reading: ReadingId,
        /// The size.
        size: String,
        /// The check's id.
        inside: String,
        /// Its subject.
        of: Subject,
        /// How far off an answer may be, in the unit of the reading.
        within: f64,
    },
    /// In how many of a hundred simulated variations a size is inside every limit.
    Likely {
        /// The size.
        size: String,
        /// How far off an answer may be, in per cent.
        within: f64,
    },
    /// Whether to go on with a size or to stop.
    StopOrGoOn {
        /// The size; `None`: the first in stock.
        size: Option<String>,
        /// The size in place, which may be left as it is; `None`: nothing is in place.
        instead_of: Option<String>,
    },
}

impl Ask {
    /// Its name in a file.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::WhichFirst(_) => "which_first",
            Self::WhichFit(_) => "which_fit",
            Self::Decides { .. } => "decides",
            Self::Value { .. } => "value",
            Self::NudgeUntil { .. } => "nudge_until",
            Self::Likely { .. } => "likely",
            Self::StopOrGoOn { .. } => "stop_or_go_on",
        }
    }

    /// The sizes that it names.
    pub fn sizes(&self) -> Vec<&str> {
        match self {
            Self::WhichFirst(sizes) | Self::WhichFit(sizes) => {
                sizes.iter().map(String::as_str).collect()
            }
            Self::Decides { size, .. } => size.iter().map(String::as_str).collect(),
            Self::StopOrGoOn { size, instead_of } => {
                size.iter().chain(instead_of).map(String::as_str).collect()
            }
            Self::Value { size, .. }
            | Self::NudgeUntil { size, .. }
            | Self::Likely { size, .. } => {
                vec![size]
            }
        }
    }
}
