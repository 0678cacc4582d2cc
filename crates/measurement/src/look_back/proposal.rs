use super::Agreement;

/// The bias and standard deviation that a look-back proposes for a way of measuring. Only
/// a person puts them into rules.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BiasProposal {
    /// The amount by which the reading is too large, shrunk toward 0.
    pub too_large_by: f64,
    /// The standard deviation of a reading, without that of what was seen.
    pub sd: f64,
}

impl BiasProposal {
    /// Whether the standard deviation is proposed too. At its least value the doubt of what
    /// was seen explains the whole spread, which is no reason to call a reading surer.
    pub fn proposes_sd(&self) -> bool {
        self.sd > LEAST_SD
    }
}

/// The fewest differences from which a bias is proposed.
const FEWEST: usize = 20;
/// The expected standard deviation of a bias about 0.
const EXPECTED: f64 = 0.5;
/// The least standard deviation that is proposed.
const LEAST_SD: f64 = 0.2;

/// Proposes a bias where at least 20 differences have a mean whose 95 % interval leaves 0 out:
/// the mean shrunk toward normal(0, 0.5) by its own error, and the SD that is left when
/// the variance `of_seen` of what was seen is taken off, at least 0.2. In the unit of the
/// reading, meant for millimetres.
pub fn propose_bias(agreement: &Agreement, of_seen: f64) -> Option<BiasProposal> {
    let [low, high] = agreement.mean_interval;
    if agreement.count < FEWEST || (low <= 0.0 && high >= 0.0) {
        return None;
    }
    let (expected, error) = (EXPECTED * EXPECTED, agreement.mean_error);
    let left = agreement.sd * agreement.sd - of_seen;
    Some(BiasProposal {
        too_large_by: agreement.mean * expected / (expected + error * error),
        sd: left.max(0.0).sqrt().max(LEAST_SD),
    })
}
