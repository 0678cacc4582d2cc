//! Weighed columns of draws, for checks of what trials make of them.

use measurement::{Blocks, LogWeights, Weights};

/// Weighted mean and standard deviation of a column.
pub fn moments(values: &[f64], weights: &Weights) -> (f64, f64) {
    let sum = |of: &dyn Fn(usize) -> f64| -> f64 {
        let all: f64 = (0..values.len()).map(|draw| weights.of(draw)).sum();
        let each = (0..values.len()).map(|draw| weights.of(draw) * of(draw));
        each.sum::<f64>() / all
    };
    let mean = sum(&|draw| values[draw]);
    let variance = sum(&|draw| (values[draw] - mean) * (values[draw] - mean));
    (mean, variance.sqrt())
}

/// Asserts a share within three errors of so many plain draws.
///
/// # Panics
///
/// Where it is not.
pub fn near(what: &str, value: f64, expected: f64, effective: f64) {
    let error = (expected * (1.0 - expected) / effective).sqrt();
    assert!(
        (value - expected).abs() < 3.0 * error,
        "{what}: {value}, not {expected}"
    );
}

/// One column of deviates of the standard normal law.
///
/// # Panics
///
/// Where there can be no such number of draws.
pub fn deviates(draws: usize, dimension: u32, seed: u64) -> Vec<f64> {
    let blocks = Blocks::new(draws, seed).expect("draws");
    let per_block = 0..blocks.per_block();
    (0..Blocks::COUNT)
        .flat_map(|block| per_block.clone().map(move |index| (block, index)))
        .map(|(block, index)| blocks.normal(block, index, dimension))
        .collect()
}

/// The weights of likelihoods, one for each draw.
///
/// # Panics
///
/// Where all are 0.
pub fn weighed(likelihoods: impl Iterator<Item = f64>) -> Weights {
    let likelihoods: Vec<f64> = likelihoods.collect();
    let mut weights = LogWeights::uniform(likelihoods.len());
    weights.multiply(&likelihoods);
    weights.weights().expect("weights")
}

/// The share of the weight for which something holds.
pub fn share(weights: &Weights, holds: impl Fn(usize) -> bool) -> f64 {
    let all: f64 = (0..weights.draws()).map(|draw| weights.of(draw)).sum();
    let held = (0..weights.draws()).filter(|&draw| holds(draw));
    held.map(|draw| weights.of(draw)).sum::<f64>() / all
}
