use crate::anatomy::AnatomyPlan;
use crate::house_rules::Parameter;
use crate::side_by_side::in_halves;
use crate::{Anatomy, Setting};
use geometry::{PerFace, Radians, SeatDraw, degrees};
use measurement::targeted::Proposal;
use measurement::{Blocks, DrawsError, Joint, ModelError, Quantity, Weights, normal};
use std::borrow::Cow;
use std::f64::consts::TAU;
use std::ops::Range;
use std::sync::Arc;

/// Random anatomies and seats: every candidate sees the same.
///
/// Kept as columns, one for each quantity, counted through the blocks in their
/// order; an anatomy is laid out of them where one is asked for. Very many are not kept:
/// each piece is drawn when it is asked for, and let go.
#[derive(Clone, Debug)]
pub struct Draws {
    plan: AnatomyPlan,
    /// What they are drawn of.
    joint: Joint,
    error_sds: [f64; ModelError::ALL.len()],
    spread: SeatSpread,
    /// The random numbers they are drawn by.
    blocks: Blocks,
    /// Whether those were aimed: then all are kept.
    is_aimed: bool,
    /// All of them; `None` where they are too many.
    kept: Option<PointDraws>,
    weights: Weights,
}

/// So many draws are kept; of more each piece is drawn anew, or they would fill the memory.
const MOST_KEPT: usize = 1 << 15;

/// Draws that follow each other, with what they have in columns.
#[derive(Clone, Debug)]
pub(crate) struct Piece<'a> {
    draws: &'a Draws,
    drawn: Cow<'a, PointDraws>,
    /// The draw with which the columns begin.
    first: usize,
}

/// What was drawn at some points.
#[derive(Clone, Debug)]
struct PointDraws {
    /// By the index of its quantity; empty where nothing is drawn. Draws after an edit
    /// share what it has not moved.
    columns: Vec<Arc<Vec<f64>>>,
    /// By the index of its model error; empty where none is drawn.
    errors: [Vec<f64>; ModelError::ALL.len()],
    seats: Arc<Vec<SeatDraw>>,
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

/// Some points of one block as they are drawn.
struct Part {
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
        let before = before.filter(|before| before.blocks == blocks && !before.is_aimed);
        let mut all = Self::of(setting, blocks);
        if draws <= MOST_KEPT {
            all.kept = Some(all.drawn(&Proposal::none(), before));
        }
        Ok(all)
    }

    /// The draws of blocks, aimed; their weights are still all alike.
    pub(crate) fn toward(setting: &Setting, blocks: &Blocks, proposal: &Proposal) -> Self {
        let mut all = Self::of(setting, blocks.clone());
        all.is_aimed = true;
        all.kept = Some(all.drawn(proposal, None));
        all
    }

    /// Nothing drawn yet.
    fn of(setting: &Setting, blocks: Blocks) -> Self {
        Self {
            plan: setting.plan().clone(),
            joint: setting.joint().clone(),
            error_sds: ModelError::ALL.map(|error| setting.rules().model_error_sd(error)),
            spread: SeatSpread {
                tilt: degrees(setting.parameter(Parameter::TiltSd)),
                turn: degrees(setting.parameter(Parameter::TurnSd)),
            },
            weights: Weights::uniform(blocks.draws()),
            blocks,
            is_aimed: false,
            kept: None,
        }
    }

    /// All of them, as far as others of the same random numbers have them not already.
    fn drawn(&self, proposal: &Proposal, before: Option<&Self>) -> PointDraws {
        let standing = |quantity: Quantity| {
            let before = before.filter(|it| it.joint.is_alike(&self.joint, quantity))?;
            Some(&before.kept.as_ref()?.columns[quantity.index()])
        };
        let seated = before.filter(|it| it.spread == self.spread);
        let seated = seated.and_then(|it| it.kept.as_ref());
        let per_block = self.blocks.per_block();
        let parts = in_halves(Blocks::COUNT, |block| Part {
            columns: self
                .joint
                .draw_some(&self.blocks, block, proposal, |of| standing(of).is_none()),
            errors: ModelError::ALL.map(|error| self.errors_toward(block, proposal, error)),
            seats: match seated {
                Some(_) => Vec::new(),
                None => self.seats_of(block, 0..per_block),
            },
        });
        let mut all = PointDraws::together(parts);
        for quantity in Quantity::all() {
            if let Some(column) = standing(quantity) {
                all.columns[quantity.index()] = Arc::clone(column);
            }
        }
        if let Some(seated) = seated {
            all.seats = Arc::clone(&seated.seats);
        }
        all
    }

    /// Some draws of one block.
    pub(crate) fn piece(&self, some: Range<usize>) -> Piece<'_> {
        if let Some(kept) = &self.kept {
            return Piece {
                draws: self,
                drawn: Cow::Borrowed(kept),
                first: 0,
            };
        }
        let per_block = self.blocks.per_block();
        let (block, first) = (some.start / per_block, some.start % per_block);
        let points = first..first + some.len();
        let part = Part {
            columns: self
                .joint
                .draw_points(&self.blocks, block, points.clone(), |_| true),
            errors: ModelError::ALL.map(|error| self.errors_at(block, points.clone(), error)),
            seats: self.seats_of(block, points),
        };
        Piece {
            draws: self,
            drawn: Cow::Owned(PointDraws::together(vec![part])),
            first: some.start,
        }
    }

    /// The random numbers they are drawn by; `None` where they were aimed or are weighed,
    /// so that no other draws are like them.
    pub(crate) fn blocks(&self) -> Option<&Blocks> {
        let is_plain = !self.is_aimed && self.weights.is_uniform();
        is_plain.then_some(&self.blocks)
    }

    /// Whether all of them are kept.
    pub(crate) const fn is_kept(&self) -> bool {
        self.kept.is_some()
    }

    /// The same draws with other weights; `None` where there are not as many.
    #[must_use]
    pub fn weighted(self, weights: Weights) -> Option<Self> {
        (weights.draws() == self.len()).then_some(Self { weights, ..self })
    }

    /// The same draws, all alike in weight.
    #[must_use]
    pub(crate) fn unweighed(self) -> Self {
        let weights = Weights::uniform(self.len());
        Self { weights, ..self }
    }

    /// The drawn values of a quantity, in the order of the draws; `None` where it
    /// has none of its own.
    pub fn column(&self, quantity: Quantity) -> Option<Cow<'_, [f64]>> {
        if let Some(kept) = &self.kept {
            return kept.column(quantity).map(Cow::Borrowed);
        }
        let mut column = Vec::with_capacity(self.len());
        let none = Proposal::none();
        for block in 0..Blocks::COUNT {
            let drawn = self
                .joint
                .draw_some(&self.blocks, block, &none, |of| of == quantity);
            column.extend(drawn.into_iter().flat_map(|(_, values)| values));
        }
        (!column.is_empty()).then_some(Cow::Owned(column))
    }

    /// The drawn values of a model error, in the order of the draws; `None` where the
    /// house has the model right.
    pub fn errors(&self, error: ModelError) -> Option<Cow<'_, [f64]>> {
        if let Some(kept) = &self.kept {
            return kept.errors(error).map(Cow::Borrowed);
        }
        let per_block = self.blocks.per_block();
        let blocks = 0..Blocks::COUNT;
        let column: Vec<f64> = blocks
            .flat_map(|block| self.errors_at(block, 0..per_block, error))
            .collect();
        (!column.is_empty()).then_some(Cow::Owned(column))
    }

    /// The anatomy of a draw, laid out.
    ///
    /// # Panics
    ///
    /// Beyond the last draw, as a slice does.
    pub fn anatomy(&self, draw: usize) -> Anatomy {
        self.piece(draw..draw + 1).anatomy(draw)
    }

    /// The random part of the seat in a draw.
    ///
    /// # Panics
    ///
    /// Beyond the last draw, as a slice does.
    pub fn seat(&self, draw: usize) -> SeatDraw {
        self.piece(draw..draw + 1).seat(draw)
    }

    /// The draws of each block.
    pub fn block_ranges(&self) -> impl Iterator<Item = Range<usize>> + use<> {
        let per_block = self.blocks.per_block();
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

    /// A model error in one block, aimed: normal about 0; empty where its standard
    /// deviation is 0.
    fn errors_toward(&self, block: usize, proposal: &Proposal, error: ModelError) -> Vec<f64> {
        let sd = self.error_sds[error.index()];
        if sd <= 0.0 {
            return Vec::new();
        }
        let deviates = proposal.deviates(&self.blocks, block, error.dimension());
        deviates.into_iter().map(|z| sd * z).collect()
    }

    /// The same at some points of a block, not aimed.
    fn errors_at(&self, block: usize, points: Range<usize>, error: ModelError) -> Vec<f64> {
        let sd = self.error_sds[error.index()];
        if sd <= 0.0 {
            return Vec::new();
        }
        let dimension = error.dimension();
        points
            .map(|point| sd * self.blocks.normal(block, point, dimension))
            .collect()
    }

    /// The random part of the seats at some points of a block: uniform in the play, the
    /// slack and the direction of the tilt; half-normal in its angle; normal in the turn.
    fn seats_of(&self, block: usize, points: Range<usize>) -> Vec<SeatDraw> {
        let SeatSpread { tilt, turn } = self.spread;
        let tilt = |uniform: f64| tilt * normal::quantile(0.5 * (1.0 + uniform));
        let [first, second] =
            SEAT_SETS.map(|set| self.blocks.some_uniforms(block, set, points.clone()));
        let [play_radius, play_angle, split, left_tilt] = first;
        let [left_direction, right_tilt, right_direction, turned] = second;
        (0..points.len())
            .map(|index| SeatDraw {
                play_radius: play_radius[index],
                play_angle: play_angle[index],
                split: split[index],
                tilt_angle: PerFace::new(tilt(left_tilt[index]), tilt(right_tilt[index])),
                tilt_direction: PerFace::new(
                    TAU * left_direction[index],
                    TAU * right_direction[index],
                ),
                rotation_error: turn * normal::quantile(turned[index]),
            })
            .collect()
    }
}

impl Piece<'_> {
    /// The anatomy of a draw, laid out.
    pub(crate) fn anatomy(&self, draw: usize) -> Anatomy {
        let index = draw - self.first;
        let value = |quantity| Some(self.drawn.column(quantity)?[index]);
        let mut anatomy = self.draws.plan.anatomy_of(value);
        for error in ModelError::ALL {
            if let Some(column) = self.drawn.errors(error) {
                anatomy.errors.set(error, column[index]);
            }
        }
        anatomy
    }

    /// The random part of the seat in a draw.
    pub(crate) fn seat(&self, draw: usize) -> SeatDraw {
        self.drawn.seats[draw - self.first]
    }
}

impl PointDraws {
    /// Parts in their order as one.
    fn together(parts: Vec<Part>) -> Self {
        let mut columns = vec![Vec::new(); Quantity::COUNT];
        let mut errors = std::array::from_fn(|_| Vec::new());
        let mut seats = Vec::new();
        for part in parts {
            for (quantity, values) in part.columns {
                columns[quantity.index()].extend(values);
            }
            for (all, errors) in errors.iter_mut().zip(part.errors) {
                all.extend(errors);
            }
            seats.extend(part.seats);
        }
        Self {
            columns: columns.into_iter().map(Arc::new).collect(),
            errors,
            seats: Arc::new(seats),
        }
    }

    fn column(&self, quantity: Quantity) -> Option<&[f64]> {
        let column = self.columns[quantity.index()].as_slice();
        (!column.is_empty()).then_some(column)
    }

    fn errors(&self, error: ModelError) -> Option<&[f64]> {
        let column = self.errors[error.index()].as_slice();
        (!column.is_empty()).then_some(column)
    }
}
