use super::Worth;
use crate::device_name;
use crate::words::percent;

impl Worth {
    /// What to measure next, in one sentence.
    pub fn says(&self) -> String {
        let chance = self.chance.value;
        match self.next() {
            Some(gain) => format!(
                "Measure the {} next: knowing it exactly would raise the chance of the best \
                 choice from {} to {}.",
                gain.quantity,
                percent(chance),
                percent(chance + gain.chance.value)
            ),
            None => {
                "No single reading would raise the chance of the best choice by 1 % or by more \
                     than its error."
                    .into()
            }
        }
    }

    /// How sure the choice is, in one sentence.
    pub fn says_not_best(&self) -> String {
        format!(
            "{} has the highest chance, {}; in {} of the simulated variations it is beyond a \
             limit while another size is inside all.",
            device_name(&self.best_name),
            percent(self.chance.value),
            percent(self.not_best.value)
        )
    }
}
