use super::Agreement;

/// What a look-back proposes for a way of reading: only a person puts it into rules.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Proposed {
    /// By how much the reading is too large, shrunk toward 0.
    pub too_large_by: f64,
    /// The standard deviation of a reading, without that of what was seen.
    pub sd: f64,
}

impl Proposed {
    /// Whether the standard deviation is told: at the least one what was seen explains the
    /// whole spread, and a reading is not to be called surer by that.
    pub fn is_sd_told(&self) -> bool {
        self.sd > LEAST_SD
    }
}

/// The fewest differences that speak for a proposal.
const FEWEST: usize = 20;
/// A bias is expected within this of 0, one SD.
const EXPECTED: f64 = 0.5;
/// No reading is proposed to be surer than this.
const LEAST_SD: f64 = 0.2;

/// A proposal where at least 20 differences have a mean whose 95 % interval leaves 0 out:
/// the mean shrunk toward normal(0, 0.5) by its own error, and the SD that is left when
/// the variance `of_seen` of what was seen is taken off, at least 0.2. In the unit of the
/// reading, meant for millimetres.
pub fn proposed(agreement: &Agreement, of_seen: f64) -> Option<Proposed> {
    let [low, high] = agreement.mean_interval;
    if agreement.count < FEWEST || (low <= 0.0 && high >= 0.0) {
        return None;
    }
    let (expected, error) = (EXPECTED * EXPECTED, agreement.mean_error);
    let left = agreement.sd * agreement.sd - of_seen;
    Some(Proposed {
        too_large_by: agreement.mean * expected / (expected + error * error),
        sd: left.max(0.0).sqrt().max(LEAST_SD),
    })
}
