use crate::anatomy::AnatomyPlan;
use crate::house_rules::Parameter;
use crate::side_by_side::in_halves;
use crate::{Anatomy, Setting};
use geometry::{PerFace, Radians, SeatDraw, degrees};
use measurement::targeted::Proposal;
use measurement::{Blocks, DrawsError, Joint, ModelError, Quantity, Weights, normal};
use std::f64::consts::TAU;
use std::ops::Range;
use std::sync::Arc;

/// Random anatomies and seats: every candidate sees the same.
///
/// Kept as columns, one for each quantity, counted through the blocks in their
/// order; an anatomy is laid out of them where one is asked for.
#[derive(Clone, Debug)]
pub struct Draws {
    plan: AnatomyPlan,
    /// What they were drawn of.
    joint: Joint,
    /// The random numbers they were drawn by; `None` where they were aimed.
    blocks: Option<Blocks>,
    /// By the index of its quantity; empty where nothing is drawn. Draws after an edit
    /// share what it has not moved.
    columns: Vec<Arc<Vec<f64>>>,
    /// By the index of its model error; empty where none is drawn.
    errors: [Vec<f64>; ModelError::ALL.len()],
    spread: SeatSpread,
    seats: Arc<Vec<SeatDraw>>,
    per_block: usize,
    weights: Weights,
}

/// How far a seat is from the one that is meant: standard deviations in radians.
#[derive(Clone, Copy, Debug, PartialEq)]
struct SeatSpread {
    tilt: Radians,
    turn: Radians,
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
        Self::after(None, setting, draws, seed)
    }

    /// The same after an edit: what it has not moved is shared with the draws before it.
    pub fn after(
        before: Option<&Self>,
        setting: &Setting,
        draws: usize,
        seed: u64,
    ) -> Result<Self, DrawsError> {
        let blocks = Blocks::new(draws, seed)?;
        let before = before.filter(|before| before.blocks.as_ref() == Some(&blocks));
        let mut drawn = Self::drawn(setting, &blocks, &Proposal::none(), before);
        drawn.blocks = Some(blocks);
        Ok(drawn)
    }

    /// The draws of blocks, aimed; their weights are still all alike.
    pub(crate) fn toward(setting: &Setting, blocks: &Blocks, proposal: &Proposal) -> Self {
        Self::drawn(setting, blocks, proposal, None)
    }

    /// Draws, of which those before, by the same random numbers, have some already.
    fn drawn(
        setting: &Setting,
        blocks: &Blocks,
        proposal: &Proposal,
        before: Option<&Self>,
    ) -> Self {
        let (joint, draws) = (setting.joint(), blocks.draws());
        let spread = SeatSpread {
            tilt: degrees(setting.parameter(Parameter::TiltSd)),
            turn: degrees(setting.parameter(Parameter::TurnSd)),
        };
        let stands = |quantity| before.filter(|it| it.joint.is_alike(joint, quantity));
        let seated = before.filter(|it| it.spread == spread);
        let drawn = in_halves(Blocks::COUNT, |block| Drawn {
            columns: joint.draw_some(blocks, block, proposal, |of| stands(of).is_none()),
            errors: ModelError::ALL
                .map(|error| model_errors(setting, blocks, block, proposal, error)),
            seats: match seated {
                Some(_) => Vec::new(),
                None => seats(spread, blocks, block),
            },
        });
        let mut columns = vec![Vec::new(); Quantity::COUNT];
        let mut errors = std::array::from_fn(|_| Vec::new());
        let mut all_seats = Vec::with_capacity(if seated.is_some() { 0 } else { draws });
        for block in drawn {
            for (quantity, values) in block.columns {
                columns[quantity.index()].extend(values);
            }
            for (all, errors) in errors.iter_mut().zip(block.errors) {
                all.extend(errors);
            }
            all_seats.extend(block.seats);
        }
        let mut columns: Vec<Arc<Vec<f64>>> = columns.into_iter().map(Arc::new).collect();
        for quantity in Quantity::all() {
            if let Some(before) = stands(quantity) {
                let index = quantity.index();
                columns[index] = Arc::clone(&before.columns[index]);
            }
        }
        Self {
            plan: setting.plan().clone(),
            joint: joint.clone(),
            blocks: None,
            columns,
            errors,
            spread,
            seats: seated.map_or_else(|| Arc::new(all_seats), |it| Arc::clone(&it.seats)),
            per_block: blocks.per_block(),
            weights: Weights::uniform(draws),
        }
    }

    /// The random numbers they were drawn by; `None` where they were aimed or are weighed,
    /// so that no other draws are like them.
    pub(crate) fn blocks(&self) -> Option<&Blocks> {
        self.blocks.as_ref().filter(|_| self.weights.is_uniform())
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
fn seats(spread: SeatSpread, blocks: &Blocks, block: usize) -> Vec<SeatDraw> {
    let tilt = |uniform: f64| spread.tilt * normal::quantile(0.5 * (1.0 + uniform));
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
            turn_error: spread.turn * normal::quantile(turn[index]),
        })
        .collect()
}
