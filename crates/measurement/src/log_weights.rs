use crate::Weights;

/// The logarithm of each draw's weight, to which likelihoods are added one by one.
///
/// Only differences matter: a constant factor of all likelihoods changes nothing.
#[derive(Clone, Debug, PartialEq)]
pub struct LogWeights {
    each: Vec<f64>,
}

impl LogWeights {
    /// Equal weights for a number of draws.
    pub fn uniform(draws: usize) -> Self {
        Self {
            each: vec![0.0; draws],
        }
    }

    /// Weights from natural logarithms, one for each draw; −∞ for a draw that does not
    /// count.
    pub const fn from_logarithms(each: Vec<f64>) -> Self {
        Self { each }
    }

    /// Multiplies each draw's weight by its likelihood, which is at least 0. Draws
    /// beyond the last likelihood stay as they are.
    pub fn multiply(&mut self, likelihoods: &[f64]) {
        for (weight, likelihood) in self.each.iter_mut().zip(likelihoods) {
            *weight += libm::log(*likelihood);
        }
    }

    /// These weights times others raised to a power from 0 to 1.
    #[must_use]
    pub fn times(&self, others: &Self, power: f64) -> Self {
        // A power of 0 of what does not count is 1, not a number that is none.
        let raised = |log: &f64| if power > 0.0 { power * log } else { 0.0 };
        Self {
            each: self
                .each
                .iter()
                .zip(&others.each)
                .map(|(mine, other)| mine + raised(other))
                .collect(),
        }
    }

    /// The weights as numbers, relative to the largest; `None` where no draw counts.
    pub fn weights(&self) -> Option<Weights> {
        let largest = self.each.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let weights = self.each.iter().map(|log| libm::exp(log - largest));
        // Where none counts the differences are no numbers, and `per_draw` refuses them.
        Weights::per_draw(weights.collect())
    }

    /// The effective number of draws: 0 where no draw counts.
    pub fn effective_draws(&self) -> f64 {
        self.weights()
            .map_or(0.0, |weights| weights.effective_draws())
    }

    /// The number of draws.
    pub const fn len(&self) -> usize {
        self.each.len()
    }

    /// Whether there is no draw.
    pub const fn is_empty(&self) -> bool {
        self.each.is_empty()
    }

    /// The logarithm of one draw's weight; −∞ beyond the last.
    pub fn of(&self, draw: usize) -> f64 {
        self.each.get(draw).copied().unwrap_or(f64::NEG_INFINITY)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_factor_common_to_all_changes_nothing() {
        let likelihoods = [0.2, 0.7, 0.0, 1.0];
        let mut once = LogWeights::uniform(4);
        once.multiply(&likelihoods);
        let mut scaled = LogWeights::uniform(4);
        scaled.multiply(&likelihoods.map(|one| one * 1e-200));
        scaled.multiply(&[1e-200; 4]);
        let [once, scaled] = [once, scaled].map(|one| one.weights().unwrap());
        for draw in 0..4 {
            let apart = (once.of(draw) - scaled.of(draw)) / once.of(3);
            assert!(apart.abs() < 1e-10, "{draw}");
        }
        assert_eq!(once.of(2), 0.0);
    }

    #[test]
    fn none_that_counts_has_no_weights() {
        let mut none = LogWeights::uniform(3);
        none.multiply(&[0.0; 3]);
        assert_eq!(none.weights(), None);
        assert_eq!(none.effective_draws(), 0.0);
        assert_eq!(LogWeights::uniform(0).weights(), None);
    }

    #[test]
    fn nothing_gathered_is_all_alike() {
        let all = LogWeights::uniform(64);
        assert_eq!(all.effective_draws(), 64.0);
        let mut seen = LogWeights::uniform(64);
        seen.multiply(&[0.0; 32]);
        assert_eq!(all.times(&seen, 0.0), all);
        assert_eq!(all.times(&seen, 0.5).effective_draws(), 32.0);
    }

    proptest! {
        #[test]
        fn the_effective_number_is_between_one_and_all(
            likelihoods in prop::collection::vec(1e-9..1.0_f64, 16)
        ) {
            let mut weights = LogWeights::uniform(16);
            weights.multiply(&likelihoods);
            let effective = weights.effective_draws();
            prop_assert!((1.0 - 1e-9..=16.0 + 1e-9).contains(&effective));
        }
    }
}
