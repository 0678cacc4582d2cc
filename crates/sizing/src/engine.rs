//! Counting, over all draws, how often the limits of a size hold.

mod answers;
mod draw_set;
mod fast;
mod plain;
mod set_weights;

pub use answers::Answers;
pub use draw_set::DrawSet;
pub use fast::Fast;
pub use plain::Plain;
pub use set_weights::SetWeights;

use crate::side_by_side::side_by_side;
use crate::{Anatomy, Draws, Row, Setting, Size, Work};
use geometry::{Radians, Seat, SeatDraw};
use measurement::BlockShares;
use std::fmt;

/// One size, set down at one turn, with the rows it is held against.
#[derive(Clone, Copy)]
pub struct Question<'a> {
    /// The case and the rules.
    pub setting: &'a Setting,
    /// The size.
    pub size: &'a Size,
    /// The turn τ at which it is meant to be set down.
    pub turn: Radians,
    /// The rows, assessed or not.
    pub rows: &'a [Row],
}

impl Question<'_> {
    /// The seat that the size takes in a draw.
    fn seat(&self, anatomy: &Anatomy, draw: &SeatDraw) -> Seat {
        let (occluder, most_left) = (&self.size.occluder, anatomy.left_slack_share);
        Seat::drawn(occluder, &anatomy.defect, most_left, self.turn, draw)
    }
}

/// Shares of the draws, by block, in which limits hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Counts {
    /// For each row: in which its stop and its caution hold; `None` where it is
    /// not assessed.
    pub rows: Vec<Option<RowShares>>,
    /// In which no stop is broken.
    pub no_stop: BlockShares,
    /// In which neither a stop nor a caution is broken.
    pub no_caution: BlockShares,
    /// The draws in which no stop is broken, for what is asked of pairs of sizes.
    pub holds: DrawSet,
}

/// Shares of the draws in which the limits of one row hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RowShares {
    /// In which its stop holds.
    pub stop: BlockShares,
    /// In which its caution holds.
    pub caution: BlockShares,
}

/// A way of counting. All give the same counts; [`Plain`] is the reference.
pub trait Engine: Sync {
    /// Lays draws out in the way it counts them, once for all that is asked of them.
    fn prepare(&self, draws: Draws) -> Box<dyn Counter>;
}

/// Draws as an engine has laid them out.
pub trait Counter: fmt::Debug + Send + Sync {
    /// The draws.
    fn draws(&self) -> &Draws;

    /// Counts over all draws for one size.
    fn count(&self, question: &Question) -> Counts;

    /// Counts for several sizes of one setting, in their order: an engine may
    /// share work between them.
    fn count_all(&self, questions: &[Question]) -> Vec<Counts> {
        let each = questions.iter();
        each.map(|question| self.count(question)).collect()
    }

    /// The same on several threads; `None` where it was cancelled.
    fn count_on(&self, work: &Work, questions: &[Question]) -> Option<Vec<Counts>> {
        let together: Vec<&[Question]> = questions.chunks(TOGETHER).collect();
        let counts = side_by_side(&together, work, |some| self.count_all(some))?;
        Some(counts.into_iter().flatten().collect())
    }

    /// The same after an edit, with the answers for the next: rows of which `before` has
    /// the answer are not asked, where its draws are of the same random numbers. An engine
    /// that keeps no answers asks all, and gives none.
    fn count_again(
        &self,
        work: &Work,
        questions: &[Question],
        before: Option<&Answers>,
    ) -> Option<(Vec<Counts>, Option<Answers>)> {
        let _ = before;
        Some((self.count_on(work, questions)?, None))
    }
}

/// Sizes that an engine is given together where nothing better is known: enough to
/// share work between, few enough for a cancel to wait for.
const TOGETHER: usize = 40;
