use crate::normal;
use crate::split_mix::split_mix;
use std::fmt;
use std::ops::Range;

/// Sobol points in eight blocks, each scrambled on its own, so that the spread of the
/// blocks gives the error of their mean.
///
/// Owen scrambling by hash (Burley, Journal of Computer Graphics Techniques 9,
/// 2020, no. 4). Dimensions below 128 belong to quantities by name, from 128 to
/// seats, from [`Blocks::SCALES`] to the scale errors of modalities; below 256
/// in all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Blocks {
    per_block: usize,
    scrambles: [u32; Self::COUNT],
}

/// The error of a number of draws that is not eight times a power of two, or out of
/// range.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub struct DrawsError {
    /// The number asked for.
    pub asked: usize,
    /// The nearest allowed number at or below, if there is one.
    pub below: Option<usize>,
    /// The nearest allowed number above, if there is one.
    pub above: Option<usize>,
}

impl fmt::Display for DrawsError {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let count = Blocks::COUNT;
        let most = count * Blocks::MOST_PER_BLOCK;
        write!(
            formatter,
            "{} draws: the number must be {count} times a power of two, {count} to {most}; ",
            self.asked
        )?;
        match (self.below, self.above) {
            (Some(below), Some(above)) => write!(formatter, "nearest: {below} and {above}"),
            (Some(only), None) | (None, Some(only)) => write!(formatter, "nearest: {only}"),
            (None, None) => Ok(()),
        }
    }
}

impl Blocks {
    /// The number of blocks.
    pub const COUNT: usize = 8;

    /// The most points of one block: beyond it the sequence repeats.
    pub const MOST_PER_BLOCK: usize = 1 << 16;

    /// The first of the dimensions for the scale errors of modalities.
    pub const SCALES: u32 = 160;

    /// The blocks of a number of draws, scrambled from a seed.
    pub fn new(draws: usize, seed: u64) -> Result<Self, DrawsError> {
        let per_block = draws / Self::COUNT;
        let even = draws.is_multiple_of(Self::COUNT) && per_block.is_power_of_two();
        if !even || per_block > Self::MOST_PER_BLOCK {
            return Err(DrawsError::near(draws));
        }
        Ok(Self {
            per_block,
            scrambles: std::array::from_fn(|block| scramble(seed, block)),
        })
    }

    /// The number of points of one block.
    pub const fn per_block(&self) -> usize {
        self.per_block
    }

    /// The number of points of all blocks.
    pub const fn draws(&self) -> usize {
        self.per_block * Self::COUNT
    }

    /// One coordinate of one point, strictly inside (0, 1).
    ///
    /// # Panics
    ///
    /// Where `block`, `index` or `dimension` is out of range, as an array does.
    pub fn uniform(&self, block: usize, index: usize, dimension: u32) -> f64 {
        assert!(
            index < self.per_block,
            "point {index} of {}",
            self.per_block
        );
        let index = u32::try_from(index).unwrap_or(u32::MAX);
        f64::from(sobol_burley::sample(
            index,
            dimension,
            self.scrambles[block],
        )) + HALF_STEP
    }

    /// One coordinate of one point as a standard normal deviate.
    ///
    /// # Panics
    ///
    /// As [`uniform`](Self::uniform).
    pub fn normal(&self, block: usize, index: usize, dimension: u32) -> f64 {
        normal::quantile(self.uniform(block, index, dimension))
    }

    /// Four coordinates of every point of a block, of the dimensions from
    /// 4 · `set`: drawn together they cost little more than one.
    ///
    /// # Panics
    ///
    /// As [`uniform`](Self::uniform).
    pub fn uniforms(&self, block: usize, set: u32) -> [Vec<f64>; 4] {
        self.some_uniforms(block, set, 0..self.per_block)
    }

    /// The same of some points of a block.
    ///
    /// # Panics
    ///
    /// As [`uniform`](Self::uniform).
    pub fn some_uniforms(&self, block: usize, set: u32, points: Range<usize>) -> [Vec<f64>; 4] {
        let mut columns = std::array::from_fn(|_| Vec::with_capacity(points.len()));
        let indices = (0_u32..).take(points.end).skip(points.start);
        for index in indices {
            let point = sobol_burley::sample_4d(index, set, self.scrambles[block]);
            for (column, coordinate) in columns.iter_mut().zip(point) {
                column.push(f64::from(coordinate) + HALF_STEP);
            }
        }
        columns
    }
}

impl DrawsError {
    fn near(asked: usize) -> Self {
        let allowed =
            || (0..=Blocks::MOST_PER_BLOCK.trailing_zeros()).map(|power| Blocks::COUNT << power);
        Self {
            asked,
            below: allowed().rfind(|&draws| draws <= asked),
            above: allowed().find(|&draws| draws > asked),
        }
    }
}

/// Half the step between the sequence's numbers, which are multiples of 2⁻²³:
/// it centres them in their cells and keeps them off 0.
const HALF_STEP: f64 = 1.0 / (1 << 24) as f64;

/// The scramble of a block: output number `block` of splitmix64, its last bits replaced
/// by the block so that no two blocks are alike.
fn scramble(seed: u64, block: usize) -> u32 {
    let block = block as u64;
    let [a, b, c, d, ..] = ((split_mix(seed, block) & !7) | block).to_le_bytes();
    u32::from_le_bytes([a, b, c, d])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Quantity;
    use std::collections::HashSet;

    #[test]
    fn refuses_other_numbers_and_says_the_nearest() {
        let near = |draws| Blocks::new(draws, 1).map_err(|error| (error.below, error.above));
        assert_eq!(near(5000), Err((Some(4096), Some(8192))));
        assert_eq!(near(0), Err((None, Some(8))));
        assert_eq!(near(9), Err((Some(8), Some(16))));
        assert_eq!(near(1 << 20), Err((Some(1 << 19), None)));
        assert!(near(8).is_ok() && near(1 << 19).is_ok());
        assert_eq!(
            Blocks::new(5000, 1).unwrap_err().to_string(),
            "5000 draws: the number must be 8 times a power of two, 8 to 524288; \
             nearest: 4096 and 8192"
        );
    }

    #[test]
    fn every_dimension_of_a_block_has_one_point_in_each_cell() {
        let blocks = Blocks::new(8 << 10, 7).unwrap();
        for block in 0..Blocks::COUNT {
            for dimension in [0, 1, 55, 128, 163, 255] {
                let cells: HashSet<u64> = (0..blocks.per_block())
                    .map(|index| blocks.uniform(block, index, dimension))
                    .inspect(|u| assert!(*u > 0.0 && *u < 1.0))
                    .map(|u| (u * 1024.0).floor().to_bits())
                    .collect();
                assert_eq!(cells.len(), 1024);
            }
        }
    }

    #[test]
    fn four_together_are_what_they_are_alone() {
        let blocks = Blocks::new(256, 3).unwrap();
        for (set, block) in [(0, 0), (7, 3), (33, 7), (63, 1)] {
            for (dimension, column) in (4 * set..).zip(blocks.uniforms(block, set)) {
                for (index, drawn) in column.into_iter().enumerate() {
                    assert_eq!(drawn, blocks.uniform(block, index, dimension));
                }
            }
        }
    }

    #[test]
    fn the_largest_block_does_not_repeat() {
        let blocks = Blocks::new(1 << 19, 3).unwrap();
        let cells: HashSet<u64> = (0..blocks.per_block())
            .map(|index| (blocks.uniform(5, index, 9) * 65_536.0).floor().to_bits())
            .collect();
        assert_eq!(cells.len(), 1 << 16);
    }

    #[test]
    fn same_from_the_same_seed_and_other_from_another() {
        let point = |seed, block| Blocks::new(4096, seed).unwrap().uniform(block, 11, 3);
        assert_eq!(point(1, 0), point(1, 0));
        assert_ne!(point(1, 0), point(2, 0));
        assert_ne!(point(1, 0), point(1, 1));
    }

    #[test]
    fn no_two_blocks_share_a_scramble() {
        for seed in 0..1000 {
            let scrambles: HashSet<u32> = (0..Blocks::COUNT).map(|b| scramble(seed, b)).collect();
            assert_eq!(scrambles.len(), Blocks::COUNT);
        }
    }

    #[test]
    fn quantities_have_dimensions_of_their_own_below_the_seats() {
        let dimensions: HashSet<u32> = Quantity::all().map(|q| q.info().dimension).collect();
        assert_eq!(dimensions.len(), Quantity::COUNT);
        assert!(dimensions.iter().all(|dimension| *dimension < 128));
    }
}
