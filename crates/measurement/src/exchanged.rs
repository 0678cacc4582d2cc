//! Seats that other draws lend to the anatomy of a draw, for the likelihood of a trial.

use std::fmt;
use std::ops::Range;

/// The number of lent seats over which a trial's likelihood is averaged.
pub const SEATS: usize = 16;

/// The error of a trial for which no group of seats is left in a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub struct TooManyTrials {
    /// The number of the trial, from 1.
    pub trial: usize,
    /// The most trials that so many draws allow.
    pub most: usize,
}

impl fmt::Display for TooManyTrials {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            formatter,
            "trial {}: these draws allow {}; take more draws",
            self.trial, self.most
        )
    }
}

/// The rule by which draws lend their seats to one another in a trial.
///
/// Each opening has a seat of its own, so the seat a draw happens to have says
/// nothing of a trial: its likelihood is averaged over the sixteen seats of the aligned
/// group of sixteen that holds index i XOR 16 k, in the block of i, where k = 1, 2 … is
/// the number of the trial. Sixteen aligned points of a Sobol sequence fill each
/// sixteenth of each dimension once. Never among them is the draw's own seat, which
/// would make what is foretold of another opening too sure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ExchangedSeats {
    per_block: usize,
    trial: usize,
}

impl ExchangedSeats {
    /// The rule of a trial by its number, from 1, among blocks of `per_block` draws.
    pub const fn new(per_block: usize, trial: usize) -> Result<Self, TooManyTrials> {
        // XOR of a group's number with the trial's stays inside the block, and never
        // gives the group itself, where the trial's number is 1 to less than the groups.
        let groups = per_block / SEATS;
        if trial == 0 || trial >= groups {
            return Err(TooManyTrials {
                trial,
                most: groups.saturating_sub(1),
            });
        }
        Ok(Self { per_block, trial })
    }

    /// The indices, over all blocks, of the draws that lend their seats to a draw.
    pub const fn of(&self, draw: usize) -> Range<usize> {
        let (block, index) = (draw / self.per_block, draw % self.per_block);
        let group = (index / SEATS) ^ self.trial;
        let first = block * self.per_block + group * SEATS;
        first..first + SEATS
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Blocks;
    use std::collections::HashSet;

    /// Other groups would pass the check of a whole re-weighing as well: these are the
    /// sixteen by name.
    #[test]
    fn the_sixteen_are_those_of_the_group_of_index_xor_sixteen_times_the_trial() {
        let of = |per_block, trial, draw| ExchangedSeats::new(per_block, trial).unwrap().of(draw);
        assert_eq!(of(512, 1, 0), 16..32);
        assert_eq!(of(512, 1, 16), 0..16);
        assert_eq!(of(512, 1, 31), 0..16);
        assert_eq!(of(512, 2, 17), 48..64);
        assert_eq!(of(512, 3, 511), 448..464);
        assert_eq!(of(512, 31, 5), 496..512);
        // The second block begins at 512.
        assert_eq!(of(512, 1, 512), 528..544);
        assert_eq!(of(512, 5, 512 + 100), 512 + 48..512 + 64);
        for trial in 1..32 {
            let seats = ExchangedSeats::new(512, trial).unwrap();
            for draw in 0..4096 {
                let sixteen: Vec<usize> = seats.of(draw).collect();
                assert_eq!(sixteen.len(), SEATS);
                assert!(sixteen.contains(&(((draw % 512) ^ (16 * trial)) + draw / 512 * 512)));
                assert!(!sixteen.contains(&draw));
                assert!(sixteen.iter().all(|other| other / 512 == draw / 512));
            }
        }
    }

    #[test]
    fn there_are_as_many_trials_as_groups_less_one() {
        assert!(ExchangedSeats::new(512, 31).is_ok());
        let error = ExchangedSeats::new(512, 32).unwrap_err();
        assert_eq!(error.most, 31);
        assert_eq!(
            error.to_string(),
            "trial 32: these draws allow 31; take more draws"
        );
        assert!(ExchangedSeats::new(512, 0).is_err());
        assert_eq!(ExchangedSeats::new(8, 1).unwrap_err().most, 0);
    }

    #[test]
    fn sixteen_aligned_points_fill_each_sixteenth_of_a_seat_once() {
        let blocks = Blocks::new(4096, 1).unwrap();
        for block in 0..Blocks::COUNT {
            for dimension in 128..136 {
                for group in 0..blocks.per_block() / SEATS {
                    let cells: HashSet<u64> = (group * SEATS..(group + 1) * SEATS)
                        .map(|index| (blocks.uniform(block, index, dimension) * 16.0).floor())
                        .map(f64::to_bits)
                        .collect();
                    assert_eq!(cells.len(), SEATS);
                }
            }
        }
    }
}
