use super::columns::Columns;
use super::in_halves;
use super::lanes::LANES;
use crate::{Anatomy, Draws};
use measurement::Blocks;
use std::ops::Range;
use std::sync::OnceLock;

/// Draws laid out side by side in groups.
#[derive(Debug)]
pub(super) struct Layout {
    pub(super) draws: Draws,
    /// By block, in steps of [`LANES`], the last of a block shorter.
    groups: Vec<Vec<Columns>>,
    /// Each anatomy that was asked for in `f64`.
    anatomies: Vec<OnceLock<Box<Anatomy>>>,
}

impl Layout {
    /// Two halves side by side: laying out costs as much as some dozen sizes.
    pub(super) fn new(draws: Draws) -> Self {
        let blocks: Vec<Range<usize>> = draws.block_ranges().collect();
        let groups = in_halves(Blocks::COUNT, |block| -> Vec<Columns> {
            let range = blocks[block].clone();
            let firsts = range.clone().step_by(LANES);
            firsts
                .map(|first| group(&draws, first..range.end.min(first + LANES)))
                .collect()
        });
        Self {
            groups,
            anatomies: std::iter::repeat_with(OnceLock::new)
                .take(draws.len())
                .collect(),
            draws,
        }
    }

    /// A group of draws with its block; `None` beyond the last.
    pub(super) fn group(&self, index: usize) -> Option<(usize, &Columns)> {
        let in_block = self.groups.first()?.len();
        let block = index / in_block;
        let columns = self.groups.get(block)?.get(index % in_block)?;
        Some((block, columns))
    }

    /// The anatomy of a draw, laid out where it was not yet.
    pub(super) fn anatomy(&self, draw: usize) -> &Anatomy {
        self.anatomies[draw].get_or_init(|| Box::new(self.draws.anatomy(draw)))
    }
}

fn group(draws: &Draws, some: Range<usize>) -> Columns {
    let anatomies: Vec<Anatomy> = some.clone().map(|draw| draws.anatomy(draw)).collect();
    Columns::new(some.start, &anatomies, &draws.seats()[some])
}
