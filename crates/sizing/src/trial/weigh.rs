//! Likelihoods of what was seen, averaged over fresh seats.

use super::counted::{Counted, sorted};
use super::{NotCounted, Observation, Trial};
use crate::measure::Situation;
use crate::side_by_side::side_by_side;
use crate::{Draws, Row, Setting, Size, Work, rows};
use geometry::{Radians, Seat};
use measurement::{ExchangedSeats, LogWeights, Modality, SEATS, TooManyTrials};

/// One trial over all draws.
pub(crate) struct Opened<'a> {
    pub(crate) trial: &'a Trial,
    pub(crate) counted: Vec<Counted<'a>>,
    pub(crate) rest: Vec<(&'a Observation, NotCounted)>,
    size: &'a Size,
    turn: Radians,
    rows: Vec<Row>,
}

/// What came of a trial in every pair of a draw and a fresh seat, seat by seat.
pub(crate) struct Pairs {
    /// The product of all likelihoods.
    pub(crate) likelihood: Vec<f64>,
    /// For each counted observation the modelled value.
    pub(crate) modelled: Vec<Vec<f64>>,
    /// Whether no limit is broken.
    pub(crate) holds: Vec<bool>,
}

impl<'a> Opened<'a> {
    /// A trial of a size that was set down at a turn.
    pub(crate) fn new(setting: &Setting, trial: &'a Trial, size: &'a Size, turn: Radians) -> Self {
        let (counted, rest) = sorted(setting, trial, size);
        Self {
            rows: rows(setting, &size.occluder),
            trial,
            counted,
            rest,
            size,
            turn,
        }
    }

    /// The size that was opened.
    pub(crate) const fn size(&self) -> &'a Size {
        self.size
    }

    /// The checks that are asked of it.
    pub(crate) fn rows(&self) -> &[Row] {
        &self.rows
    }

    /// The turn it was set down at.
    pub(crate) const fn turn(&self) -> Radians {
        self.turn
    }

    /// Looks at every pair of a draw and one of the sixteen seats that trial number
    /// `number`, from 1, gives it. `scales` are the draws' scale errors by modality.
    pub(crate) fn pairs(
        &self,
        setting: &Setting,
        draws: &Draws,
        scales: &dyn Scales,
        number: usize,
        work: &Work,
    ) -> Result<Option<Pairs>, TooManyTrials> {
        let per_block = draws.len() / measurement::Blocks::COUNT;
        let fresh = ExchangedSeats::new(per_block, number)?;
        let chunks: Vec<usize> = (0..draws.len()).step_by(CHUNK).collect();
        let looked = side_by_side(&chunks, work, |&first| {
            let mut some = Pairs::empty(self.counted.len());
            for draw in first..draws.len().min(first + CHUNK) {
                self.look(setting, draws, scales, draw, fresh.of(draw), &mut some);
            }
            some
        });
        let Some(looked) = looked else {
            return Ok(None);
        };
        let mut all = Pairs::empty(self.counted.len());
        for some in looked {
            all.likelihood.extend(some.likelihood);
            all.holds.extend(some.holds);
            for (all, some) in all.modelled.iter_mut().zip(some.modelled) {
                all.extend(some);
            }
        }
        Ok(Some(all))
    }

    fn look(
        &self,
        setting: &Setting,
        draws: &Draws,
        scales: &dyn Scales,
        draw: usize,
        seats: std::ops::Range<usize>,
        into: &mut Pairs,
    ) {
        let anatomy = draws.anatomy(draw);
        let occluder = &self.size.occluder;
        for seat in seats {
            let drawn = &draws.seat(seat);
            let most_left = anatomy.left_slack_share;
            let seat = Seat::drawn(occluder, &anatomy.defect, most_left, self.turn, drawn);
            let at = Situation {
                setting,
                size: self.size,
                anatomy: &anatomy,
                seat: &seat,
            };
            let mut likelihood = 1.0;
            for (one, values) in self.counted.iter().zip(&mut into.modelled) {
                let scale = match one.seen.by {
                    Some(by) if one.modelled.is_scaled(one.seen.what) => scales.of(by, draw),
                    _ => 0.0,
                };
                let value = one.modelled.value(&at) / (1.0 + scale);
                let value = one.modelled.seen_at_most(value, one.seen.what.most());
                likelihood *= one.law.likelihood(value, one.taken);
                values.push(value);
            }
            into.likelihood.push(likelihood);
            let mut assessed = self.rows.iter().filter(|row| row.is_assessed());
            into.holds
                .push(assessed.all(|row| !row.stop.is_broken(row.measure.value(&at))));
        }
    }
}

/// Draws that a thread looks at together.
const CHUNK: usize = 128;

/// The scale errors that draws carry.
pub(crate) trait Scales: Sync {
    /// By what share a length is seen too large by a modality in a draw.
    fn of(&self, modality: Modality, draw: usize) -> f64;
}

impl Pairs {
    fn empty(observations: usize) -> Self {
        Self {
            likelihood: Vec::new(),
            modelled: vec![Vec::new(); observations],
            holds: Vec::new(),
        }
    }

    /// The likelihood of each draw: the mean over its seats.
    pub(crate) fn of_draws(&self) -> Vec<f64> {
        let seats = self.likelihood.chunks(SEATS);
        seats
            .map(|some| some.iter().sum::<f64>() / SEATS as f64)
            .collect()
    }

    /// The likelihood of each draw by one observation alone, if its observer is never
    /// wrong.
    pub(crate) fn faultless(&self, index: usize, one: &Counted) -> Vec<f64> {
        let seats = self.modelled[index].chunks(SEATS);
        seats
            .map(|some| {
                let each = some.iter();
                each.map(|&value| one.law.faultless(value, one.taken))
                    .sum::<f64>()
                    / SEATS as f64
            })
            .collect()
    }

    /// The share of the weight of pairs in which no limit is broken, as the device lies;
    /// `others` are the weights by all else than this trial. `None` where none has
    /// weight.
    pub(crate) fn as_it_lies(&self, others: &LogWeights) -> Option<f64> {
        let weights = others.weights()?;
        let (mut held, mut all) = (0.0, 0.0);
        for (pair, (likelihood, holds)) in self.likelihood.iter().zip(&self.holds).enumerate() {
            let weight = weights.of(pair / SEATS) * likelihood;
            all += weight;
            held += if *holds { weight } else { 0.0 };
        }
        (all > 0.0).then_some(held / all)
    }

    /// The mean over pairs, under the weights of the trials before, of what a faultless
    /// observer was to expect of one observation.
    pub(crate) fn expected(
        &self,
        index: usize,
        one: &Counted,
        before: &LogWeights,
    ) -> Option<[f64; 2]> {
        let weights = before.weights()?;
        let (mut sums, mut all) = ([0.0; 2], 0.0);
        for (pair, modelled) in self.modelled[index].iter().enumerate() {
            let weight = weights.of(pair / SEATS);
            let expected = one.law.expected(*modelled, one.taken);
            all += weight;
            for (sum, expected) in sums.iter_mut().zip(expected) {
                *sum += weight * expected;
            }
        }
        (all > 0.0).then_some(sums.map(|sum| sum / all))
    }
}
