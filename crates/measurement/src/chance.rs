use crate::Blocks;

/// Share of the draws of each block in which something holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlockShares(pub [f64; Blocks::COUNT]);

/// A chance with its sampling error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chance {
    /// Mean of the blocks, 0 to 1.
    pub value: f64,
    /// Standard error of the block means, at least one draw's worth. It speaks
    /// of the number of draws alone, not of the readings.
    pub error: f64,
}

impl BlockShares {
    /// From the number of draws of each block in which it holds.
    pub fn from_counts(counts: [u32; Blocks::COUNT], per_block: usize) -> Self {
        Self(counts.map(|count| f64::from(count) / per_block as f64))
    }

    /// From the weight of each block's draws in which it holds, and of all its
    /// draws. A block without weight takes the share of all blocks together.
    pub fn from_weights(held: [f64; Blocks::COUNT], all: [f64; Blocks::COUNT]) -> Self {
        let whole: f64 = all.iter().sum();
        let overall = if whole > 0.0 {
            held.iter().sum::<f64>() / whole
        } else {
            0.0
        };
        Self(std::array::from_fn(|block| {
            if all[block] > 0.0 {
                held[block] / all[block]
            } else {
                overall
            }
        }))
    }

    /// The chance from a number of draws, for weighted ones the
    /// [effective number](crate::Weights::effective_draws).
    pub fn chance(&self, draws: f64) -> Chance {
        let (value, spread) = mean_and_error(&self.0);
        Chance {
            value,
            error: spread.max(1.0 / draws),
        }
    }
}

/// Whether two shares from the same draws cannot be told apart: the mean of
/// their paired block differences is within `quantile` standard errors of 0.
///
/// For 95 % the quantile of Student's t with 7 degrees of freedom is 2.36.
/// Differences that are all equal have no error: tied only if they are 0.
pub fn tied(a: &BlockShares, b: &BlockShares, quantile: f64) -> bool {
    let differences = std::array::from_fn(|block| a.0[block] - b.0[block]);
    let (mean, error) = mean_and_error(&differences);
    mean.abs() <= quantile * error
}

/// Mean of the blocks and its standard error.
fn mean_and_error(blocks: &[f64; Blocks::COUNT]) -> (f64, f64) {
    let count = Blocks::COUNT as f64;
    let mean = blocks.iter().sum::<f64>() / count;
    let squares: f64 = blocks
        .iter()
        .map(|block| (block - mean) * (block - mean))
        .sum();
    (mean, (squares / (count * (count - 1.0))).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    const T7: f64 = 2.36;

    #[test]
    fn mean_of_the_blocks_and_its_error() {
        let shares = BlockShares::from_counts([1, 3, 1, 3, 1, 3, 1, 3], 4);
        let chance = shares.chance(32.0);
        assert_eq!(chance.value, 0.5);
        // Eight deviations of ¼: √(8/16 / 56).
        assert!((chance.error - (0.5 / 56.0_f64).sqrt()).abs() < 1e-15);
    }

    #[test]
    fn never_surer_than_one_draw() {
        let chance = BlockShares([1.0; 8]).chance(4096.0);
        assert_eq!((chance.value, chance.error), (1.0, 1.0 / 4096.0));
    }

    #[test]
    fn weights_all_alike_change_nothing() {
        let counts = [5, 6, 7, 8, 1, 2, 3, 4];
        let weighted = BlockShares::from_weights(counts.map(f64::from), [8.0; 8]);
        assert_eq!(weighted, BlockShares::from_counts(counts, 8));
    }

    #[test]
    fn a_block_without_weight_takes_the_common_share() {
        let mut all = [2.0; 8];
        let mut held = [1.0; 8];
        (all[3], held[3]) = (0.0, 0.0);
        assert_eq!(BlockShares::from_weights(held, all), BlockShares([0.5; 8]));
        assert_eq!(
            BlockShares::from_weights([0.0; 8], [0.0; 8]),
            BlockShares([0.0; 8])
        );
    }

    #[test]
    fn ties() {
        let a = BlockShares([0.50, 0.52, 0.49, 0.51, 0.50, 0.53, 0.48, 0.50]);
        let noise = BlockShares([0.51, 0.51, 0.50, 0.50, 0.51, 0.52, 0.49, 0.49]);
        let lower = BlockShares(a.0.map(|share| share - 0.001));
        assert!(tied(&a, &a, T7));
        assert!(tied(&a, &noise, T7) && tied(&noise, &a, T7));
        assert!(
            !tied(&a, &lower, T7),
            "paired: a small steady difference is one"
        );
    }
}
