//! A chance as people read it.

use crate::Candidate;

impl Candidate {
    /// The chance that every geometric limit holds, as whole per cent; `at most` where
    /// a check that has a limit was not assessed. `None` without simulated variations
    /// and where the case is not rated.
    pub fn chance_in_per_cent(&self) -> Option<String> {
        let value = 100.0 * self.chances.as_ref()?.chance.value;
        let bound = if self.is_chance_whole() {
            ""
        } else {
            "at most "
        };
        Some(match value {
            value if value < 1.0 => "< 1 %".to_owned(),
            value if value > 99.0 && bound.is_empty() => "> 99 %".to_owned(),
            value => format!("{bound}{value:.0} %"),
        })
    }
}
