//! Targeted draws: where too few draws agree with what was seen, new ones are aimed at
//! where the observations say the truth lies.

use crate::{Blocks, LogWeights, Weights};

/// A proposal for targeted draws: the deviates whose mean or spread observations move.
///
/// A defensive mixture (Hesterberg 1995; Owen and Zhou 2000; from memory): the first
/// quarter of each block stays as drawn, the rest is moved and narrowed, and each draw
/// is weighed by what the mixture makes too likely, so that no weight passes 4.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Proposal {
    moved: Vec<AimedDeviate>,
}

/// A deviate that a proposal moves and narrows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AimedDeviate {
    /// The Sobol dimension of the deviate.
    pub dimension: u32,
    /// The mean of the deviate, given the observations.
    pub mean: f64,
    /// The standard deviation, given the observations, clamped to the least spread and 1.
    pub sd: f64,
}

/// The least that a deviate is narrowed to.
const LEAST_SPREAD: f64 = 0.3;
/// A deviate that moves by less and is not narrowed under [`NARROWED`] stays.
const LEAST_MOVE: f64 = 0.3;
/// A standard deviation under which a deviate counts as narrowed.
const NARROWED: f64 = 0.85;
/// The share of each block that stays as drawn: its first points, which are a net of
/// their own, as every fourth point is not.
const AS_DRAWN: f64 = 0.25;
/// The shares of what is enough that are asked to say where to aim, one after the other
/// until something is moved.
const FEWER: [f64; 3] = [1.0, 0.25, 0.0625];
/// Halvings of the range of powers.
const HALVINGS: u32 = 40;

impl Proposal {
    /// The proposal that moves nothing.
    pub const fn none() -> Self {
        Self { moved: Vec::new() }
    }

    /// The proposal toward the weighted mean and spread of each deviate, which is given
    /// with its Sobol dimension and its values in the order of the draws.
    ///
    /// `before` are the draws' own weights, `seen` their likelihoods. These are taken at
    /// the power [`power`] finds, so that `enough` draws say where to aim; a quarter and
    /// then a sixteenth of that where so many move nothing.
    pub fn toward(
        deviates: &[(u32, Vec<f64>)],
        before: &LogWeights,
        seen: &LogWeights,
        enough: f64,
    ) -> Self {
        // Where the law lets go of what few draws explain, so many draws as are enough
        // speak for the rest and say nothing of where to aim: then fewer do.
        let fewer = FEWER.into_iter().map(|share| share * enough);
        let mut each = fewer.map(|enough| Self::by(deviates, before, seen, enough));
        each.find(|proposal| !proposal.moved.is_empty())
            .unwrap_or_default()
    }

    fn by(
        deviates: &[(u32, Vec<f64>)],
        before: &LogWeights,
        seen: &LogWeights,
        enough: f64,
    ) -> Self {
        let power = power(before, seen, enough);
        let Some(weights) = before.times(seen, power).weights() else {
            return Self::none();
        };
        let all: f64 = (0..weights.draws()).map(|draw| weights.of(draw)).sum();
        let moved = deviates.iter().filter_map(|(dimension, deviates)| {
            let (mean, sd) = moments(deviates, &weights, all);
            let is_moved = mean.abs() > LEAST_MOVE || sd < NARROWED;
            is_moved.then_some(AimedDeviate {
                dimension: *dimension,
                mean,
                sd: sd.clamp(LEAST_SPREAD, 1.0),
            })
        });
        Self {
            moved: moved.collect(),
        }
    }

    /// The deviates that the proposal moves.
    pub fn moved(&self) -> &[AimedDeviate] {
        &self.moved
    }

    /// The deviates of a dimension in one block, moved where the proposal moves them.
    ///
    /// # Panics
    ///
    /// As [`Blocks::uniform`].
    pub fn deviates(&self, blocks: &Blocks, block: usize, dimension: u32) -> Vec<f64> {
        let drawn = (0..blocks.per_block()).map(|index| blocks.normal(block, index, dimension));
        let mut deviates: Vec<f64> = drawn.collect();
        self.aim(dimension, &mut deviates);
        deviates
    }

    /// Moves the deviates of a dimension of one block, in the order of its points.
    pub(crate) fn aim(&self, dimension: u32, deviates: &mut [f64]) {
        let Some(moved) = self.moved.iter().find(|one| one.dimension == dimension) else {
            return;
        };
        let as_drawn = first_aimed(deviates.len());
        for z in &mut deviates[as_drawn..] {
            *z = moved.mean + moved.sd * *z;
        }
    }

    /// The logarithm of r, the weight of a draw whose deviates are as given: 1 over
    /// ¼ + ¾ Π (1/s) exp(½ z² − ½ ((z − m)/s)²).
    pub fn log_weight(&self, deviate: impl Fn(u32) -> f64) -> f64 {
        let mut log_ratio = 0.0;
        for moved in &self.moved {
            let z = deviate(moved.dimension);
            let from_mean = (z - moved.mean) / moved.sd;
            log_ratio += 0.5 * (z * z - from_mean * from_mean) - libm::log(moved.sd);
        }
        -libm::log(AS_DRAWN + (1.0 - AS_DRAWN) * libm::exp(log_ratio))
    }
}

/// Index of the first point of a block that the proposal moves.
const fn first_aimed(per_block: usize) -> usize {
    per_block.div_ceil(4)
}

/// The power at which likelihoods still leave `enough` effective draws: 1, or the end of
/// a bisection of 0 to 1 that keeps enough on its left. Used to search alone, as in
/// adaptive tempering; no chance is given from it.
pub fn power(before: &LogWeights, seen: &LogWeights, enough: f64) -> f64 {
    let leaves_enough = |power: f64| before.times(seen, power).effective_draws() >= enough;
    if leaves_enough(1.0) {
        return 1.0;
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if leaves_enough(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// Weighted mean and standard deviation.
fn moments(values: &[f64], weights: &Weights, all: f64) -> (f64, f64) {
    let sum = |of: &dyn Fn(f64) -> f64| -> f64 {
        let each = values.iter().enumerate();
        each.map(|(draw, &value)| weights.of(draw) * of(value))
            .sum::<f64>()
            / all
    };
    let mean = sum(&|value| value);
    let variance = sum(&|value| (value - mean) * (value - mean));
    (mean, variance.max(0.0).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    const ENOUGH: f64 = 400.0;

    /// One deviate, seen 4 times its spread out with a spread of 0.3.
    fn seen(deviates: &[f64]) -> LogWeights {
        let log = |z: &f64| {
            let from_seen = (z - 4.0) / 0.3;
            -0.5 * from_seen * from_seen
        };
        LogWeights::from_logarithms(deviates.iter().map(log).collect())
    }

    fn drawn(proposal: &Proposal, seed: u64) -> (Vec<f64>, LogWeights) {
        let blocks = Blocks::new(4096, seed).unwrap();
        let all = (0..Blocks::COUNT).flat_map(|block| proposal.deviates(&blocks, block, 0));
        let deviates: Vec<f64> = all.collect();
        let own = deviates.iter().map(|z| proposal.log_weight(|_| *z));
        let own = LogWeights::from_logarithms(own.collect());
        (deviates, own)
    }

    #[test]
    fn nothing_seen_moves_nothing() {
        let (deviates, own) = drawn(&Proposal::none(), 1);
        assert_eq!(own, LogWeights::uniform(4096));
        let toward = Proposal::toward(
            &[(0, deviates.clone())],
            &own,
            &LogWeights::uniform(4096),
            ENOUGH,
        );
        assert_eq!(toward, Proposal::none());
        assert_eq!(power(&own, &LogWeights::uniform(4096), ENOUGH), 1.0);
    }

    #[test]
    fn a_power_is_found_that_leaves_enough() {
        let (deviates, own) = drawn(&Proposal::none(), 1);
        let seen = seen(&deviates);
        assert!(own.times(&seen, 1.0).effective_draws() < 20.0);
        let power = power(&own, &seen, ENOUGH);
        let left = own.times(&seen, power).effective_draws();
        assert!(power > 0.0 && power < 1.0 && (ENOUGH..ENOUGH + 1.0).contains(&left));
    }

    /// Two looks at 4 ± 0.1, each of an observer who is wrong in 1 of 50: the few draws
    /// that agree are lost among those that the law lets go.
    #[test]
    fn few_draws_that_agree_are_aimed_at() {
        let (deviates, own) = drawn(&Proposal::none(), 1);
        let look = |z: f64| {
            let from_seen = (z - 2.9) / 0.05;
            0.98 * libm::exp(-0.5 * from_seen * from_seen) / 0.05 + 0.02 / 10.0
        };
        let likelihood = |z: &f64| 3.0 * libm::log(look(*z));
        let seen = LogWeights::from_logarithms(deviates.iter().map(likelihood).collect());
        assert!(own.times(&seen, 1.0).effective_draws() < 40.0);
        let toward = Proposal::toward(&[(0, deviates)], &own, &seen, ENOUGH);
        let [moved] = toward.moved() else {
            panic!("{toward:?}");
        };
        assert!(moved.mean > 0.3, "{moved:?}");
    }

    #[test]
    fn own_weights_have_mean_one_and_never_pass_four() {
        let (deviates, own) = drawn(&Proposal::none(), 1);
        let toward = Proposal::toward(&[(0, deviates.clone())], &own, &seen(&deviates), ENOUGH);
        assert_eq!(toward.moved().len(), 1);
        let (aimed, own) = drawn(&toward, 2);
        let weights: Vec<f64> = (0..4096).map(|draw| libm::exp(own.of(draw))).collect();
        assert!(weights.iter().all(|weight| *weight <= 4.0 + 1e-12));
        let blocks: Vec<f64> = weights
            .chunks(512)
            .map(|some| some.iter().sum::<f64>() / 512.0)
            .collect();
        let mean = blocks.iter().sum::<f64>() / 8.0;
        let squares: f64 = blocks.iter().map(|one| (one - mean) * (one - mean)).sum();
        let error = (squares / 56.0).sqrt();
        assert!((mean - 1.0).abs() < 3.0 * error, "{mean} ± {error}");
        // The first quarter of each block is as drawn.
        let (plain, _) = drawn(&Proposal::none(), 2);
        for (index, (aimed, plain)) in aimed.iter().zip(&plain).enumerate() {
            assert_eq!(aimed == plain, index % 512 < 128, "{index}");
        }
    }
}
