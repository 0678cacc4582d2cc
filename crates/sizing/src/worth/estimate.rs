//! The estimator of a gain, over draws that all sizes share.

use crate::engine::DrawSet;
use measurement::{BlockShares, Blocks, Chance, Weights};
use std::borrow::Borrow;

/// Bins of equal weight into which the draws are cut along a quantity. With 4,096
/// draws a bin holds 128: a limit inside one bin costs at most half of its
/// weight, 1.6 % of the gain there.
const BINS: usize = 32;

/// Bins on either side whose draws help to choose in one: with them the choice
/// rests on three times as many.
const NEIGHBOURS: usize = 1;

/// Halves of the blocks: what is chosen on one is scored on the other.
const HALVES: usize = 2;

/// In which draws each size breaks no stop, with what is best now.
///
/// Of sizes whose draws all lie among another's none could be best; they are left
/// out.
pub struct Sample<'a> {
    weights: &'a Weights,
    holds: Vec<&'a DrawSet>,
    /// For each of `holds`, its place among the sizes given.
    places: Vec<usize>,
    /// The place in `holds` of the size with the highest chance.
    best: usize,
}

impl<'a> Sample<'a> {
    /// Of the draws in which each size holds; `None` without a size or a draw.
    pub fn new<S: Borrow<DrawSet>>(holds: &'a [S], weights: &'a Weights) -> Option<Self> {
        let holds: Vec<&DrawSet> = holds.iter().map(Borrow::borrow).collect();
        let weight = |set: &DrawSet| -> f64 {
            (0..set.draws())
                .filter(|&draw| set.contains(draw))
                .map(|draw| weights.of(draw))
                .sum()
        };
        let weight_of: Vec<f64> = holds.iter().map(|set| weight(set)).collect();
        // The first of equals, as in the list.
        let best = (0..holds.len()).reduce(|best, place| {
            if weight_of[place] > weight_of[best] {
                place
            } else {
                best
            }
        })?;
        if weights.draws() == 0 {
            return None;
        }
        let places: Vec<usize> = (0..holds.len())
            .filter(|&place| {
                place == best
                    || !(0..holds.len()).any(|other| {
                        other != place
                            && holds[place].is_within(holds[other])
                            // Of equals the first stays.
                            && (other < place || !holds[other].is_within(holds[place]))
                    })
            })
            .collect();
        Some(Self {
            weights,
            best: places.iter().position(|&place| place == best)?,
            holds: places.iter().map(|&place| holds[place]).collect(),
            places,
        })
    }

    /// The place, among the sizes given, of the one with the highest chance.
    pub fn best(&self) -> usize {
        self.places[self.best]
    }

    /// Its chance.
    pub fn chance(&self) -> Chance {
        self.mean(|draw| f64::from(u8::from(self.holds[self.best].contains(draw))))
    }

    /// The chance that it breaks a stop and another does not: the gain of knowing
    /// everything.
    pub fn not_best(&self) -> Chance {
        self.mean(|draw| {
            let gained = !self.holds[self.best].contains(draw)
                && self.holds.iter().any(|holds| holds.contains(draw));
            f64::from(u8::from(gained))
        })
    }

    /// The gain of knowing a quantity, from its value in each draw.
    ///
    /// The draws are sorted by it and cut into bins of equal weight (after Strong
    /// and Oakley, Med Decis Making 33 (2013), from memory). In each bin the size
    /// is chosen on one half of the blocks, with the neighbouring bins' draws of
    /// that half, and scored on the other half; then the halves change places. So
    /// a choice that only follows noise gains nothing: where a quantity matters
    /// to nothing the expected gain is 0 or less.
    ///
    /// Never above [`not_best`](Self::not_best): no choice holds in a draw in which
    /// no size does.
    pub fn gain(&self, values: &[f64]) -> Chance {
        let bins = self.bins(values);
        let mut choice = vec![[self.best; HALVES]; BINS];
        for (bin, of_bin) in choice.iter_mut().enumerate() {
            let from = bin.saturating_sub(NEIGHBOURS);
            let to = (bin + NEIGHBOURS).min(BINS - 1);
            *of_bin = self.choose(&bins[from..=to]);
        }
        let mut bin_of = vec![0; self.weights.draws()];
        for (bin, draws) in bins.iter().enumerate() {
            for &draw in draws {
                bin_of[draw] = bin;
            }
        }
        self.mean(|draw| {
            // Chosen on the half that this draw is not of.
            let chosen = choice[bin_of[draw]][HALVES - 1 - self.half(draw)];
            let of = |place: usize| f64::from(u8::from(self.holds[place].contains(draw)));
            of(chosen) - of(self.best)
        })
    }

    /// The share of what knowing everything would gain.
    pub fn share_taken(&self, gain: &Chance) -> f64 {
        let all = self.not_best().value;
        if all > 0.0 {
            (gain.value / all).clamp(0.0, 1.0)
        } else {
            0.0
        }
    }

    /// The draws in the order of a quantity, in bins of equal weight.
    fn bins(&self, values: &[f64]) -> Vec<Vec<usize>> {
        let mut order: Vec<usize> = (0..self.weights.draws().min(values.len())).collect();
        order.sort_by(|&one, &other| values[one].total_cmp(&values[other]).then(one.cmp(&other)));
        let whole: f64 = order.iter().map(|&draw| self.weights.of(draw)).sum();
        let mut bins = vec![Vec::new(); BINS];
        let mut sum = 0.0;
        let mut bin = 0;
        for draw in order {
            while bin + 1 < BINS && sum >= whole * (bin + 1) as f64 / BINS as f64 {
                bin += 1;
            }
            bins[bin].push(draw);
            sum += self.weights.of(draw);
        }
        bins
    }

    /// The best size in some bins on each half; where none is better than what is
    /// best now, that.
    fn choose(&self, bins: &[Vec<usize>]) -> [usize; HALVES] {
        let mut held = vec![[0.0; HALVES]; self.holds.len()];
        for &draw in bins.iter().flatten() {
            let (half, weight) = (self.half(draw), self.weights.of(draw));
            for (sum, holds) in held.iter_mut().zip(&self.holds) {
                if holds.contains(draw) {
                    sum[half] += weight;
                }
            }
        }
        std::array::from_fn(|half| {
            (0..self.holds.len()).fold(self.best, |best, place| {
                if held[place][half] > held[best][half] {
                    place
                } else {
                    best
                }
            })
        })
    }

    /// The half a draw's block is of: blocks in turn.
    fn half(&self, draw: usize) -> usize {
        self.block(draw) % HALVES
    }

    fn block(&self, draw: usize) -> usize {
        draw * Blocks::COUNT / self.weights.draws()
    }

    /// The weighted mean of something over the draws, with its error by blocks.
    fn mean(&self, of: impl Fn(usize) -> f64) -> Chance {
        let (mut held, mut all) = ([0.0; Blocks::COUNT], [0.0; Blocks::COUNT]);
        for draw in 0..self.weights.draws() {
            let block = self.block(draw);
            held[block] += self.weights.of(draw) * of(draw);
            all[block] += self.weights.of(draw);
        }
        BlockShares::from_weights(held, all).chance(self.weights.effective_draws())
    }
}
