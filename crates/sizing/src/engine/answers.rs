use super::DrawSet;
use crate::Draws;
use measurement::Blocks;
use std::sync::Arc;

/// What an engine answered for the rows of some sizes, draw by draw: what an edit does
/// not reach need not be asked again.
#[derive(Clone, Debug)]
pub struct Answers {
    /// The blocks of the draws, none of them aimed and all of one weight.
    blocks: Blocks,
    /// Each answer once, though many rows have it.
    each: Arc<Vec<RowAnswer>>,
    /// For each size, for each of its rows, the index of its answer; `None` where it has
    /// none.
    rows: Vec<Vec<Option<usize>>>,
}

/// The draws in which the limits of a row hold.
#[derive(Clone, Debug)]
pub(crate) struct RowAnswer {
    /// In which its stop holds.
    pub(crate) stop: DrawSet,
    /// In which its caution holds.
    pub(crate) caution: DrawSet,
}

impl Answers {
    /// Answers over some draws; `None` over draws that are aimed or weighed, which no
    /// other draws share.
    pub(super) fn over(
        draws: &Draws,
        each: Vec<RowAnswer>,
        rows: Vec<Vec<Option<usize>>>,
    ) -> Option<Self> {
        let blocks = draws.blocks()?.clone();
        Some(Self {
            blocks,
            each: Arc::new(each),
            rows,
        })
    }

    /// Whether they are over draws of the same random numbers as some others.
    pub(super) fn are_over(&self, draws: &Draws) -> bool {
        draws.blocks() == Some(&self.blocks)
    }

    /// The answer of a row of a size, by its index.
    pub(super) fn of(&self, size: usize, row: usize) -> Option<usize> {
        *self.rows.get(size)?.get(row)?
    }

    /// Every answer, by its index.
    pub(super) fn each(&self) -> &[RowAnswer] {
        &self.each
    }

    /// The same answers for other rows: for each size, for each row, the row here whose
    /// answer it has.
    pub(crate) fn for_rows<'a>(&self, rows: impl Iterator<Item = &'a [Option<usize>]>) -> Self {
        let rows = rows.enumerate().map(|(size, rows)| {
            let rows = rows.iter();
            rows.map(|row| self.of(size, (*row)?)).collect()
        });
        Self {
            blocks: self.blocks.clone(),
            each: Arc::clone(&self.each),
            rows: rows.collect(),
        }
    }
}
