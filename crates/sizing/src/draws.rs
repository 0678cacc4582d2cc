use crate::house_rules::Parameter;
use crate::{Anatomy, Setting};
use geometry::{SeatDraw, degrees};
use measurement::{Blocks, DrawsError, Weights, normal};
use std::f64::consts::TAU;

/// Random anatomies and seats: every candidate sees the same.
#[derive(Debug)]
pub struct Draws {
    blocks: Vec<Block>,
    weights: Weights,
}

/// One block of draws, scrambled on its own.
#[derive(Debug)]
pub struct Block {
    /// The anatomies.
    pub anatomies: Vec<Anatomy>,
    /// The random part of a seat in each.
    pub seats: Vec<SeatDraw>,
}

/// Sobol dimensions of the seat's random numbers: fixed for good.
mod dimension {
    pub(super) const PLAY_RADIUS: u32 = 128;
    pub(super) const PLAY_ANGLE: u32 = 129;
    pub(super) const SPLIT: u32 = 130;
    pub(super) const TILT_ANGLE: [u32; 2] = [131, 133];
    pub(super) const TILT_DIRECTION: [u32; 2] = [132, 134];
    pub(super) const TURN: u32 = 135;
}

impl Draws {
    /// A number of draws of a setting, from a seed.
    pub fn new(setting: &Setting, draws: usize, seed: u64) -> Result<Self, DrawsError> {
        let blocks = Blocks::new(draws, seed)?;
        let of_block = |block| {
            let indices = 0..blocks.per_block();
            Block {
                anatomies: indices
                    .clone()
                    .map(|index| {
                        setting
                            .plan()
                            .anatomy(&setting.joint().draw(&blocks, block, index))
                    })
                    .collect(),
                seats: indices
                    .map(|index| seat(setting, &blocks, block, index))
                    .collect(),
            }
        };
        // Two halves side by side: preparing costs as much as some dozen sizes.
        let half = Blocks::COUNT / 2;
        let mut prepared: Vec<Block> = Vec::with_capacity(Blocks::COUNT);
        std::thread::scope(|scope| {
            let later = scope.spawn(|| (half..Blocks::COUNT).map(of_block).collect::<Vec<Block>>());
            prepared.extend((0..half).map(of_block));
            match later.join() {
                Ok(blocks) => prepared.extend(blocks),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        });
        Ok(Self {
            blocks: prepared,
            weights: Weights::uniform(draws),
        })
    }

    /// The blocks.
    pub fn blocks(&self) -> &[Block] {
        &self.blocks
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

/// The random part of a seat: uniform in the play, the slack and the direction
/// of the tilt; half-normal in its angle; normal in the turn.
fn seat(setting: &Setting, blocks: &Blocks, block: usize, index: usize) -> SeatDraw {
    let uniform = |dimension| blocks.uniform(block, index, dimension);
    let tilt_sd = degrees(setting.parameter(Parameter::TiltSd));
    let turn_sd = degrees(setting.parameter(Parameter::TurnSd));
    let half_normal = |dimension| normal::quantile(0.5 * (1.0 + uniform(dimension)));
    SeatDraw {
        play_radius: uniform(dimension::PLAY_RADIUS),
        play_angle: uniform(dimension::PLAY_ANGLE),
        split: uniform(dimension::SPLIT),
        tilt_angle: dimension::TILT_ANGLE.map(|of| tilt_sd * half_normal(of)),
        tilt_direction: dimension::TILT_DIRECTION.map(|of| TAU * uniform(of)),
        turn_error: turn_sd * blocks.normal(block, index, dimension::TURN),
    }
}
