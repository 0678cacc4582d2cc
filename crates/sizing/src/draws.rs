use crate::anatomy::AnatomyPlan;
use crate::house_rules::Parameter;
use crate::side_by_side::in_halves;
use crate::{Anatomy, Setting};
use geometry::{PerFace, SeatDraw, degrees};
use measurement::targeted::Proposal;
use measurement::{Blocks, DrawsError, ModelError, Quantity, Weights, normal};
use std::f64::consts::TAU;
use std::ops::Range;

/// Random anatomies and seats: every candidate sees the same.
///
/// Kept as columns, one for each quantity, counted through the blocks in their
/// order; an anatomy is laid out of them where one is asked for.
#[derive(Clone, Debug)]
pub struct Draws {
    plan: AnatomyPlan,
    /// By the index of its quantity; empty where nothing is drawn.
    columns: Vec<Vec<f64>>,
    /// By the index of its model error; empty where none is drawn.
    errors: [Vec<f64>; ModelError::ALL.len()],
    seats: Vec<SeatDraw>,
    per_block: usize,
    weights: Weights,
}

/// The Sobol dimensions of the seat's random numbers, by sets of four: 128 to 135
/// belong to seats, in this order, for good.
///
/// U and V of the play, the split, the left disc's tilt; its direction, the right
/// disc's tilt and direction, the turn.
const SEAT_SETS: [u32; 2] = [32, 33];

/// One block as it is drawn.
struct Drawn {
    columns: Vec<(Quantity, Vec<f64>)>,
    errors: [Vec<f64>; ModelError::ALL.len()],
    seats: Vec<SeatDraw>,
}

impl Draws {
    /// The seed where none is asked for: the same on the command line, on the screen
    /// and behind every sheet.
    pub const SEED: u64 = 1;

    /// A number of draws of a setting, from a seed.
    pub fn new(setting: &Setting, draws: usize, seed: u64) -> Result<Self, DrawsError> {
        let blocks = Blocks::new(draws, seed)?;
        Ok(Self::toward(setting, &blocks, &Proposal::none()))
    }

    /// The draws of blocks, aimed; their weights are still all alike.
    pub(crate) fn toward(setting: &Setting, blocks: &Blocks, proposal: &Proposal) -> Self {
        let draws = blocks.draws();
        let drawn = in_halves(Blocks::COUNT, |block| Drawn {
            columns: setting.joint().draw_toward(blocks, block, proposal),
            errors: ModelError::ALL
                .map(|error| model_errors(setting, blocks, block, proposal, error)),
            seats: seats(setting, blocks, block),
        });
        let mut all = Self {
            plan: setting.plan().clone(),
            columns: vec![Vec::new(); Quantity::COUNT],
            errors: std::array::from_fn(|_| Vec::new()),
            seats: Vec::with_capacity(draws),
            per_block: blocks.per_block(),
            weights: Weights::uniform(draws),
        };
        for block in drawn {
            for (quantity, values) in block.columns {
                all.columns[quantity.index()].extend(values);
            }
            for (all, errors) in all.errors.iter_mut().zip(block.errors) {
                all.extend(errors);
            }
            all.seats.extend(block.seats);
        }
        all
    }

    /// The same draws with other weights; `None` where there are not as many.
    #[must_use]
    pub fn weighted(self, weights: Weights) -> Option<Self> {
        (weights.draws() == self.len()).then_some(Self { weights, ..self })
    }

    /// The drawn values of a quantity, in the order of the draws; `None` where it
    /// has none of its own.
    pub fn column(&self, quantity: Quantity) -> Option<&[f64]> {
        let column = self.columns[quantity.index()].as_slice();
        (!column.is_empty()).then_some(column)
    }

    /// The drawn values of a model error, in the order of the draws; `None` where the
    /// house has the model right.
    pub fn errors(&self, error: ModelError) -> Option<&[f64]> {
        let column = self.errors[error.index()].as_slice();
        (!column.is_empty()).then_some(column)
    }

    /// The anatomy of a draw, laid out.
    ///
    /// # Panics
    ///
    /// Beyond the last draw, as a slice does.
    pub fn anatomy(&self, draw: usize) -> Anatomy {
        let value = |quantity| Some(self.column(quantity)?[draw]);
        let mut anatomy = self.plan.anatomy_of(value);
        for error in ModelError::ALL {
            if let Some(column) = self.errors(error) {
                anatomy.errors.set(error, column[draw]);
            }
        }
        anatomy
    }

    /// The random part of the seat in each draw.
    pub fn seats(&self) -> &[SeatDraw] {
        &self.seats
    }

    /// The draws of each block.
    pub fn block_ranges(&self) -> impl Iterator<Item = Range<usize>> + use<> {
        let per_block = self.per_block;
        (0..Blocks::COUNT).map(move |block| block * per_block..(block + 1) * per_block)
    }

    /// The weight of each draw, counted through the blocks in their order.
    pub const fn weights(&self) -> &Weights {
        &self.weights
    }

    /// How many draws there are.
    pub const fn len(&self) -> usize {
        self.weights.draws()
    }

    /// Whether there is no draw.
    pub const fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

/// A model error in one block: normal about 0; empty where its standard deviation is 0.
fn model_errors(
    setting: &Setting,
    blocks: &Blocks,
    block: usize,
    proposal: &Proposal,
    error: ModelError,
) -> Vec<f64> {
    let sd = setting.rules().model_error_sd(error);
    if sd <= 0.0 {
        return Vec::new();
    }
    let deviates = proposal.deviates(blocks, block, error.dimension());
    deviates.into_iter().map(|z| sd * z).collect()
}

/// The random part of the seats of one block: uniform in the play, the slack and
/// the direction of the tilt; half-normal in its angle; normal in the turn.
fn seats(setting: &Setting, blocks: &Blocks, block: usize) -> Vec<SeatDraw> {
    let tilt_sd = degrees(setting.parameter(Parameter::TiltSd));
    let turn_sd = degrees(setting.parameter(Parameter::TurnSd));
    let tilt = |uniform: f64| tilt_sd * normal::quantile(0.5 * (1.0 + uniform));
    let [first, second] = SEAT_SETS.map(|set| blocks.uniforms(block, set));
    let [play_radius, play_angle, split, left_tilt] = first;
    let [left_direction, right_tilt, right_direction, turn] = second;
    (0..blocks.per_block())
        .map(|index| SeatDraw {
            play_radius: play_radius[index],
            play_angle: play_angle[index],
            split: split[index],
            tilt_angle: PerFace::new(tilt(left_tilt[index]), tilt(right_tilt[index])),
            tilt_direction: PerFace::new(TAU * left_direction[index], TAU * right_direction[index]),
            turn_error: turn_sd * normal::quantile(turn[index]),
        })
        .collect()
}
