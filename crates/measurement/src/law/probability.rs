use super::Law;
use crate::normal;

/// Halvings of the deviate's interval, about ±8, down to a double's last bit.
const HALVINGS: usize = 56;

impl Law {
    /// The probability that the law gives to values under `value`.
    ///
    /// Where values below 0 count as 0, none lies under 0, and all that count as 0 lie
    /// under any value above it.
    pub fn probability_under(&self, value: f64) -> f64 {
        match *self {
            Self::Normal { mean, sd } if sd > 0.0 => normal::probability((value - mean) / sd),
            Self::NormalAtLeastZero { mean, sd } if sd > 0.0 => {
                if value > 0.0 {
                    normal::probability((value - mean) / sd)
                } else {
                    0.0
                }
            }
            Self::LogNormal { mean, sd } if sd > 0.0 && mean > 0.0 => {
                if value > 0.0 {
                    let relative = sd / mean;
                    let variance = libm::log1p(relative * relative);
                    let z = (libm::log(value / mean) + 0.5 * variance) / variance.sqrt();
                    normal::probability(z)
                } else {
                    0.0
                }
            }
            _ => self.by_halving(value),
        }
    }

    /// The same for a law of any form, by bisection: its quantile rises with the deviate.
    fn by_halving(&self, value: f64) -> f64 {
        let mut low = normal::quantile(normal::inside(0.0));
        let mut high = normal::quantile(normal::inside(1.0));
        if self.at_normal(low) >= value {
            return 0.0;
        }
        if self.at_normal(high) < value {
            return 1.0;
        }
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.at_normal(middle) < value {
                low = middle;
            } else {
                high = middle;
            }
        }
        normal::probability(low)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LAWS: [Law; 4] = [
        Law::Normal {
            mean: -1.0,
            sd: 2.0,
        },
        Law::NormalAtLeastZero { mean: 0.4, sd: 0.5 },
        Law::LogNormal { mean: 5.0, sd: 0.6 },
        Law::Rectangular {
            low: 1.0,
            high: 3.0,
        },
    ];

    #[test]
    fn it_is_the_inverse_of_the_quantile() {
        const TOLERANCE: f64 = 1e-9;
        for law in LAWS {
            for p in [0.3, 0.5, 0.84, 0.999] {
                let under = law.probability_under(law.quantile(p));
                assert!((under - p).abs() < TOLERANCE, "{law:?}: {under} for {p}");
            }
        }
    }

    #[test]
    fn nothing_lies_under_zero_where_zero_is_the_least() {
        let law = LAWS[1];
        assert_eq!(law.probability_under(0.0), 0.0);
        assert!(law.probability_under(1e-12) > 0.2);
    }

    #[test]
    fn one_value_without_doubt_is_a_step() {
        let law = Law::Normal { mean: 2.0, sd: 0.0 };
        assert_eq!(law.probability_under(2.0), 0.0);
        assert_eq!(law.probability_under(2.1), 1.0);
        assert_eq!(Law::Fixed(2.0).probability_under(1.9), 0.0);
    }
}
