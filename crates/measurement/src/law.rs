mod probability;

use crate::{LawKind, normal};

/// The law of a quantity's doubt.
///
/// Clauses are those of JCGM 101:2008. Widths and standard deviations are not
/// negative and `low` ≤ `high`; where a width or standard deviation is 0 every
/// value is the mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Law {
    /// A single value without doubt.
    Fixed(f64),
    /// Normal: best estimate and standard uncertainty are known (6.4.7).
    Normal {
        /// Mean.
        mean: f64,
        /// Standard deviation.
        sd: f64,
    },
    /// Normal, values below 0 counted as 0: the quantity can be 0, not less.
    NormalAtLeastZero {
        /// Mean before values below 0 are counted as 0.
        mean: f64,
        /// Standard deviation before values below 0 are counted as 0.
        sd: f64,
    },
    /// Log-normal, by the mean and standard deviation of the quantity itself,
    /// not of its logarithm: 0 is impossible. The mean is above 0.
    LogNormal {
        /// Mean.
        mean: f64,
        /// Standard deviation.
        sd: f64,
    },
    /// Rectangular: limits alone are known (6.4.2).
    Rectangular {
        /// Lower limit.
        low: f64,
        /// Upper limit.
        high: f64,
    },
}

impl Law {
    /// The law of a kind with a mean and a standard deviation.
    pub const fn for_quantity(kind: LawKind, mean: f64, sd: f64) -> Self {
        match kind {
            LawKind::LogNormal => Self::LogNormal { mean, sd },
            LawKind::NormalAtLeastZero => Self::NormalAtLeastZero { mean, sd },
            LawKind::Normal => Self::Normal { mean, sd },
        }
    }

    /// The best estimate, as measured, around which the law was built.
    ///
    /// It differs from the [mean](Self::mean) only where values below 0 count as 0.
    pub fn nominal(&self) -> f64 {
        match *self {
            Self::NormalAtLeastZero { mean, .. } => mean.max(0.0),
            _ => self.mean(),
        }
    }

    /// Expected value.
    pub fn mean(&self) -> f64 {
        match *self {
            Self::Fixed(value) => value,
            Self::Normal { mean, .. } | Self::LogNormal { mean, .. } => mean,
            Self::NormalAtLeastZero { mean, sd } => Censored::new(mean, sd).mean,
            Self::Rectangular { low, high } => 0.5 * (low + high),
        }
    }

    /// Standard deviation.
    pub fn sd(&self) -> f64 {
        match *self {
            Self::Fixed(_) => 0.0,
            Self::Normal { sd, .. } | Self::LogNormal { sd, .. } => sd,
            Self::NormalAtLeastZero { mean, sd } => Censored::new(mean, sd).sd,
            Self::Rectangular { low, high } => 0.5 * (high - low) / 3.0_f64.sqrt(),
        }
    }

    /// The value below which the law has a probability, which is held strictly inside
    /// (0, 1).
    pub fn quantile(&self, probability: f64) -> f64 {
        let p = normal::inside(probability);
        match *self {
            Self::Fixed(_)
            | Self::Normal { .. }
            | Self::NormalAtLeastZero { .. }
            | Self::LogNormal { .. } => self.at_normal(normal::quantile(p)),
            Self::Rectangular { low, high } => low + (high - low) * p,
        }
    }

    /// The value whose cumulative probability equals that of a standard normal deviate.
    pub fn at_normal(&self, z: f64) -> f64 {
        match *self {
            Self::Fixed(value) => value,
            Self::Normal { mean, sd } => mean + sd * z,
            Self::NormalAtLeastZero { mean, sd } => (mean + sd * z).max(0.0),
            Self::LogNormal { mean, sd } => log_normal(mean, sd, z),
            Self::Rectangular { .. } => self.quantile(normal::probability(z)),
        }
    }
}

/// The value of a log-normal law at a standard normal deviate: the logarithm has variance ln(1 + (sd/mean)²) and mean ln(mean) less half of
/// that. A mean of 0 or less has no log-normal law and stands for itself.
fn log_normal(mean: f64, sd: f64, z: f64) -> f64 {
    if mean <= 0.0 {
        return mean;
    }
    let relative = sd / mean;
    let variance = libm::log1p(relative * relative);
    mean * libm::exp(variance.sqrt() * z - 0.5 * variance)
}

/// Mean and standard deviation of a normal quantity whose values below 0 are
/// counted as 0.
struct Censored {
    mean: f64,
    sd: f64,
}

impl Censored {
    fn new(mean: f64, sd: f64) -> Self {
        if sd <= 0.0 {
            return Self {
                mean: mean.max(0.0),
                sd: 0.0,
            };
        }
        let above = normal::probability(mean / sd);
        let edge = sd * normal::density(mean / sd);
        let first = mean * above + edge;
        let second = (mean * mean + sd * sd) * above + mean * edge;
        Self {
            mean: first,
            sd: (second - first * first).max(0.0).sqrt(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const LAWS: [Law; 5] = [
        Law::Fixed(2.0),
        Law::Normal { mean: 1.0, sd: 0.5 },
        Law::NormalAtLeastZero { mean: 0.3, sd: 0.5 },
        Law::LogNormal { mean: 5.0, sd: 2.0 },
        Law::Rectangular {
            low: -1.0,
            high: 3.0,
        },
    ];

    /// Midpoint sum over the quantile: each law's mean and standard deviation
    /// again, by a way that shares only the quantile with the formulas.
    #[test]
    fn moments_are_those_of_the_quantile() {
        let points = 20_000;
        for law in LAWS {
            let at = |i: i32| law.quantile((f64::from(i) + 0.5) / f64::from(points));
            let mean = (0..points).map(at).sum::<f64>() / f64::from(points);
            let variance =
                (0..points).map(|i| (at(i) - mean).powi(2)).sum::<f64>() / f64::from(points);
            assert!((mean - law.mean()).abs() < 2e-4, "{law:?} {mean}");
            assert!(
                (variance.sqrt() - law.sd()).abs() < 2e-3,
                "{law:?} {}",
                variance.sqrt()
            );
        }
    }

    #[test]
    fn no_doubt_gives_the_mean() {
        let narrow = [
            Law::Normal { mean: 2.0, sd: 0.0 },
            Law::NormalAtLeastZero { mean: 2.0, sd: 0.0 },
            Law::LogNormal { mean: 2.0, sd: 0.0 },
            Law::Rectangular {
                low: 2.0,
                high: 2.0,
            },
        ];
        for law in narrow {
            for p in [0.0, 0.1, 0.5, 0.99, 1.0] {
                assert_eq!(law.quantile(p), 2.0, "{law:?}");
            }
            assert_eq!(law.at_normal(1.5), 2.0, "{law:?}");
            assert_eq!(law.mean(), 2.0, "{law:?}");
            assert_eq!(law.sd(), 0.0, "{law:?}");
        }
    }

    #[test]
    fn nominal_is_the_reading_and_mean_what_is_expected() {
        let rim = Law::for_quantity(LawKind::NormalAtLeastZero, 0.0, 1.0);
        assert_eq!(rim.nominal(), 0.0);
        // Half of a standard normal: 1/√(2π).
        assert!((rim.mean() - normal::density(0.0)).abs() < 1e-15);
    }

    #[test]
    fn a_length_is_never_below_zero() {
        assert!(Law::LogNormal { mean: 0.5, sd: 2.0 }.at_normal(-8.0) > 0.0);
        assert_eq!(
            Law::NormalAtLeastZero { mean: 0.5, sd: 2.0 }.at_normal(-8.0),
            0.0
        );
    }

    proptest! {
        #[test]
        fn quantile_never_falls(law in 0..LAWS.len(), p in 0.0..1.0_f64, q in 0.0..1.0_f64) {
            let law = LAWS[law];
            prop_assert!(law.quantile(p.min(q)) <= law.quantile(p.max(q)));
        }

        #[test]
        fn deviate_and_probability_agree(law in 0..LAWS.len(), z in -4.0..4.0_f64) {
            let law = LAWS[law];
            let direct = law.at_normal(z);
            let around = law.quantile(normal::probability(z));
            prop_assert!((direct - around).abs() < 1e-9 * (1.0 + direct.abs()));
        }
    }
}
