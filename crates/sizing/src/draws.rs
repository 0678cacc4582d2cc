use crate::anatomy::AnatomyPlan;
use crate::engine::{Columns, LANES};
use crate::house_rules::Parameter;
use crate::{Anatomy, Setting};
use geometry::{SeatDraw, degrees};
use measurement::{Blocks, DrawsError, Quantity, Values, Weights, normal};
use std::f64::consts::TAU;
use std::ops::Range;
use std::sync::OnceLock;

/// Random anatomies and seats: every candidate sees the same.
///
/// Kept as columns, one for each quantity, counted through the blocks in their
/// order; an anatomy is laid out of them where one is asked for.
#[derive(Debug)]
pub struct Draws {
    plan: AnatomyPlan,
    /// By the place of its quantity; empty where nothing is drawn.
    columns: Vec<Vec<f64>>,
    seats: Vec<SeatDraw>,
    per_block: usize,
    /// In steps of [`LANES`], the last of a block shorter.
    lanes: Vec<Columns>,
    weights: Weights,
    /// Each anatomy that was asked for alone.
    laid_out: Vec<OnceLock<Box<Anatomy>>>,
    /// All of them, where a reference asked for all.
    anatomies: OnceLock<Vec<Anatomy>>,
}

/// One block of draws, scrambled on its own.
#[derive(Clone, Copy, Debug)]
pub struct Block<'a> {
    /// The anatomies.
    pub anatomies: &'a [Anatomy],
    /// The random part of a seat in each.
    pub seats: &'a [SeatDraw],
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
    seats: Vec<SeatDraw>,
    lanes: Vec<Columns>,
}

impl Drawn {
    fn new(setting: &Setting, blocks: &Blocks, block: usize) -> Self {
        let columns = setting.joint().draw(blocks, block);
        let seats = seats(setting, blocks, block);
        let anatomy = |index: usize| {
            let mut values = Values::new();
            for (quantity, column) in &columns {
                values.set(*quantity, column[index]);
            }
            setting.plan().anatomy(&values)
        };
        let draws = blocks.per_block();
        let lanes = (0..draws)
            .step_by(LANES)
            .map(|first| {
                let some = first..draws.min(first + LANES);
                let anatomies: Vec<Anatomy> = some.clone().map(anatomy).collect();
                Columns::new(setting, block * draws + first, &anatomies, &seats[some])
            })
            .collect();
        Self {
            columns,
            seats,
            lanes,
        }
    }
}

impl Draws {
    /// A number of draws of a setting, from a seed.
    pub fn new(setting: &Setting, draws: usize, seed: u64) -> Result<Self, DrawsError> {
        let blocks = Blocks::new(draws, seed)?;
        let of_block = |block| Drawn::new(setting, &blocks, block);
        // Two halves side by side: preparing costs as much as some dozen sizes.
        let half = Blocks::COUNT / 2;
        let mut drawn: Vec<Drawn> = Vec::with_capacity(Blocks::COUNT);
        std::thread::scope(|scope| {
            let later = scope.spawn(|| (half..Blocks::COUNT).map(of_block).collect::<Vec<_>>());
            drawn.extend((0..half).map(of_block));
            match later.join() {
                Ok(blocks) => drawn.extend(blocks),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        });
        let mut all = Self {
            plan: setting.plan().clone(),
            columns: vec![Vec::new(); Quantity::COUNT],
            seats: Vec::with_capacity(draws),
            per_block: blocks.per_block(),
            lanes: Vec::new(),
            weights: Weights::uniform(draws),
            laid_out: std::iter::repeat_with(OnceLock::new).take(draws).collect(),
            anatomies: OnceLock::new(),
        };
        for block in drawn {
            for (quantity, values) in block.columns {
                all.columns[quantity.index()].extend(values);
            }
            all.seats.extend(block.seats);
            all.lanes.extend(block.lanes);
        }
        Ok(all)
    }

    /// A set of draws side by side with its block, by its index; `None` beyond the
    /// last.
    pub(crate) fn columns(&self, index: usize) -> Option<(usize, &Columns)> {
        let per_block = self.per_block.div_ceil(LANES);
        self.lanes
            .get(index)
            .map(|columns| (index / per_block, columns))
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

    /// The anatomy of a draw, laid out once.
    ///
    /// # Panics
    ///
    /// Beyond the last draw, as a slice does.
    pub fn anatomy(&self, draw: usize) -> &Anatomy {
        self.laid_out[draw].get_or_init(|| Box::new(self.lay_out(draw)))
    }

    fn lay_out(&self, draw: usize) -> Anatomy {
        let mut values = Values::new();
        for quantity in Quantity::all() {
            if let Some(column) = self.column(quantity) {
                values.set(quantity, column[draw]);
            }
        }
        self.plan.anatomy(&values)
    }

    /// The random part of the seat in a draw.
    ///
    /// # Panics
    ///
    /// Beyond the last draw, as a slice does.
    pub fn seat(&self, draw: usize) -> &SeatDraw {
        &self.seats[draw]
    }

    /// The blocks, with every anatomy laid out: for a reference that goes through
    /// them again and again.
    pub fn blocks(&self) -> impl Iterator<Item = Block<'_>> {
        let anatomies = self
            .anatomies
            .get_or_init(|| (0..self.len()).map(|draw| self.lay_out(draw)).collect());
        self.block_ranges().map(|range| Block {
            anatomies: &anatomies[range.clone()],
            seats: &self.seats[range],
        })
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
            tilt_angle: [tilt(left_tilt[index]), tilt(right_tilt[index])],
            tilt_direction: [TAU * left_direction[index], TAU * right_direction[index]],
            turn_error: turn_sd * normal::quantile(turn[index]),
        })
        .collect()
}
