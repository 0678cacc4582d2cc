//! What a size hangs on, in one line.

use super::words::{beyond, within};
use super::{BreakEven, BreakEvens};
use crate::{Setting, State};

impl BreakEvens {
    /// The reading that decides, with its value and where the state as measured
    /// changes; `None` where no single reading changes it.
    pub fn decides(&self, setting: &Setting) -> Option<String> {
        let first = self.readings.first().filter(|one| one.can_change())?;
        let value = setting.resolved()[first.quantity.index()].value_says()?;
        let how = if first.is_assumed {
            "assumed"
        } else {
            "measured"
        };
        let holds = match self.held {
            State::Stop => format!("inside the limit at {}", beyond(first)),
            State::Caution => format!("borderline at {}", within(first)),
            State::Ok | State::NotAssessed => format!("no limit broken at {}", within(first)),
        };
        if self.takes_trials_in {
            let now = first.now_says();
            return Some(format!("{}, now believed {now}; {holds}", first.quantity));
        }
        Some(format!("{}, {how} {value}; {holds}", first.quantity))
    }
}

impl BreakEven {
    /// Whether the state as measured changes at some value of it.
    pub fn can_change(&self) -> bool {
        self.ends().next().is_some()
    }
}
