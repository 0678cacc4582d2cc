use crate::Blocks;

/// For each block, the weight of the draws in which a condition holds and the weight of
/// all its draws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlockShares {
    held: [f64; Blocks::COUNT],
    all: [f64; Blocks::COUNT],
}

/// A chance with the error that comes from a finite number of draws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chance {
    /// The chance, 0 to 1: the mean of the blocks.
    pub value: f64,
    /// Standard error of the block means, at least 1 over the number of draws. It says
    /// nothing of the doubt of the readings.
    pub error: f64,
}

impl BlockShares {
    /// The shares from the weight of each block's draws in which the condition holds, and
    /// of all its draws.
    pub const fn from_weights(held: [f64; Blocks::COUNT], all: [f64; Blocks::COUNT]) -> Self {
        Self { held, all }
    }

    /// The chance from a number of draws, for weighted ones the
    /// [effective number](crate::Weights::effective_draws). Without any weight it
    /// is 0.
    pub fn chance(&self, draws: f64) -> Chance {
        let (value, spread) = pooled(&self.held, &self.all);
        Chance {
            value,
            error: spread.max(1.0 / draws),
        }
    }
}

/// Whether two shares from the same draws cannot be told apart: their difference is at
/// most `quantile` times its standard error, which comes from the paired differences of
/// the blocks.
///
/// For 95 % the quantile of Student's t with 7 degrees of freedom is 2.36.
/// Differences that are all equal have no error: tied only if they are 0.
pub fn tied(a: &BlockShares, b: &BlockShares, quantile: f64) -> bool {
    let differences = std::array::from_fn(|block| a.held[block] - b.held[block]);
    let (difference, error) = pooled(&differences, &a.all);
    difference.abs() <= quantile * error
}

/// The share p of all blocks together, sums over weights W_b, and its standard error,
/// whose square is 8/7 Σ (W_b/W)² (p_b − p)², which
/// for equal weights is that of the mean of the blocks.
fn pooled(sums: &[f64; Blocks::COUNT], weights: &[f64; Blocks::COUNT]) -> (f64, f64) {
    let whole: f64 = weights.iter().sum();
    if whole <= 0.0 {
        return (0.0, 0.0);
    }
    let share = sums.iter().sum::<f64>() / whole;
    let squares: f64 = sums
        .iter()
        .zip(weights)
        .map(|(sum, weight)| {
            let deviation = (sum - share * weight) / whole;
            deviation * deviation
        })
        .sum();
    let count = Blocks::COUNT as f64;
    (share, (count * squares / (count - 1.0)).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    const T7: f64 = 2.36;

    /// Of so many draws a block, all of weight 1.
    fn counted(held: [u32; 8], per_block: u32) -> BlockShares {
        BlockShares::from_weights(held.map(f64::from), [f64::from(per_block); 8])
    }

    #[test]
    fn mean_of_the_blocks_and_its_error() {
        let chance = counted([1, 3, 1, 3, 1, 3, 1, 3], 4).chance(32.0);
        assert_eq!(chance.value, 0.5);
        // Eight deviations of ¼: √(8/16 / 56).
        assert!((chance.error - (0.5 / 56.0_f64).sqrt()).abs() < 1e-15);
    }

    #[test]
    fn never_surer_than_one_draw() {
        let chance = counted([512; 8], 512).chance(4096.0);
        assert_eq!((chance.value, chance.error), (1.0, 1.0 / 4096.0));
    }

    #[test]
    fn no_weight_no_chance() {
        let none = BlockShares::from_weights([0.0; 8], [0.0; 8]);
        assert_eq!(none.chance(1.0).value, 0.0);
    }

    /// Seven blocks of weight 1 in which it holds, one of weight 7 in which it does
    /// not: worked by hand, p = 7/14, (W_b/W)² (p_b − p)² = 1/784 seven times and
    /// 1/16 once.
    #[test]
    fn heavy_blocks_count_for_more() {
        let (mut held, mut all) = ([1.0; 8], [1.0; 8]);
        (held[5], all[5]) = (0.0, 7.0);
        let chance = BlockShares::from_weights(held, all).chance(100.0);
        assert_eq!(chance.value, 0.5);
        let squares: f64 = 7.0 / 784.0 + 1.0 / 16.0;
        assert!((chance.error - (8.0 / 7.0 * squares).sqrt()).abs() < 1e-15);
    }

    /// What differs in light blocks alone does not outweigh a heavy one: worked by
    /// hand, the difference is 7/100 with a standard error of 0.0744.
    #[test]
    fn ties_under_weights_are_of_the_pooled_difference() {
        let (mut held, mut all) = ([1.0; 8], [1.0; 8]);
        (held[7], all[7]) = (0.0, 93.0);
        let one = BlockShares::from_weights(held, all);
        let other = BlockShares::from_weights([0.0; 8], all);
        assert!(tied(&one, &other, T7) && tied(&other, &one, T7));
        assert!(!tied(&one, &other, 0.07 / 0.075));
    }

    #[test]
    fn ties() {
        let shares = |shares: [f64; 8]| BlockShares::from_weights(shares, [1.0; 8]);
        let each = [0.50, 0.52, 0.49, 0.51, 0.50, 0.53, 0.48, 0.50];
        let a = shares(each);
        let noise = shares([0.51, 0.51, 0.50, 0.50, 0.51, 0.52, 0.49, 0.49]);
        let lower = shares(each.map(|share| share - 0.001));
        assert!(tied(&a, &a, T7));
        assert!(tied(&a, &noise, T7) && tied(&noise, &a, T7));
        assert!(
            !tied(&a, &lower, T7),
            "paired: a small steady difference is one"
        );
    }
}
