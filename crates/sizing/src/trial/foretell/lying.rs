//! A size in many places with their weights, and what is measured there.

use crate::measure::Situation;
use crate::side_by_side::side_by_side;
use crate::trial::WeighError;
use crate::trial::modelled::Modelled;
use crate::trial::weighing::Round;
use crate::{Draws, Row, Setting, Size, Work};
use geometry::{Radians, Seat};
use measurement::{Blocks, ExchangedSeats, SEATS};

/// A draw's anatomy with the seat of a draw, and how much that counts.
#[derive(Clone, Copy, Debug)]
pub(super) struct WeightedSeat {
    draw: usize,
    seat: usize,
    weight: f64,
}

/// Every draw in its own seat, which no trial has used.
pub(super) fn fresh(round: &Round) -> Vec<WeightedSeat> {
    let Some(weights) = round.weighed.all.weights() else {
        return Vec::new();
    };
    let all = (0..weights.draws()).map(|draw| WeightedSeat {
        draw,
        seat: draw,
        weight: weights.of(draw),
    });
    all.filter(|place| place.weight > 0.0).collect()
}

/// As many places as there are draws, taken from all pairs of a draw and a seat of the
/// last trial, which has this number, at even steps of their weight (systematic
/// resampling; from memory): each weighs as much.
pub(super) fn as_it_lies(round: &Round, number: usize) -> Result<Vec<WeightedSeat>, WeighError> {
    let draws = &round.drawn.draws;
    let seats = ExchangedSeats::new(draws.len() / Blocks::COUNT, number)?;
    let Some((pairs, before)) = round.weighed.trials.last() else {
        return Ok(Vec::new());
    };
    let Some(weights) = round.drawn.own.times(before, 1.0).weights() else {
        return Ok(Vec::new());
    };
    let weight = |pair: usize| weights.of(pair / SEATS) * pairs.likelihood[pair];
    let count = pairs.likelihood.len();
    let all: f64 = (0..count).map(weight).sum();
    let step = all / draws.len() as f64;
    let (mut places, mut passed) = (Vec::with_capacity(draws.len()), 0.0);
    for pair in 0..count {
        passed += weight(pair);
        while places.len() < draws.len() && (places.len() as f64 + 0.5) * step < passed {
            let draw = pair / SEATS;
            places.push(WeightedSeat {
                draw,
                seat: seats.of(draw).start + pair % SEATS,
                weight: 1.0,
            });
        }
    }
    Ok(places)
}

/// What is measured over all places; weights add up to 1.
#[derive(Clone, Debug)]
pub(super) struct WeightedValues {
    /// The weight of each place.
    pub(super) weights: Vec<f64>,
    /// The weight of those in which no limit is broken.
    pub(super) inside: f64,
    /// Of each row the weight of those in which its limit holds.
    pub(super) held: Vec<f64>,
    /// Of each thing that can be looked at the modelled value in each place.
    pub(super) values: Vec<Vec<f64>>,
}

/// Places that a thread looks at together.
const CHUNK: usize = 128;

impl WeightedValues {
    /// Looks at a size, set down at a turn, in every place; `None`: it was cancelled.
    pub(super) fn look(
        (setting, size, turn): (&Setting, &Size, Radians),
        rows: &[Row],
        modelled: &[(Modelled, f64)],
        draws: &Draws,
        places: &[WeightedSeat],
        work: &Work,
    ) -> Option<Self> {
        let all: f64 = places.iter().map(|place| place.weight).sum();
        let chunks: Vec<&[WeightedSeat]> = places.chunks(CHUNK).collect();
        let looked = side_by_side(&chunks, work, |chunk| {
            let mut some = Self::empty(rows.len(), modelled.len());
            for place in *chunk {
                let anatomy = draws.anatomy(place.draw);
                let drawn = &draws.seat(place.seat);
                let most_left = anatomy.left_slack_share;
                let seat = Seat::drawn(&size.occluder, &anatomy.defect, most_left, turn, drawn);
                let at = Situation {
                    setting,
                    size,
                    anatomy: &anatomy,
                    seat: &seat,
                };
                some.add(&at, place.weight / all, rows, modelled);
            }
            some
        })?;
        let mut whole = Self::empty(rows.len(), modelled.len());
        for some in looked {
            whole.weights.extend(some.weights);
            whole.inside += some.inside;
            for (all, some) in whole.held.iter_mut().zip(some.held) {
                *all += some;
            }
            for (all, some) in whole.values.iter_mut().zip(some.values) {
                all.extend(some);
            }
        }
        Some(whole)
    }

    fn empty(rows: usize, modelled: usize) -> Self {
        Self {
            weights: Vec::new(),
            inside: 0.0,
            held: vec![0.0; rows],
            values: vec![Vec::new(); modelled],
        }
    }

    fn add(&mut self, at: &Situation, weight: f64, rows: &[Row], modelled: &[(Modelled, f64)]) {
        let mut is_inside = true;
        for (row, held) in rows.iter().zip(&mut self.held) {
            if row.is_assessed() {
                if row.stop.is_broken(row.measure.value(at)) {
                    is_inside = false;
                } else {
                    *held += weight;
                }
            }
        }
        if is_inside {
            self.inside += weight;
        }
        self.weights.push(weight);
        for ((modelled, most), values) in modelled.iter().zip(&mut self.values) {
            values.push(modelled.seen_at_most(modelled.value(at), *most));
        }
    }
}
