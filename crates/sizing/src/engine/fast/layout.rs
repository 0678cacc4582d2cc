use super::columns::Columns;
use super::in_halves;
use super::lanes::LANES;
use crate::{Anatomy, Draws};
use geometry::SeatDraw;
use measurement::Blocks;
use std::ops::Range;

/// Draws laid out side by side in groups.
#[derive(Debug)]
pub(super) struct Layout {
    pub(super) draws: Draws,
    /// By block, in steps of [`LANES`], the last of a block shorter; none where the draws
    /// are too many to be kept: of those each group is laid out when its turn comes.
    groups: Vec<Vec<Columns>>,
}

impl Layout {
    /// Two halves side by side: laying out costs as much as some dozen sizes.
    pub(super) fn new(draws: Draws) -> Self {
        let blocks: Vec<Range<usize>> = draws.block_ranges().collect();
        let is_kept = draws.is_kept();
        let groups = in_halves(Blocks::COUNT, |block| -> Vec<Columns> {
            let range = blocks[block].clone();
            let firsts = range.clone().step_by(LANES);
            let kept = firsts.take_while(|_| is_kept);
            kept.map(|first| group(&draws, first..range.end.min(first + LANES)))
                .collect()
        });
        Self { draws, groups }
    }

    /// A group of draws with its block; `None` beyond the last.
    pub(super) fn group(&self, index: usize) -> Option<(usize, GroupColumns<'_>)> {
        let range = self.draws.block_ranges().next()?;
        let in_block = range.len().div_ceil(LANES);
        let (block, place) = (index / in_block, index % in_block);
        if let Some(columns) = self.groups.get(block)?.get(place) {
            return Some((block, GroupColumns::Kept(columns)));
        }
        let range = self.draws.block_ranges().nth(block)?;
        let first = range.start + place * LANES;
        let columns = group(&self.draws, first..range.end.min(first + LANES));
        Some((block, GroupColumns::Made(Box::new(columns))))
    }
}

/// A group of draws, laid out before or for this once.
pub(super) enum GroupColumns<'a> {
    Kept(&'a Columns),
    Made(Box<Columns>),
}

impl GroupColumns<'_> {
    pub(super) fn columns(&self) -> &Columns {
        match self {
            Self::Kept(columns) => columns,
            Self::Made(columns) => columns,
        }
    }
}

fn group(draws: &Draws, some: Range<usize>) -> Columns {
    let piece = draws.piece(some.clone());
    let anatomies: Vec<Anatomy> = some.clone().map(|draw| piece.anatomy(draw)).collect();
    let seats: Vec<SeatDraw> = some.clone().map(|draw| piece.seat(draw)).collect();
    Columns::new(some.start, &anatomies, &seats)
}
