/// The weight of each draw: all equal until a trial re-weighs them.
#[derive(Clone, Debug, PartialEq)]
pub struct Weights {
    draws: usize,
    /// The weight of each draw, or `None` where each weighs 1.
    each: Option<Vec<u64>>,
}

/// Bits that the sum of all weights may take; the mantissa of an `f64` has one more.
const WHOLE_BITS: i32 = 52;

impl Weights {
    /// Weights of 1 for a number of draws.
    pub const fn uniform(draws: usize) -> Self {
        Self { draws, each: None }
    }

    /// Weights given for each draw; `None` where one is negative or not finite, or all are
    /// 0.
    ///
    /// They are kept as whole numbers of so small a part of the largest that all
    /// together stay exact: a sum of them is the same in any order. With 4,096
    /// draws the part is 2⁻⁴⁰.
    pub fn per_draw(weights: Vec<f64>) -> Option<Self> {
        let sound = weights
            .iter()
            .all(|weight| weight.is_finite() && *weight >= 0.0);
        let some = weights.iter().any(|weight| *weight > 0.0);
        let largest = weights.iter().copied().fold(0.0, f64::max);
        let draws = weights.len();
        let spare = draws.next_power_of_two().trailing_zeros();
        let parts = 2.0_f64.powi(WHOLE_BITS.saturating_sub_unsigned(spare));
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "at least 0 and at most 2^52"
        )]
        let whole = |weight: f64| (weight / largest * parts).round() as u64;
        (sound && some).then(|| Self {
            draws,
            each: Some(weights.into_iter().map(whole).collect()),
        })
    }

    /// The number of draws.
    pub const fn draws(&self) -> usize {
        self.draws
    }

    /// Whether all draws have the same weight.
    pub const fn is_uniform(&self) -> bool {
        self.each.is_none()
    }

    /// The weight of a draw, relative to the others; 0 beyond the last draw.
    pub fn of(&self, draw: usize) -> f64 {
        self.whole(draw) as f64
    }

    /// The weight of a draw as a whole number; the sum of all stays under 2⁵³.
    pub fn whole(&self, draw: usize) -> u64 {
        match &self.each {
            None => u64::from(draw < self.draws),
            Some(each) => each.get(draw).copied().unwrap_or(0),
        }
    }

    /// The number of equally weighted draws that would be as sure: (Σw)²/Σw²
    /// (Kish, from memory).
    pub fn effective_draws(&self) -> f64 {
        let Some(each) = &self.each else {
            return self.draws as f64;
        };
        let each = || each.iter().map(|&weight| weight as f64);
        let sum: f64 = each().sum();
        let squares: f64 = each().map(|weight| weight * weight).sum();
        sum * sum / squares
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn refuses_what_is_no_weight() {
        for bad in [
            vec![],
            vec![0.0, 0.0],
            vec![1.0, -1.0],
            vec![f64::NAN],
            vec![f64::INFINITY],
        ] {
            assert_eq!(Weights::per_draw(bad), None);
        }
    }

    #[test]
    fn one_heavy_draw_is_worth_one() {
        assert_eq!(Weights::uniform(8).effective_draws(), 8.0);
        assert_eq!(
            Weights::per_draw(vec![2.0; 8]).unwrap().effective_draws(),
            8.0
        );
        assert_eq!(
            Weights::per_draw(vec![0.0, 1e300])
                .unwrap()
                .effective_draws(),
            1.0
        );
    }

    #[test]
    fn sums_are_the_same_in_any_order() {
        let weights: Vec<f64> = (1..=4096).map(|draw| 1.0 / f64::from(draw)).collect();
        let weights = Weights::per_draw(weights).unwrap();
        let forward: f64 = (0..4096).map(|draw| weights.of(draw)).sum();
        let backward: f64 = (0..4096).rev().map(|draw| weights.of(draw)).sum();
        assert_eq!(forward, backward);
        let share = weights.of(2) / weights.of(0);
        assert!((share - 1.0 / 3.0).abs() < 1e-12);
    }

    #[test]
    fn no_draw_no_weight() {
        assert_eq!(Weights::uniform(2).of(1), 1.0);
        assert_eq!(Weights::uniform(2).of(2), 0.0);
    }

    #[test]
    fn only_the_ratios_of_weights_count() {
        let given = [0.0, 0.5, 2.0, 3.0];
        let weights =
            |scale: f64| Weights::per_draw(given.map(|weight| weight * scale).to_vec()).unwrap();
        let once = weights(1.0);
        for scale in [2.0_f64.powi(-900), 0.25, 8.0, 2.0_f64.powi(900)] {
            assert_eq!(weights(scale), once, "{scale}");
        }
        assert!((once.of(1) / once.of(3) - 0.5 / 3.0).abs() < 1e-12);
        // (Σw)²/Σw².
        let kish = 5.5 * 5.5 / (0.25 + 4.0 + 9.0);
        assert!((once.effective_draws() - kish).abs() < 1e-12);
    }

    #[test]
    fn whole_weights_add_up_exactly_and_end_with_the_draws() {
        for draws in [1, 2, 3, 1000, 4096] {
            let weights = Weights::per_draw(vec![7.0; draws]).unwrap();
            let sum: u64 = (0..draws).map(|draw| weights.whole(draw)).sum();
            assert!(sum <= 1 << 53, "{draws}");
            assert!(weights.whole(0) >= 1 << 39, "{draws}");
            assert_eq!(weights.whole(draws), 0);
            assert_eq!(weights.draws(), draws);
            assert!(!weights.is_uniform());
        }
    }
}
