//! The shift of a quantity's middle when draws are re-weighed, and whether it is more
//! than sampling error.

use crate::observation::mean_direction;
use crate::{Blocks, Weights};

/// The weighted median of values: the least at which the running weight, in the order
/// of value and then of index, reaches half of all; `None` where nothing has weight.
pub fn weighted_median(values: &[f64], weight: impl Fn(usize) -> f64) -> Option<f64> {
    median_in(&order_of(values), values, weight)
}

/// The indices of values, in the order of value and then of index.
fn order_of(values: &[f64]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    // No two are alike, for no index comes twice: what is unstable has nothing to mix up.
    order.sort_unstable_by(|&one, &other| {
        values[one].total_cmp(&values[other]).then(one.cmp(&other))
    });
    order
}

fn median_in(order: &[usize], values: &[f64], weight: impl Fn(usize) -> f64) -> Option<f64> {
    let all: f64 = order.iter().map(|&draw| weight(draw)).sum();
    let mut running = 0.0;
    order.iter().find_map(|&draw| {
        running += weight(draw);
        (all > 0.0 && 2.0 * running >= all).then(|| values[draw])
    })
}

/// The shift of a quantity's middle by weights, with its sampling error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shift {
    /// The shift in the quantity's unit.
    pub by: f64,
    /// The standard error of the shift, from how the blocks differ.
    pub error: f64,
}

impl Shift {
    /// The shift of a column of draws from one set of weights to another: of its
    /// median, or of an angle in degrees of its circular mean.
    ///
    /// Its square error is 8/7 Σ (W_b/W)² (d_b − d)² over the blocks, as a chance's is.
    /// `None` where the draws are none or carry no weight.
    pub fn between(
        values: &[f64],
        before: &Weights,
        after: &Weights,
        is_angle: bool,
    ) -> Option<Self> {
        let per_block = values.len() / Blocks::COUNT;
        let shift = |first: usize, some: &[f64]| {
            let weighed =
                [after, before].map(|weights| move |draw: usize| weights.of(first + draw));
            if is_angle {
                let [after, before] = weighed.map(|weight| mean_direction(some, weight));
                let by = after? - before?;
                return Some(by - 360.0 * (by / 360.0).round());
            }
            // Sorting costs the most, and both middles stand in one order.
            let order = order_of(some);
            let [after, before] = weighed.map(|weight| median_in(&order, some, weight));
            Some(after? - before?)
        };
        let by = shift(0, values)?;
        let weight = |first: usize| (first..first + per_block).map(|draw| after.of(draw)).sum();
        let weights: Vec<f64> = (0..Blocks::COUNT)
            .map(|block| weight(block * per_block))
            .collect();
        let all: f64 = weights.iter().sum();
        let mut squares = 0.0;
        for (block, weight) in weights.iter().enumerate() {
            let first = block * per_block;
            if let Some(of_block) = shift(first, &values[first..first + per_block]) {
                let deviation = weight / all * (of_block - by);
                squares += deviation * deviation;
            }
        }
        let count = Blocks::COUNT as f64;
        Some(Self {
            by,
            error: (count * squares / (count - 1.0)).sqrt(),
        })
    }

    /// Whether the shift is more than sampling error: over `quantile` standard errors.
    pub fn is_told(&self, quantile: f64) -> bool {
        self.by.abs() > quantile * self.error
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_the_least_value_that_reaches_half() {
        let alike = |_: usize| 1.0;
        assert_eq!(weighted_median(&[3.0, 1.0, 2.0], alike), Some(2.0));
        assert_eq!(weighted_median(&[4.0, 3.0, 1.0, 2.0], alike), Some(2.0));
        let heavy = |draw: usize| [1.0, 5.0, 1.0][draw];
        assert_eq!(weighted_median(&[3.0, 1.0, 2.0], heavy), Some(1.0));
        assert_eq!(weighted_median(&[1.0], |_| 0.0), None);
        assert_eq!(weighted_median(&[], alike), None);
    }

    #[test]
    fn like_weights_shift_nothing() {
        let values: Vec<f64> = (0..64).map(f64::from).collect();
        let alike = Weights::uniform(64);
        let shift = Shift::between(&values, &alike, &alike, false).unwrap();
        assert_eq!((shift.by, shift.is_told(0.0)), (0.0, false));
    }

    #[test]
    fn a_shift_that_all_blocks_share_has_no_error() {
        let values: Vec<f64> = (0..64).map(|draw| f64::from(draw % 8)).collect();
        let low = (0..64).map(|draw| f64::from(u8::from(draw % 8 < 2)));
        let low = Weights::per_draw(low.collect()).unwrap();
        let shift = Shift::between(&values, &Weights::uniform(64), &low, false).unwrap();
        assert_eq!((shift.by, shift.error), (-3.0, 0.0));
        assert!(shift.is_told(2.36));
    }

    #[test]
    fn an_angle_shifts_the_shorter_way() {
        let values = [170.0, -170.0].repeat(8);
        let one = (0..16).map(|draw| f64::from(u8::from(draw % 2 == 0)));
        let one = Weights::per_draw(one.collect()).unwrap();
        let shift = Shift::between(&values, &Weights::uniform(16), &one, true).unwrap();
        assert!((shift.by + 10.0).abs() < 1e-9, "{}", shift.by);
    }
}
