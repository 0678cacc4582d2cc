//! What is foretold of a trial: the chance of each limit and of what would be seen.

mod lying;
mod percentiles;

use super::modelled::Modelled;
use super::weighing::{Round, opened, rounds};
use super::{
    Forecast, LimitForecast, ObservationKind, PairCache, SeenForecast, ValueForecast, WeighError,
};
use crate::house_rules::ObservationLaw;
use crate::measure::Measure;
use crate::{Catalogue, Neighbour, Row, Setting, Size, Subject, Work};
use lying::{WeightedSeat, WeightedValues};
use measurement::observation::ValueLaw;

/// When something is foretold of a trial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moment {
    /// When it is opened, by the trials before it alone; the seat is a fresh one.
    Opened,
    /// When it closes, by all that was seen until then, as the device lies.
    Closed,
}

/// What is foretold of a trial of a case, by its name, as the case was `as_measured`.
/// Trials after it, and at opening all that was seen in it, say nothing. `Ok(None)`: it
/// was cancelled.
///
/// The same case, catalogues, rules, number of draws and seed give the same forecast.
pub fn foretell(
    as_measured: &Setting,
    catalogues: &[Catalogue],
    trial: &str,
    moment: Moment,
    (draws, seed): (usize, u64),
    work: &Work,
) -> Result<Option<Forecast>, WeighError> {
    let by = (draws, seed);
    PairCache::default().foretell(as_measured, catalogues, (trial, moment), by, work)
}

impl PairCache {
    /// As [`foretell`], of a trial at a moment, by what is kept.
    pub fn foretell(
        &mut self,
        as_measured: &Setting,
        catalogues: &[Catalogue],
        (trial, moment): (&str, Moment),
        by: (usize, u64),
        work: &Work,
    ) -> Result<Option<Forecast>, WeighError> {
        let setting = as_measured;
        let trials = &setting.case().procedure.trials;
        let mut places = trials.iter();
        let number = places.position(|one| one.id == trial);
        let number = number.ok_or_else(|| WeighError::UnknownTrial(trial.to_owned()))?;
        let all = opened(setting, catalogues, &trials[..=number])?;
        let before = &all[..number];
        let of = &all[number];
        let things = ObservationTarget::all(setting, of.size());
        let asked = SizeQuery {
            setting,
            size: of.size(),
            turn: of.turn(),
            rows: of.rows(),
            things: &things,
            work,
        };
        let taken = match moment {
            Moment::Opened => before,
            Moment::Closed => &all[..],
        };
        let Some(round) = rounds(setting, taken, by, self, work)? else {
            return Ok(None);
        };
        let places = match moment {
            Moment::Opened => lying::fresh(&round),
            Moment::Closed => lying::as_it_lies(&round, number + 1)?,
        };
        if places.is_empty() {
            return Err(WeighError::NoneAgrees);
        }
        let Some(lying) = asked.look(&round, &places) else {
            return Ok(None);
        };
        let alone = match (moment, number) {
            (Moment::Closed, _) => None,
            (Moment::Opened, 0) => Some(lying.clone()),
            (Moment::Opened, _) => {
                let Some(alone) = rounds(setting, &[], by, self, work)? else {
                    return Ok(None);
                };
                let Some(lying) = asked.look(&alone, &lying::fresh(&alone)) else {
                    return Ok(None);
                };
                Some(lying)
            }
        };
        Ok(asked.forecast(&round, &lying, alone.as_ref()))
    }
}

/// What is asked of a size in a case.
struct SizeQuery<'a> {
    setting: &'a Setting,
    size: &'a Size,
    turn: geometry::Radians,
    rows: &'a [Row],
    things: &'a [ObservationTarget],
    work: &'a Work<'a>,
}

impl SizeQuery<'_> {
    fn look(&self, round: &Round, places: &[WeightedSeat]) -> Option<WeightedValues> {
        let modelled: Vec<(Modelled, f64)> = self
            .things
            .iter()
            .map(|thing| (thing.modelled, thing.what.most()))
            .collect();
        let of = (self.setting, self.size, self.turn);
        WeightedValues::look(
            of,
            self.rows,
            &modelled,
            &round.drawn.draws,
            places,
            self.work,
        )
    }

    /// `None` where it was cancelled.
    fn forecast(
        &self,
        round: &Round,
        lying: &WeightedValues,
        alone: Option<&WeightedValues>,
    ) -> Option<Forecast> {
        let assessed = self.rows.iter().zip(&lying.held);
        let limits = assessed.filter(|(row, _)| row.is_assessed() && !row.stop.is_none());
        let numbered: Vec<usize> = (0..self.things.len()).collect();
        let seen = crate::side_by_side::side_by_side(&numbered, self.work, |&index| {
            self.things[index].forecast(self, lying, alone, index)
        })?;
        Some(Forecast {
            effective: shortened(round.effective(), WHOLE),
            inside_before: alone.map(|alone| shortened(alone.inside, CHANCE)),
            inside: shortened(lying.inside, CHANCE),
            limits: limits
                .map(|(row, chance)| LimitForecast {
                    check: row.id().to_owned(),
                    of: row.of,
                    chance: shortened(*chance, CHANCE),
                })
                .collect(),
            seen: seen.into_iter().flatten().collect(),
        })
    }
}

/// One thing that can be looked at, with its law.
struct ObservationTarget {
    what: ObservationKind,
    of: Subject,
    law: ObservationLaw,
    modelled: Modelled,
}

/// The kinds of which something is foretold.
const FORETOLD: [ObservationKind; 8] = [
    ObservationKind::Touches,
    ObservationKind::Regurgitation,
    ObservationKind::EdgeJet,
    ObservationKind::Slips,
    ObservationKind::Misshapen,
    ObservationKind::Distance,
    ObservationKind::Waist,
    ObservationKind::Gradient,
];

impl ObservationTarget {
    /// All of a size of which the model has something and the rules a law.
    fn all(setting: &Setting, size: &Size) -> Vec<Self> {
        let laws = &setting.rules().observations;
        let case = setting.case();
        let is_there = |of: Subject| {
            let valve = of.valve();
            valve.is_none_or(|valve| !case.is_absent(Neighbour::Valve(valve)))
        };
        let mut all = Vec::new();
        for what in FORETOLD {
            let Some(row) = laws.iter().find(|row| row.what == what) else {
                continue;
            };
            for of in Subject::ALL {
                if what.can_be_of(of)
                    && is_there(of)
                    && let Ok(modelled) = Modelled::of(setting, size, (what, of, None))
                {
                    let law = row.law;
                    all.push(Self {
                        what,
                        of,
                        law,
                        modelled,
                    });
                }
            }
        }
        all
    }

    /// What is foretold of it; `None` where the model has no value in some place.
    fn forecast(
        &self,
        asked: &SizeQuery,
        lying: &WeightedValues,
        alone: Option<&WeightedValues>,
        index: usize,
    ) -> Option<SeenForecast> {
        let values = &lying.values[index];
        if values.iter().any(|value| value.is_nan()) {
            return None;
        }
        let seen = SeenForecast {
            what: self.what,
            of: self.of,
            yes: None,
            over: None,
            value: None,
        };
        let chance = |of: &dyn Fn(f64) -> f64| {
            let sum: f64 = values
                .iter()
                .zip(&lying.weights)
                .map(|(value, weight)| weight * of(*value))
                .sum();
            shortened(sum, CHANCE)
        };
        Some(match self.law {
            ObservationLaw::Answer(law) => SeenForecast {
                yes: Some(chance(&|value| law.yes(value))),
                ..seen
            },
            ObservationLaw::Value(law) => {
                let over = asked.limit(self.of).filter(|_| self.is_gradient());
                SeenForecast {
                    yes: over.map(|over| chance(&|value| law.tails(value, over)[1])),
                    over,
                    value: Some(self.value(asked, &law, (lying, alone), index)),
                    ..seen
                }
            }
        })
    }

    fn is_gradient(&self) -> bool {
        self.what == ObservationKind::Gradient
    }

    fn value(
        &self,
        asked: &SizeQuery,
        law: &ValueLaw,
        (lying, alone): (&WeightedValues, Option<&WeightedValues>),
        index: usize,
    ) -> ValueForecast {
        let values = &lying.values[index];
        let is_waist = self.what == ObservationKind::Waist;
        let under = |seen: f64| -> f64 {
            values
                .iter()
                .zip(&lying.weights)
                .map(|(value, weight)| weight * law.tails(*value, seen)[0])
                .sum()
        };
        let by_readings = alone.map(|alone| {
            if is_waist {
                asked.setting.anatomy().defect.fit_diameter()
            } else {
                let each = alone.values[index].iter().zip(&alone.weights);
                each.map(|(value, weight)| weight * value).sum()
            }
        });
        let is_cut = law.range == measurement::observation::Range::AtLeastZero;
        ValueForecast {
            by_readings: by_readings.map(|value| shortened(value, VALUE)),
            at_most: is_waist.then_some(asked.size.occluder.waist.diameter),
            at_zero: if is_cut {
                shortened(under(0.0), CHANCE)
            } else {
                0.0
            },
            percentiles: percentiles::of(under, self.what.most())
                .map(|value| shortened(value, VALUE)),
        }
    }
}

impl SizeQuery<'_> {
    /// The limit of the gradient on a side, mmHg; `None` where there is none.
    fn limit(&self, of: Subject) -> Option<f64> {
        let mut rows = self.rows.iter();
        let row = rows.find(
            |row| matches!(row.measure, Measure::TractGradient(face) if Subject::Face(face) == of),
        );
        row?.stop.high
    }
}

/// Steps of one of what a forecast keeps of an effective number, a chance, a value.
const WHOLE: f64 = 1.0;
const CHANCE: f64 = 1e4;
const VALUE: f64 = 1e3;

/// A number cut to what a file keeps of it.
fn shortened(value: f64, steps: f64) -> f64 {
    // Adding 0 turns −0 into 0.
    (value * steps).round() / steps + 0.0
}
