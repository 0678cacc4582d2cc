use crate::Setting;
use crate::resolve::Resolved;
use measurement::{Law, Quantity, Unit, normal};

/// How far out a law is looked at, in standard deviations: one value in 16,000
/// lies beyond, less than any chance that is shown.
pub(super) const REACH: f64 = 4.0;

/// Parts of equal probability into which the error of a scale is cut.
const SCALE_PARTS: usize = 32;

/// The margin of the joint law in one quantity: its own law times the error of
/// the scales that its readings share.
pub(super) struct Doubt {
    law: Law,
    /// Standard deviation of the scale's error, as a share of the value.
    scale_sd: f64,
    /// One normal law's worth of both: where to look for changes.
    both: Law,
}

impl Doubt {
    /// Of a quantity with a value of its own; `None` where it has no doubt.
    pub(super) fn of(setting: &Setting, resolved: &Resolved) -> Option<Self> {
        let law = resolved.law?;
        let scale_sd = scale_sd(setting, resolved);
        let nominal = law.nominal();
        let by_scale = scale_sd * nominal;
        let spread = spread(&law);
        let sd = (spread * spread + by_scale * by_scale).sqrt();
        (sd > 0.0).then(|| Self {
            law,
            scale_sd,
            both: Law::for_quantity(resolved.quantity.info().law, nominal, sd),
        })
    }

    /// The standard deviation of both together.
    pub(super) fn sd(&self) -> f64 {
        spread(&self.both)
    }

    /// The value a number of standard deviations out.
    pub(super) fn at(&self, deviate: f64) -> f64 {
        self.both.at_normal(deviate)
    }

    /// The chance of a value under this one.
    pub(super) fn under(&self, value: f64) -> f64 {
        if self.scale_sd == 0.0 {
            return self.law.probability_under(value);
        }
        let part = |index: usize| {
            let middle = (index as f64 + 0.5) / SCALE_PARTS as f64;
            let scale = 1.0 + self.scale_sd * normal::quantile(middle);
            self.law
                .probability_under(value / scale.max(f64::MIN_POSITIVE))
        };
        (0..SCALE_PARTS).map(part).sum::<f64>() / SCALE_PARTS as f64
    }
}

/// The standard deviation a law of a quantity was built with, before values below
/// 0 are counted as 0.
const fn spread(law: &Law) -> f64 {
    match *law {
        Law::Normal { sd, .. } | Law::NormalAtLeastZero { sd, .. } | Law::LogNormal { sd, .. } => {
            sd
        }
        _ => 0.0,
    }
}

/// The errors of all scales in a length, as one share of it.
fn scale_sd(setting: &Setting, resolved: &Resolved) -> f64 {
    let Some(selection) = resolved.selection() else {
        return 0.0;
    };
    if resolved.quantity.unit() != Unit::Mm {
        return 0.0;
    }
    let squares: f64 = selection
        .scale_shares()
        .into_iter()
        .map(|(modality, share)| {
            let sd = setting
                .rules()
                .scales
                .iter()
                .find(|row| row.modality == modality)
                .map_or(0.0, |row| row.sd);
            (share * sd) * (share * sd)
        })
        .sum();
    squares.sqrt()
}

/// The finest difference in a quantity that is told apart: a hundredth of the
/// step by which it is nudged by hand.
pub(super) fn accuracy(quantity: Quantity) -> f64 {
    const OF_A_FINE_STEP: f64 = 0.01;
    OF_A_FINE_STEP * quantity.info().steps.0
}
