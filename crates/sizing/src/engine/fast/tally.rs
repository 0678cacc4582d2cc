use super::columns::Columns;
use super::lanes::{LANES, Mask, first};
use super::plan::Plan;
use super::worker::Answer;
use super::{Answers, Counts, DrawSet, RowAnswer, RowShares};
use crate::Draws;
use measurement::{BlockShares, Blocks};
use multiversion::multiversion;
use std::sync::Arc;

/// In what weight of the draws the limits of every job, and all limits of every
/// size, hold, by block.
///
/// All are whole numbers, so that parts counted anywhere add up alike.
pub(super) struct Tally<'a> {
    plan: Arc<Plan>,
    draws: &'a Draws,
    blocks: [BlockTally; Blocks::COUNT],
    /// For each size the draws in which no stop is broken.
    holds: Vec<DrawSet>,
    /// For each job the draws in which its limits hold, where they are to be kept.
    answers: Option<Vec<RowAnswer>>,
}

/// One block's part of a [`Tally`].
#[derive(Clone)]
struct BlockTally {
    jobs: Vec<Held>,
    sizes: Vec<Held>,
    all: u64,
}

/// Weight in which a stop, and a caution, holds.
#[derive(Clone, Copy, Default)]
struct Held {
    stop: u64,
    caution: u64,
}

impl<'a> Tally<'a> {
    /// Nothing counted yet; whether answers are kept draw by draw.
    pub(super) fn new(plan: &Arc<Plan>, draws: &'a Draws, keeps: bool) -> Self {
        let sizes = plan.rows.len();
        let block = BlockTally {
            jobs: vec![Held::default(); plan.jobs.len()],
            sizes: vec![Held::default(); sizes],
            all: 0,
        };
        let none = || DrawSet::none(draws.len());
        let nobody = || RowAnswer {
            stop: none(),
            caution: none(),
        };
        let answers = || plan.jobs.iter().map(|_| nobody()).collect();
        Self {
            plan: Arc::clone(plan),
            answers: keeps.then(answers),
            draws,
            blocks: std::array::from_fn(|_| block.clone()),
            holds: vec![DrawSet::none(draws.len()); sizes],
        }
    }

    /// Adds the answers of every job in some draws of a block.
    pub(super) fn add(&mut self, block: usize, columns: &Columns, answers: &[Answer]) {
        let lanes = first(columns.lanes);
        let block = &mut self.blocks[block];
        let whole = |rows: &Vec<Option<usize>>| {
            let jobs = rows.iter().flatten();
            let both = jobs.fold(Answer::HOLDS, |both, &job| both.and(answers[job]));
            Answer {
                stop: both.stop,
                caution: both.stop & both.caution,
            }
        };
        let of_sizes: Vec<Answer> = self.plan.rows.iter().map(whole).collect();
        for (holds, both) in self.holds.iter_mut().zip(&of_sizes) {
            holds.insert_all(columns.first, both.stop & lanes);
        }
        for (kept, answer) in self.answers.iter_mut().flatten().zip(answers) {
            kept.stop.insert_all(columns.first, answer.stop & lanes);
            kept.caution
                .insert_all(columns.first, answer.caution & lanes);
        }
        if self.draws.weights().is_uniform() {
            block.all += u64::from(lanes.count_ones());
            count(lanes, answers, &mut block.jobs);
            count(lanes, &of_sizes, &mut block.sizes);
        } else {
            let mut weights = [0; LANES];
            for (lane, weight) in weights.iter_mut().enumerate().take(columns.lanes) {
                *weight = self.draws.weights().whole(columns.first + lane);
            }
            block.all += weights.iter().sum::<u64>();
            weigh(&weights, answers, &mut block.jobs);
            weigh(&weights, &of_sizes, &mut block.sizes);
        }
    }

    /// Both parts together.
    pub(super) fn merged(mut self, other: Self) -> Self {
        for (mine, others) in self.blocks.iter_mut().zip(other.blocks) {
            mine.all += others.all;
            add_all(&mut mine.jobs, &others.jobs);
            add_all(&mut mine.sizes, &others.sizes);
        }
        for (mine, others) in self.holds.iter_mut().zip(&other.holds) {
            mine.insert_set(others);
        }
        let kept = self.answers.iter_mut().flatten();
        for (mine, others) in kept.zip(other.answers.iter().flatten()) {
            mine.stop.insert_set(&others.stop);
            mine.caution.insert_set(&others.caution);
        }
        self
    }

    /// The answers that were kept.
    pub(super) fn take_answers(&mut self) -> Option<Answers> {
        Answers::over(self.draws, self.answers.take()?, self.plan.rows.clone())
    }

    /// The counts of every size.
    pub(super) fn counts(self) -> Vec<Counts> {
        let all = self.blocks.each_ref().map(|block| block.all as f64);
        let shares = |of: &dyn Fn(&BlockTally) -> Held| {
            let held = self.blocks.each_ref().map(of);
            RowShares {
                stop: BlockShares::from_weights(held.map(|held| held.stop as f64), all),
                caution: BlockShares::from_weights(held.map(|held| held.caution as f64), all),
            }
        };
        let counts = self.holds.into_iter().enumerate().map(|(size, holds)| {
            let whole = shares(&|block| block.sizes[size]);
            let rows = self.plan.rows[size].iter();
            Counts {
                rows: rows
                    .map(|job| job.map(|job| shares(&|block| block.jobs[job])))
                    .collect(),
                no_stop: whole.stop,
                no_caution: whole.caution,
                holds,
            }
        });
        counts.collect()
    }
}

fn add_all(mine: &mut [Held], others: &[Held]) {
    for (mine, others) in mine.iter_mut().zip(others) {
        mine.stop += others.stop;
        mine.caution += others.caution;
    }
}

/// Counts draws of weight 1.
#[multiversion(targets("x86_64+avx2+popcnt", "x86_64+avx+popcnt", "x86_64+popcnt"))]
fn count(lanes: Mask, answers: &[Answer], held: &mut [Held]) {
    for (held, answer) in held.iter_mut().zip(answers) {
        held.stop += u64::from((answer.stop & lanes).count_ones());
        held.caution += u64::from((answer.caution & lanes).count_ones());
    }
}

/// Adds the weights of draws; 0 for a lane that is none.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn weigh(weights: &[u64; LANES], answers: &[Answer], held: &mut [Held]) {
    let weight = |mask: Mask| -> u64 {
        let lanes = weights.iter().enumerate();
        // All bits of a weight, or none.
        lanes
            .map(|(lane, weight)| weight & (mask >> lane & 1).wrapping_neg())
            .sum()
    };
    for (held, answer) in held.iter_mut().zip(answers) {
        held.stop += weight(answer.stop);
        held.caution += weight(answer.caution);
    }
}
