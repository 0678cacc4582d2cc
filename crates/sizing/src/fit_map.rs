//! Which waists and discs would fit, whether anyone makes them or not.

mod axis;
mod form;
mod lines;
mod marks;
mod rectangle;
mod refine;
mod room;
mod words;

pub use axis::Axis;
pub use form::{EvenShape, nearest_form};
pub use lines::Line;
pub use marks::{Mark, marks};
pub use refine::Refinement;
pub use room::{BestLength, Nearest, Room, WouldFit, best_length};

use crate::Subject;
use measurement::{Chance, Quantity};

/// The chance that no stop is broken, over waist (x) and disc overhang (y).
///
/// For shapes of one [`EvenShape`] with two equal discs on the axis. Columns are
/// waists, rows overhangs. Immutable once made: a [`Refinement`] gives a new one
/// at each of its levels.
#[derive(Clone, Debug, PartialEq)]
pub struct FitMap {
    /// What all its shapes have in common.
    pub form: EvenShape,
    /// The waists, one for each column.
    pub waists: Axis,
    /// The overhangs, one for each row.
    pub overhangs: Axis,
    /// Columns and rows between cells that were counted: 1 when it is whole.
    pub stride: usize,
    /// The stops that may be broken, as [`Cell::broken`] counts them.
    pub stops: Vec<Stop>,
    /// What was not read, so that stops were not assessed: with any, each chance
    /// is one of the other stops alone, and the true one at most that.
    pub missing: Vec<Quantity>,
    /// Column after column, `None` where not counted.
    cells: Vec<Option<Cell>>,
}

/// A check with a stop, of one subject.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stop {
    /// The check's id.
    pub check: &'static str,
    /// Its title.
    pub title: &'static str,
    /// Its subject.
    pub of: Subject,
}

/// One waist with one overhang.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// The chance that no stop is broken.
    pub chance: Chance,
    /// For each of the map's stops the share of draws in which it is broken.
    pub broken: Vec<f64>,
}

impl FitMap {
    /// The cell of a column and a row; while the map is being refined that of the
    /// nearest counted one to the left and below.
    pub fn cell(&self, column: usize, row: usize) -> Option<&Cell> {
        let on_grid = |index: usize| index - index % self.stride;
        if column >= self.waists.count || row >= self.overhangs.count {
            return None;
        }
        self.cells
            .get(self.place(on_grid(column), on_grid(row)))?
            .as_ref()
    }

    /// The chance of a column and a row, as [`cell`](Self::cell) finds it.
    pub fn chance(&self, column: usize, row: usize) -> Option<f64> {
        self.cell(column, row).map(|cell| cell.chance.value)
    }

    /// The stop most often broken in one cell, and the share of draws.
    pub fn stopped_by(&self, cell: &Cell) -> Option<(Stop, f64)> {
        most(&self.stops, &cell.broken)
    }

    /// The lines on which the chance has a value, in millimetres of waist and
    /// overhang.
    pub fn lines(&self, chance: f64) -> Vec<Line> {
        lines::lines(self, chance)
    }

    /// The place of a column's row among the cells.
    const fn place(&self, column: usize, row: usize) -> usize {
        column * self.overhangs.count + row
    }
}

impl Stop {
    /// The check and its subject: `clearance of the aortic valve`.
    pub fn name(&self) -> String {
        match self.of {
            Subject::Shape => self.title.to_owned(),
            of => format!("{} of the {of}", self.title),
        }
    }
}

/// The stop broken most, the first of equals; `None` where none is.
fn most(stops: &[Stop], broken: &[f64]) -> Option<(Stop, f64)> {
    stops
        .iter()
        .copied()
        .zip(broken.iter().copied())
        .filter(|(_, share)| *share > 0.0)
        .reduce(|best, other| if other.1 > best.1 { other } else { best })
}
