use super::{ObservationKind, Seen};
use std::cmp::Ordering;

/// The bounds of a criterion.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bounds {
    /// What still is inside; `None`: anything is.
    pub inside: Option<Seen>,
    /// From where on a grade, a rhythm or an answer is beyond, or past what a value is;
    /// `None`: nothing is.
    pub beyond: Option<Seen>,
}

/// How what was seen stands against a criterion written before. No state advises
/// anything.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CriterionState {
    /// Nobody looked, or nobody could tell: never counted as inside.
    NotLookedAt,
    /// Inside what was written before.
    Inside,
    /// Neither inside nor beyond.
    Between,
    /// Beyond the limit written before.
    Beyond,
}

impl CriterionState {
    /// The words for it on screens and in output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::NotLookedAt => "not looked at",
            Self::Inside => "inside",
            Self::Between => "between",
            Self::Beyond => "beyond the limit written before",
        }
    }
}

impl Bounds {
    /// How something seen stands against them, with what was there before.
    ///
    /// A change is judged: a grade, a rhythm or an answer that is no worse than before
    /// is inside; what was not looked at before counts as new.
    pub fn state(
        &self,
        kind: ObservationKind,
        before: Option<Seen>,
        seen: Option<Seen>,
    ) -> CriterionState {
        let Some(seen) = seen.filter(|seen| seen.is_told()) else {
            return CriterionState::NotLookedAt;
        };
        let worse = |seen: Seen, than: Seen| {
            let order = seen.against(than);
            if kind.is_worse_below() {
                order.map(Ordering::reverse)
            } else {
                order
            }
        };
        let is_within = |bound: Seen| worse(seen, bound).is_some_and(Ordering::is_le);
        // A value is itself said against the one before.
        let before = before.filter(|before| !matches!(before, Seen::Value(_)));
        if self.inside.is_none_or(is_within) || before.is_some_and(is_within) {
            return CriterionState::Inside;
        }
        let is_beyond = self.beyond.is_some_and(|beyond| match seen {
            Seen::Value(_) => worse(seen, beyond).is_some_and(Ordering::is_gt),
            _ => worse(seen, beyond).is_some_and(Ordering::is_ge),
        });
        if is_beyond {
            CriterionState::Beyond
        } else {
            CriterionState::Between
        }
    }

    /// They in words: "inside at 1.0 mm or less; beyond over 2.0 mm".
    pub fn says(&self, kind: ObservationKind) -> String {
        let inside = self.says_inside(kind);
        match self.says_beyond(kind) {
            Some(beyond) => format!("{inside}; {beyond}"),
            None => inside,
        }
    }

    /// What is inside, in words: "inside at 1.0 mm or less".
    pub fn says_inside(&self, kind: ObservationKind) -> String {
        let less = if kind.is_worse_below() {
            "or more"
        } else {
            "or less"
        };
        match self.inside {
            None => "anything is inside".to_owned(),
            Some(seen @ Seen::Value(_)) => format!("inside at {} {less}", seen.says(kind)),
            Some(seen @ Seen::Answer(_)) => format!("inside if {}", seen.says(kind)),
            Some(seen) => format!("inside up to {}, or as before", seen.says(kind)),
        }
    }

    /// What is beyond, in words: "beyond over 2.0 mm"; `None`: nothing is.
    pub fn says_beyond(&self, kind: ObservationKind) -> Option<String> {
        let over = if kind.is_worse_below() {
            "under"
        } else {
            "over"
        };
        Some(match self.beyond? {
            seen @ Seen::Value(_) => format!("beyond {over} {}", seen.says(kind)),
            seen @ Seen::Answer(_) => format!("beyond if {}", seen.says(kind)),
            seen => format!("beyond from {} on, if more than before", seen.says(kind)),
        })
    }
}
