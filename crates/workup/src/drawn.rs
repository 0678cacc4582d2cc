use crate::figures::Figures;
use crate::{Circumstances, Figure, Input, Truth};
use measurement::{Blocks, DrawsError, Interval, Quantity, Summary, Values, Weights};

/// The figures as measured, and those of each draw.
#[derive(Debug)]
pub(crate) struct FigureDraws {
    pub(crate) nominal: Figures,
    pieces: Vec<Vec<Figures>>,
}

/// How many draws lie in one piece. A block of megabytes would have the allocator of
/// glibc take blocks of that size for usual ones and keep as much for the next
/// (mallopt(3), M_MMAP_THRESHOLD).
const PIECE: usize = 256;

/// The coverage of an interval: JCGM 101 and common practice.
const COVERAGE: f64 = 0.95;

/// Share of the draws that must have a figure for an interval to be given.
const ENOUGH: f64 = 0.9;

impl FigureDraws {
    /// The figures of a case in a number of draws, which may be 0.
    pub(crate) fn new(
        input: &Input,
        at: &Circumstances,
        draws: usize,
        seed: u64,
    ) -> Result<Self, DrawsError> {
        let mut pieces = Vec::new();
        if draws > 0 {
            let blocks = Blocks::new(draws, seed)?;
            for block in 0..Blocks::COUNT {
                let columns = input.joint.draw(&blocks, block);
                let figures = |index| Figures::of(&row(&columns, index), at);
                for start in (0..blocks.per_block()).step_by(PIECE) {
                    let end = (start + PIECE).min(blocks.per_block());
                    pieces.push((start..end).map(figures).collect());
                }
            }
        }
        Ok(Self {
            nominal: Figures::of(&input.joint.nominal(), at),
            pieces,
        })
    }

    fn each(&self) -> impl Iterator<Item = &Figures> {
        self.pieces.iter().flatten()
    }

    fn len(&self) -> usize {
        self.pieces.iter().map(Vec::len).sum()
    }

    /// The interval of a figure.
    pub(crate) fn interval(&self, figure: Figure) -> Option<Interval> {
        self.interval_of(|figures| figures.get(figure))
    }

    /// The interval of a value that a function gives from the figures.
    pub(crate) fn interval_of(&self, of: impl Fn(&Figures) -> Option<f64>) -> Option<Interval> {
        let values: Vec<f64> = self.each().filter_map(of).collect();
        if (values.len() as f64) < ENOUGH * self.len() as f64 {
            return None;
        }
        let summary = Summary::new(&values, &Weights::uniform(values.len()))?;
        Some(summary.symmetric_interval(COVERAGE))
    }

    /// The share of the draws in which a condition is met; `None` where it is not known as
    /// measured, or nothing was drawn.
    pub(crate) fn chance(&self, truth: impl Fn(&Figures) -> Truth) -> Option<f64> {
        if self.pieces.is_empty() || truth(&self.nominal) == Truth::NotKnown {
            return None;
        }
        let met = self.each().filter(|figures| truth(figures) == Truth::Met);
        Some(met.count() as f64 / self.len() as f64)
    }
}

/// The values of one draw.
fn row(columns: &[(Quantity, Vec<f64>)], index: usize) -> Values {
    let mut values = Values::new();
    for (quantity, column) in columns {
        values.set(*quantity, column[index]);
    }
    values
}
