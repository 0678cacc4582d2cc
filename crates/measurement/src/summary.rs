use crate::Weights;

/// A coverage interval.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl Interval {
    fn width(self) -> f64 {
        self.high - self.low
    }
}

/// The distribution of one output over weighted draws: JCGM 101:2008, 7.5 to 7.7.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// Values from low to high, each with the weight of all up to it.
    ordered: Vec<(f64, f64)>,
    mean: f64,
    sd: f64,
}

impl Summary {
    /// The summary of the values of all draws; `None` where values and weights differ in
    /// number, or there are no draws.
    pub fn new(values: &[f64], weights: &Weights) -> Option<Self> {
        if values.is_empty() || values.len() != weights.draws() {
            return None;
        }
        let weighted = || {
            values
                .iter()
                .enumerate()
                .map(|(draw, &value)| (value, weights.of(draw)))
        };
        let total: f64 = weighted().map(|(_, weight)| weight).sum();
        let mean = weighted()
            .map(|(value, weight)| weight * value)
            .sum::<f64>()
            / total;
        let squares: f64 = weighted()
            .map(|(value, weight)| weight * (value - mean) * (value - mean))
            .sum();
        // The divisor M − 1 of 7.6 for equal weights.
        let freedom = total - total / weights.effective_draws();
        let sd = if freedom > 0.0 {
            (squares / freedom).sqrt()
        } else {
            0.0
        };

        let mut ordered: Vec<(f64, f64)> = weighted().collect();
        ordered.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut sum = 0.0;
        for (_, weight) in &mut ordered {
            sum += *weight;
            *weight = sum;
        }
        Some(Self { ordered, mean, sd })
    }

    /// Estimate of the output: the mean of the draws (7.6).
    pub const fn mean(&self) -> f64 {
        self.mean
    }

    /// Standard uncertainty: the draws' standard deviation (7.6).
    pub const fn sd(&self) -> f64 {
        self.sd
    }

    /// The smallest value that at least a share of the draws does not exceed.
    pub fn quantile(&self, share: f64) -> f64 {
        let wanted = share.clamp(0.0, 1.0) * self.total();
        let place = self.ordered.partition_point(|(_, up_to)| *up_to < wanted);
        self.ordered[place.min(self.ordered.len() - 1)].0
    }

    /// Probabilistically symmetric coverage interval (7.7.1).
    pub fn symmetric_interval(&self, coverage: f64) -> Interval {
        let tail = 0.5 * (1.0 - coverage);
        Interval {
            low: self.quantile(tail),
            high: self.quantile(1.0 - tail),
        }
    }

    /// Shortest coverage interval (7.7.4); of several the lowest.
    pub fn shortest_interval(&self, coverage: f64) -> Interval {
        let wanted = coverage.clamp(0.0, 1.0) * self.total();
        let mut shortest = Interval {
            low: self.ordered[0].0,
            high: self.quantile(1.0),
        };
        let mut right = 0;
        for &(low, up_to_low) in &self.ordered {
            while right < self.ordered.len() && self.ordered[right].1 - up_to_low < wanted {
                right += 1;
            }
            let Some(&(high, _)) = self.ordered.get(right) else {
                break;
            };
            let interval = Interval { low, high };
            if interval.width() < shortest.width() {
                shortest = interval;
            }
        }
        shortest
    }

    fn total(&self) -> f64 {
        self.ordered[self.ordered.len() - 1].1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hundred() -> Vec<f64> {
        (1..=100).rev().map(f64::from).collect()
    }

    #[test]
    fn moments_of_the_first_hundred() {
        let summary = Summary::new(&hundred(), &Weights::uniform(100)).unwrap();
        assert_eq!(summary.mean(), 50.5);
        // (n² + n)/12 with the divisor n − 1.
        assert!((summary.sd() - (10_100.0_f64 / 12.0).sqrt()).abs() < 1e-12);
    }

    #[test]
    fn intervals_hold_their_share() {
        let summary = Summary::new(&hundred(), &Weights::uniform(100)).unwrap();
        assert_eq!(
            summary.symmetric_interval(0.9),
            Interval {
                low: 5.0,
                high: 95.0
            }
        );
        assert_eq!(
            summary.shortest_interval(0.9),
            Interval {
                low: 1.0,
                high: 91.0
            }
        );
        let squares: Vec<f64> = hundred().iter().map(|x| -x * x).collect();
        let skew = Summary::new(&squares, &Weights::uniform(100)).unwrap();
        assert_eq!(
            skew.shortest_interval(0.5),
            Interval {
                low: -51.0 * 51.0,
                high: -1.0
            }
        );
    }

    #[test]
    fn a_weight_of_two_is_a_value_twice() {
        let weights = Weights::per_draw(vec![2.0, 1.0, 1.0]).unwrap();
        let weighted = Summary::new(&[1.0, 2.0, 5.0], &weights).unwrap();
        let twice = Summary::new(&[1.0, 1.0, 2.0, 5.0], &Weights::uniform(4)).unwrap();
        assert_eq!(weighted.mean(), twice.mean());
        assert_eq!(weighted.quantile(0.5), twice.quantile(0.5));
        assert_eq!(weighted.quantile(0.6), twice.quantile(0.6));
    }

    #[test]
    fn one_draw_has_no_spread() {
        let one = Summary::new(&[3.0], &Weights::uniform(1)).unwrap();
        assert_eq!((one.mean(), one.sd()), (3.0, 0.0));
        assert_eq!(
            one.shortest_interval(0.95),
            Interval {
                low: 3.0,
                high: 3.0
            }
        );
    }

    #[test]
    fn nothing_to_say_of_no_draws() {
        assert_eq!(Summary::new(&[], &Weights::uniform(0)), None);
        assert_eq!(Summary::new(&[1.0], &Weights::uniform(2)), None);
    }
}
