//! By how much the model itself would have to be wrong to change the answer.

use super::doubt::{Doubt, REACH};
use super::moved::Probe;
use super::search::{Direction, broken};
use super::{BrokenLimit, Change};
use crate::measure::Measure;
use crate::{Draws, Row, State, face_of};
use geometry::Face;
use measurement::{Law, ModelError};

/// The interval of one model error in which the state stays. No reading settles it: only
/// trials say more of it.
#[derive(Clone, Debug, PartialEq)]
pub struct ModelBreakEven {
    /// The model error.
    pub error: ModelError,
    /// What is believed of it: in millimetres, of a gradient the logarithm of a factor.
    pub value: f64,
    /// Its standard deviation.
    pub sd: f64,
    /// The end under the value, where there is one.
    pub below: Option<Change>,
    /// The end over the value, where there is one.
    pub above: Option<Change>,
}

impl ModelBreakEven {
    /// Both ends, as far as they exist.
    pub fn ends(&self) -> impl Iterator<Item = &Change> {
        self.below.iter().chain(&self.above)
    }
}

/// The finest difference in a model error that is told apart: a hundredth of what is
/// shown.
const ACCURACY: f64 = 0.001;
/// Places on each side that are looked at, outward, half a standard deviation apart.
const PLACES: usize = 8;
const STEP: f64 = REACH / PLACES as f64;

/// The break-even of each model error that your centre's rules allow for and whose end is
/// within four standard deviations. A model error is added to a value, or multiplies it,
/// so no geometry is asked again.
pub(super) fn of_model(probe: &Probe, held: State, draws: Option<&Draws>) -> Vec<ModelBreakEven> {
    let errors = ModelError::ALL.into_iter();
    let each = errors.filter_map(|error| {
        let sd = probe.setting.rules().model_error_sd(error);
        let value = probe.setting.anatomy().errors.of(error);
        let column = draws.and_then(|draws| Some((draws, draws.errors(error)?)));
        let doubt = Doubt::of_law(Law::Normal { mean: 0.0, sd }, value)?;
        let doubt = match column {
            Some((draws, column)) => doubt.weighed(&column, draws.weights(), value)?,
            None => doubt,
        };
        let search = ModelSearch {
            probe,
            error,
            held,
            value,
            doubt: &doubt,
        };
        Some(ModelBreakEven {
            error,
            value,
            sd: doubt.sd(),
            below: search.change(Direction::Down),
            above: search.change(Direction::Up),
        })
    });
    each.filter(|one| one.ends().next().is_some()).collect()
}

struct ModelSearch<'a> {
    probe: &'a Probe<'a>,
    error: ModelError,
    held: State,
    /// What is believed of it.
    value: f64,
    doubt: &'a Doubt,
}

impl ModelSearch<'_> {
    fn change(&self, direction: Direction) -> Option<Change> {
        let mut within = self.value;
        for place in 1..=PLACES {
            let mut beyond = self.doubt.at(direction.sign() * STEP * place as f64);
            if self.worst(beyond).0 == self.held {
                within = beyond;
                continue;
            }
            while (beyond - within).abs() > ACCURACY {
                let middle = 0.5 * (within + beyond);
                if self.worst(middle).0 == self.held {
                    within = middle;
                } else {
                    beyond = middle;
                }
            }
            let (becomes, by) = self.worst(beyond);
            let under = self.doubt.under(within);
            return Some(Change {
                at: within,
                becomes,
                by: if becomes > self.held {
                    by
                } else {
                    self.worst(self.value).1
                },
                chance: match direction {
                    Direction::Down => under,
                    Direction::Up => 1.0 - under,
                },
            });
        }
        None
    }

    /// The worst state where the model is wrong by so much, and what is broken in it.
    fn worst(&self, by: f64) -> (State, Option<BrokenLimit>) {
        let mut worst = (State::Ok, None);
        for (row, value) in self.probe.rows.iter().zip(&self.probe.values) {
            let Some(value) = value.map(|value| self.moved(row, value, by)) else {
                continue;
            };
            let state = row.state(value);
            if state > worst.0 {
                worst = (state, broken(row, value));
            }
        }
        worst
    }

    /// The value of a row where the model is wrong by so much.
    fn moved(&self, row: &Row, value: f64, by: f64) -> f64 {
        let more = by - self.value;
        match (row.measure, self.error) {
            (Measure::Lip(..), ModelError::RimOverlap) => value + more,
            (Measure::Clearance(valve), ModelError::ClearanceLeft)
                if face_of(valve) == Face::Left =>
            {
                value + more
            }
            (Measure::Clearance(valve), ModelError::ClearanceRight)
                if face_of(valve) == Face::Right =>
            {
                value + more
            }
            (Measure::TractGradient(Face::Left), ModelError::GradientLeft)
            | (Measure::TractGradient(Face::Right), ModelError::GradientRight) => {
                value * libm::exp(more)
            }
            _ => value,
        }
    }
}
