//! Likelihoods of what was seen, averaged over fresh seats.

use super::counted::{WeighingObservation, sorted};
use super::drawn::RoundDraws;
use super::modelled::Modelled;
use super::pair_cache::{PairCache, PairsOf, TrialPairs};
use super::{NotCounted, Observation, Trial};
use crate::measure::Situation;
use crate::side_by_side::side_by_side;
use crate::{Draws, Row, Setting, Size, Work, rows};
use geometry::{Radians, Seat};
use measurement::{ExchangedSeats, LogWeights, SEATS, TooManyTrials};
use std::ops::Range;
use std::sync::Arc;

/// One trial over all draws.
pub(crate) struct WeighedTrial<'a> {
    pub(crate) trial: &'a Trial,
    pub(crate) counted: Vec<WeighingObservation<'a>>,
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
    pub(crate) holds: Arc<[bool]>,
}

impl<'a> WeighedTrial<'a> {
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

    /// What was seen, in every pair of a draw and one of the sixteen seats that trial
    /// number `number`, from 1, gives it. `Ok(None)`: it was cancelled.
    pub(super) fn pairs(
        &self,
        setting: &Setting,
        drawn: &RoundDraws,
        number: usize,
        cache: &mut PairCache,
        work: &Work,
    ) -> Result<Option<Pairs>, TooManyTrials> {
        let per_block = drawn.draws.len() / measurement::Blocks::COUNT;
        let fresh = ExchangedSeats::new(per_block, number)?;
        let of = PairsOf::new(number, self.size, self.turn, &self.rows);
        let known = cache.pairs(&of);
        let mut new: Vec<Modelled> = Vec::new();
        for WeighingObservation { modelled, .. } in &self.counted {
            let is_known = known.is_some_and(|known| known.of(*modelled).is_some());
            if !is_known && !new.contains(modelled) {
                new.push(*modelled);
            }
        }
        if known.is_none() || !new.is_empty() {
            let holds = known.map(|known| Arc::clone(&known.holds));
            let mut modelled = known.map_or_else(Vec::new, |known| known.modelled.clone());
            let asked = (&new[..], holds.is_none());
            let Some(looked) = self.look(setting, &drawn.draws, fresh, asked, work) else {
                return Ok(None);
            };
            modelled.extend(
                new.into_iter()
                    .zip(looked.modelled.into_iter().map(Arc::from)),
            );
            cache.keep(TrialPairs {
                of: of.clone(),
                holds: holds.unwrap_or_else(|| looked.holds.into()),
                modelled,
            });
        }
        Ok(cache
            .pairs(&of)
            .and_then(|pairs| self.seen_in(pairs, drawn, work)))
    }

    /// Looks at every pair: what the model has of some things, and whether all limits
    /// hold where that is asked. `None`: it was cancelled.
    fn look(
        &self,
        setting: &Setting,
        draws: &Draws,
        fresh: ExchangedSeats,
        (things, asks_limits): (&[Modelled], bool),
        work: &Work,
    ) -> Option<Looked> {
        let looked = side_by_side(&chunks(draws.len()), work, |some| {
            let mut looked = Looked::new(things.len());
            let mut rows: Vec<&Row> = self.rows.iter().filter(|row| row.is_assessed()).collect();
            for draw in some.clone() {
                let anatomy = draws.anatomy(draw);
                let (occluder, most_left) = (&self.size.occluder, anatomy.left_slack_share);
                for lent in fresh.of(draw).map(|lent| draws.seat(lent)) {
                    let seat = Seat::drawn(occluder, &anatomy.defect, most_left, self.turn, &lent);
                    let at = Situation {
                        setting,
                        size: self.size,
                        anatomy: &anatomy,
                        seat: &seat,
                    };
                    for (thing, values) in things.iter().zip(&mut looked.modelled) {
                        values.push(thing.value(&at));
                    }
                    if asks_limits {
                        looked.holds.push(all_hold(&mut rows, &at));
                    }
                }
            }
            looked
        })?;
        let mut all = Looked::new(things.len());
        for some in looked {
            all.holds.extend(some.holds);
            for (all, some) in all.modelled.iter_mut().zip(some.modelled) {
                all.extend(some);
            }
        }
        Some(all)
    }

    /// What was seen held against what the model has. `None`: it was cancelled, or the
    /// model has nothing of a thing that was seen.
    fn seen_in(&self, pairs: &TrialPairs, drawn: &RoundDraws, work: &Work) -> Option<Pairs> {
        let values = self.counted.iter().map(|one| pairs.of(one.modelled));
        let values: Vec<&Arc<[f64]>> = values.collect::<Option<_>>()?;
        let parts = side_by_side(&chunks(drawn.draws.len()), work, |some| {
            let mut modelled = vec![Vec::with_capacity(some.len() * SEATS); values.len()];
            let mut likelihood = vec![1.0; some.len() * SEATS];
            for ((one, values), modelled) in self.counted.iter().zip(&values).zip(&mut modelled) {
                for draw in some.clone() {
                    let scale = match one.seen.by {
                        Some(by) if one.modelled.is_scaled(one.seen.what) => drawn.scale(by, draw),
                        _ => 0.0,
                    };
                    for value in &values[draw * SEATS..(draw + 1) * SEATS] {
                        let value = value / (1.0 + scale);
                        modelled.push(one.modelled.seen_at_most(value, one.seen.what.most()));
                    }
                }
                for (likelihood, value) in likelihood.iter_mut().zip(&*modelled) {
                    *likelihood *= one.law.likelihood(*value, one.taken);
                }
            }
            (likelihood, modelled)
        })?;
        let mut all = Pairs {
            likelihood: Vec::with_capacity(pairs.holds.len()),
            modelled: vec![Vec::with_capacity(pairs.holds.len()); values.len()],
            holds: Arc::clone(&pairs.holds),
        };
        for (likelihood, modelled) in parts {
            all.likelihood.extend(likelihood);
            for (all, some) in all.modelled.iter_mut().zip(modelled) {
                all.extend(some);
            }
        }
        Some(all)
    }
}

/// What the model has in some pairs.
struct Looked {
    modelled: Vec<Vec<f64>>,
    holds: Vec<bool>,
}

impl Looked {
    fn new(things: usize) -> Self {
        Self {
            modelled: vec![Vec::new(); things],
            holds: Vec::new(),
        }
    }
}

/// Whether all limits hold. The one that is broken comes first from then on: in the next
/// pair it is the likeliest to be broken as well.
fn all_hold(rows: &mut [&Row], at: &Situation) -> bool {
    let mut each = rows.iter();
    let broken = each.position(|row| row.stop.is_broken(row.measure.value(at)));
    if let Some(place) = broken {
        rows[..=place].rotate_right(1);
    }
    broken.is_none()
}

/// The draws that a thread looks at together, one part after the other.
fn chunks(draws: usize) -> Vec<Range<usize>> {
    let firsts = (0..draws).step_by(CHUNK);
    firsts
        .map(|first| first..draws.min(first + CHUNK))
        .collect()
}

impl TrialPairs {
    fn of(&self, modelled: Modelled) -> Option<&Arc<[f64]>> {
        let mut known = self.modelled.iter();
        known
            .find(|(it, _)| *it == modelled)
            .map(|(_, values)| values)
    }
}

/// Draws that a thread looks at together.
const CHUNK: usize = 128;

impl Pairs {
    /// The likelihood of each draw: the mean over its seats.
    pub(crate) fn of_draws(&self) -> Vec<f64> {
        let seats = self.likelihood.chunks(SEATS);
        seats
            .map(|some| some.iter().sum::<f64>() / SEATS as f64)
            .collect()
    }

    /// The likelihood of each draw by one observation alone, if its observer is never
    /// wrong.
    pub(crate) fn faultless(&self, index: usize, one: &WeighingObservation) -> Vec<f64> {
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
        for (pair, (likelihood, holds)) in self.likelihood.iter().zip(&*self.holds).enumerate() {
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
        one: &WeighingObservation,
        before: &LogWeights,
        work: &Work,
    ) -> Option<[f64; 2]> {
        let weights = before.weights()?;
        let modelled = &self.modelled[index];
        let parts = side_by_side(&chunks(before.len()), work, |some| {
            let (mut sums, mut all) = ([0.0; 2], 0.0);
            for draw in some.clone() {
                let weight = weights.of(draw);
                for modelled in &modelled[draw * SEATS..(draw + 1) * SEATS] {
                    let expected = one.law.expected(*modelled, one.taken);
                    all += weight;
                    for (sum, expected) in sums.iter_mut().zip(expected) {
                        *sum += weight * expected;
                    }
                }
            }
            (sums, all)
        })?;
        let (mut sums, mut all) = ([0.0; 2], 0.0);
        for (part, weight) in parts {
            all += weight;
            for (sum, part) in sums.iter_mut().zip(part) {
                *sum += part;
            }
        }
        (all > 0.0).then_some(sums.map(|sum| sum / all))
    }
}
