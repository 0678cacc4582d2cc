use crate::Setting;
use crate::resolve::Resolved;
use measurement::{Law, Quantity, Unit, Weights, normal};

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
    /// The drawn values as trials weigh them, where they do.
    drawn: Option<WeighedValues>,
}

/// Values with the whole number by which each is weighed.
struct WeighedValues {
    each: Vec<(f64, u64)>,
    /// The sum of the weights.
    total: u64,
}

impl WeighedValues {
    fn new(values: &[f64], weights: &Weights) -> Option<Self> {
        let each = values.iter().enumerate();
        let each: Vec<(f64, u64)> = each
            .map(|(draw, value)| (*value, weights.whole(draw)))
            .collect();
        let total = each.iter().map(|(_, weight)| weight).sum();
        (total > 0).then_some(Self { each, total })
    }

    /// The weighed mean of what a function gives.
    fn mean(&self, of: impl Fn(f64) -> f64) -> f64 {
        let sum: f64 = self
            .each
            .iter()
            .map(|(value, weight)| of(*value) * *weight as f64)
            .sum();
        sum / self.total as f64
    }

    fn sd(&self) -> f64 {
        let mean = self.mean(|value| value);
        self.mean(|value| (value - mean) * (value - mean)).sqrt()
    }

    /// The share of the weights under a value.
    fn under(&self, value: f64) -> f64 {
        let under = self.each.iter().filter(|(one, _)| *one < value);
        let under: u64 = under.map(|(_, weight)| weight).sum();
        under as f64 / self.total as f64
    }
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
            drawn: None,
        })
    }

    /// Of a law alone about a value; `None` where it has no doubt.
    pub(super) fn of_law(law: Law, value: f64) -> Option<Self> {
        let sd = spread(&law);
        (sd > 0.0).then_some(Self {
            law,
            scale_sd: 0.0,
            both: Law::Normal { mean: value, sd },
            drawn: None,
        })
    }

    /// The doubt that trials leave of it: the drawn values as they weigh them, about what
    /// is believed now. `None` where they leave none.
    pub(super) fn weighed(self, values: &[f64], weights: &Weights, value: f64) -> Option<Self> {
        let drawn = WeighedValues::new(values, weights)?;
        let sd = drawn.sd();
        let both = match self.both {
            Law::NormalAtLeastZero { .. } => Law::NormalAtLeastZero { mean: value, sd },
            Law::LogNormal { .. } => Law::LogNormal { mean: value, sd },
            _ => Law::Normal { mean: value, sd },
        };
        (sd > 0.0).then_some(Self {
            both,
            drawn: Some(drawn),
            ..self
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
        if let Some(drawn) = &self.drawn {
            return drawn.under(value);
        }
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
