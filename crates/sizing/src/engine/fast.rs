//! The fast engine: many draws side by side, many sizes at once.
//!
//! A chance needs no value, only on which side of its limits each value lies. So
//! every measure is *enclosed*: two bounds in `f32`, wide enough for rounding, are
//! computed for [`LANES`](lanes::LANES) draws at a time; where both lie on one
//! side of a limit the draw is settled. The few that are not, because a value lies
//! within a hair of its limit or a bound is not sharp enough, are left to the
//! check's own `f64`, which is what [`Plain`](super::Plain) uses for all. So the
//! counts are those of the reference, on every machine.
//!
//! What several sizes share is computed once: the draws' columns ([`columns`]),
//! then per 64 draws what depends on a waist, a place or a tilt alone
//! ([`fields`]), then every distinct question ([`plan`]). All sizes go through 64
//! draws before the next are looked at, so that the columns stay in the nearest
//! cache.

#![expect(
    clippy::cast_possible_truncation,
    reason = "bounds are kept in f32 on purpose; every one is widened for it"
)]
#![expect(
    clippy::needless_range_loop,
    reason = "loops over lanes index many arrays alike, which is what becomes vector code"
)]
#![expect(
    clippy::inline_always,
    reason = "a call inside a loop over lanes would keep it from becoming vector code"
)]

mod clearance;
mod columns;
mod enclosure;
mod fields;
mod lanes;
mod lips;
mod plan;
mod simple;
mod tract;
mod work;

pub(crate) use columns::Columns;
pub(crate) use lanes::LANES;

use super::{Counts, DrawSet, Engine, Question, RowShares};
use crate::Draws;
use lanes::{Mask, each, first};
use measurement::{BlockShares, Blocks};
use plan::Plan;
use work::{Answer, Work};

/// The fast engine.
#[derive(Clone, Copy, Debug, Default)]
pub struct Fast;

impl Engine for Fast {
    fn count(&self, question: &Question, draws: &Draws) -> Counts {
        self.count_all(std::slice::from_ref(question), draws)
            .swap_remove(0)
    }

    fn count_all(&self, questions: &[Question], draws: &Draws) -> Vec<Counts> {
        let mut counts = Vec::with_capacity(questions.len());
        for some in questions.chunks(TOGETHER) {
            counts.extend(count_together(some, draws));
        }
        counts
    }
}

/// Sizes that go through the draws together: enough to share, few enough for what
/// they share to stay in the near caches.
const TOGETHER: usize = 64;

/// Weight in which something holds, by block.
type Held = [f64; Blocks::COUNT];

/// Where the two limits of one job, or all limits of one size, hold.
#[derive(Clone, Default)]
struct Tally {
    stop: Held,
    caution: Held,
}

fn count_together(questions: &[Question], draws: &Draws) -> Vec<Counts> {
    let plan = Plan::new(questions);
    let mut of_jobs = vec![Tally::default(); plan.jobs.len()];
    let mut of_sizes = vec![Tally::default(); questions.len()];
    let mut holds = vec![DrawSet::none(draws.len()); questions.len()];
    let mut all = Held::default();
    let mut answers = vec![Answer::default(); plan.jobs.len()];
    for (block, columns) in draws.columns() {
        Work::new(&plan, questions, draws, columns).answer(&mut answers);
        let lanes = first(columns.lanes);
        let weigh = |mask: Mask| weight(draws, columns.first, mask & lanes);
        all[block] += weigh(lanes);
        for (tally, answer) in of_jobs.iter_mut().zip(&answers) {
            tally.stop[block] += weigh(answer.stop);
            tally.caution[block] += weigh(answer.caution);
        }
        for (size, rows) in plan.rows.iter().enumerate() {
            let both = rows
                .iter()
                .flatten()
                .fold(Answer::HOLDS, |both, &job| both.and(answers[job]));
            of_sizes[size].stop[block] += weigh(both.stop);
            of_sizes[size].caution[block] += weigh(both.stop & both.caution);
            holds[size].insert_all(columns.first, both.stop & lanes);
        }
    }
    let shares = |held| BlockShares::from_weights(held, all);
    let sizes = plan.rows.iter().zip(of_sizes).zip(holds);
    sizes
        .map(|((rows, of_size), holds)| Counts {
            rows: rows
                .iter()
                .map(|job| {
                    job.map(|job| RowShares {
                        stop: shares(of_jobs[job].stop),
                        caution: shares(of_jobs[job].caution),
                    })
                })
                .collect(),
            no_stop: shares(of_size.stop),
            no_caution: shares(of_size.caution),
            holds,
        })
        .collect()
}

/// The weight of the draws of a mask.
///
/// Whole numbers add up exactly in any order; other weights draw by draw, as the
/// reference adds them.
fn weight(draws: &Draws, first: usize, mask: Mask) -> f64 {
    if draws.weights().is_uniform() {
        return f64::from(mask.count_ones());
    }
    each(mask)
        .map(|lane| draws.weights().of(first + lane))
        .sum()
}
