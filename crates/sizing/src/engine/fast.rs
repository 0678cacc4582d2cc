//! The fast engine: many draws side by side, many sizes at once.
//!
//! A chance needs no value, only on which side of its limits each value lies. So
//! every measure is *enclosed*: two bounds in `f32`, wide enough for rounding, are
//! computed for [`LANES`](lanes::LANES) draws at a time; where both lie on one
//! side of a limit the draw is settled. The few that are not, because a value lies
//! within a hair of its limit or a bound is not sharp enough, are left to the
//! measure's own `f64`, which is what [`Plain`](super::Plain) uses for all. So the
//! counts are those of the reference, on every machine.
//!
//! What several sizes share is computed once: the draws' columns ([`columns`]),
//! then per 64 draws what depends on a waist, a place or a tilt alone
//! ([`fields`]), then everything that is [asked](ask). All sizes go through 64
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

mod ask;
mod clearance;
mod columns;
mod enclosure;
mod fields;
mod gradient;
mod lanes;
mod layout;
mod lips;
mod plan;
mod shared;
mod simple;
mod stand;
mod tally;
mod tract;
mod worker;

use super::answers::RowAnswer;
use super::{Answers, Counter, Counts, DrawSet, Engine, Question, RowShares};
use crate::side_by_side::{in_halves, on_each};
use crate::{Draws, Work};
use layout::Layout;
use plan::Plan;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use tally::Tally;
use worker::{Answer, Worker};

/// The fast engine.
#[derive(Clone, Copy, Debug, Default)]
pub struct Fast;

impl Engine for Fast {
    fn prepare(&self, draws: Draws) -> Box<dyn Counter> {
        Box::new(Layout::new(draws))
    }
}

impl Counter for Layout {
    fn draws(&self) -> &Draws {
        &self.draws
    }

    fn count(&self, question: &Question) -> Counts {
        self.count_all(std::slice::from_ref(question))
            .swap_remove(0)
    }

    fn count_all(&self, questions: &[Question]) -> Vec<Counts> {
        let alone = Work {
            threads: 1,
            cancel: &AtomicBool::new(false),
        };
        self.count_on(&alone, questions).unwrap_or_default()
    }

    /// Draws are dealt out, not sizes: every thread asks all sizes, so that what
    /// they share is worked out once for each draw.
    fn count_on(&self, work: &Work, questions: &[Question]) -> Option<Vec<Counts>> {
        let mut counts = Vec::with_capacity(questions.len());
        for some in questions.chunks(TOGETHER) {
            counts.extend(self.count_together(work, some, &Again::NOTHING)?.counts());
        }
        Some(counts)
    }

    /// Answers are kept of as many sizes as go through the draws together; of more they
    /// would fill the memory.
    fn count_again(
        &self,
        work: &Work,
        questions: &[Question],
        before: Option<&Answers>,
    ) -> Option<(Vec<Counts>, Option<Answers>)> {
        if questions.len() > TOGETHER || self.draws.blocks().is_none() {
            return Some((self.count_on(work, questions)?, None));
        }
        let again = Again {
            before: before.filter(|answers| answers.are_over(&self.draws)),
            keeps: true,
        };
        let mut tally = self.count_together(work, questions, &again)?;
        let answers = tally.take_answers();
        Some((tally.counts(), answers))
    }
}

/// What is known from counting before, and whether it is to be known after.
struct Again<'a> {
    before: Option<&'a Answers>,
    keeps: bool,
}

impl Again<'_> {
    const NOTHING: Self = Self {
        before: None,
        keeps: false,
    };
}

/// Sizes that go through the draws together: enough to share, few enough for what
/// they share to stay in the near caches.
const TOGETHER: usize = 512;

impl Layout {
    fn count_together(
        &self,
        work: &Work,
        questions: &[Question],
        again: &Again,
    ) -> Option<Tally<'_>> {
        let plan = Arc::new(Plan::new(questions, again.before));
        let next = AtomicUsize::new(0);
        let tallies = on_each(work, || {
            let mut tally = Tally::new(&plan, &self.draws, again.keeps);
            let known = again.before.map_or(&[][..], Answers::each);
            let mut worker = Worker::new(&plan, (questions, known), self);
            let mut answers = vec![Answer::default(); plan.jobs.len()];
            while let Some((block, group)) = self.group(next.fetch_add(1, Ordering::Relaxed)) {
                let columns = group.columns();
                if work.is_cancelled() {
                    return None;
                }
                worker.answer(columns, &mut answers);
                tally.add(block, columns, &answers);
            }
            Some(tally)
        })?;
        tallies.into_iter().reduce(Tally::merged)
    }
}
