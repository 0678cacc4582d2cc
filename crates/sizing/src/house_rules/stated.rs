use super::Band;
use measurement::Unit;

/// What a rule states.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stated {
    /// What stops and what calls for caution.
    Limits {
        /// What stops.
        stop: Band,
        /// What calls for caution.
        caution: Band,
    },
    /// The value of a parameter.
    Value(f64),
    /// What is assumed of a quantity that nobody read.
    Assumed {
        /// The value.
        value: f64,
        /// Its standard deviation.
        sd: f64,
    },
}

impl Stated {
    /// What it states, in words.
    pub fn says(self, unit: Unit) -> String {
        self.says_against(self, unit)
    }

    /// The same where it replaces another: a limit that only the other has is
    /// said to be gone.
    pub(crate) fn says_against(self, other: Self, unit: Unit) -> String {
        match self {
            Self::Limits { stop, caution } => {
                let (was_stop, was_caution) = match other {
                    Self::Limits { stop, caution } => (stop, caution),
                    _ => (Band::NONE, Band::NONE),
                };
                let bands = [("limit", stop, was_stop), ("warning", caution, was_caution)];
                let said = bands.into_iter().filter_map(|(word, band, was)| {
                    match (band.is_none(), was.is_none()) {
                        (false, _) => Some(format!("{word} {}", band.says(unit))),
                        (true, false) => Some(format!("no {word}")),
                        (true, true) => None,
                    }
                });
                said.collect::<Vec<_>>().join("; ")
            }
            Self::Value(value) => format!("{value} {unit}"),
            Self::Assumed { value, sd } => format!("{value} ± {sd} {unit}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_that_neither_has_is_not_spoken_of() {
        let low = Band {
            low: Some(1.0),
            high: None,
        };
        let stated = |stop, caution| Stated::Limits { stop, caution };
        let (none, some) = (stated(Band::NONE, Band::NONE), stated(low, Band::NONE));
        assert_eq!(some.says(Unit::Mm), "limit under 1 mm");
        assert_eq!(none.says_against(some, Unit::Mm), "no limit");
        assert_eq!(Stated::Value(0.5).says(Unit::Share), "0.5 share");
    }
}
