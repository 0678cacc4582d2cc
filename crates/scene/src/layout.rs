//! Where words stand so that none covers another.

mod ink;

use crate::{Extent, Figure, Form, Home, Label, Lean, Part, Point};
use ink::Ink;
use std::cmp::Reverse;

/// The cells in which a back end sets words: of a screen its own; of a page,
/// those of a fixed-width fount.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grid {
    /// What of the picture it covers, from its upper left corner.
    pub bounds: Extent,
    /// Cells in a millimetre, along a line of words.
    pub columns_per_mm: f64,
    /// Cells in a millimetre, up and down.
    pub rows_per_mm: f64,
}

/// Words in their place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed<'a> {
    /// What they belong to.
    pub part: Part,
    /// The words.
    pub text: &'a str,
    /// Column of the first character, from the left, from 0.
    pub column: i32,
    /// Row, from the top, from 0.
    pub row: i32,
}

/// How many cells off its point words may stand.
const FARTHEST: i32 = 3;

/// How many better places words pass over so as not to cover one cell of a line.
const PER_INKED_CELL: usize = 4;

/// The words of figures in their places: none over another or out of bounds.
///
/// The important ones choose first, each the place that is near, on the side it
/// leans to, and covers few cells of lines. What finds no room is left out.
pub fn place<'a>(
    figures: impl IntoIterator<Item = &'a Figure> + Clone,
    grid: &Grid,
) -> Vec<Placed<'a>> {
    let ink = Ink::of(figures.clone(), grid);
    let mut labels: Vec<Words> = figures.into_iter().filter_map(Words::of).collect();
    labels.sort_by_key(|words| Reverse(words.label.importance));
    let mut placed: Vec<Placed> = Vec::new();
    for words in labels {
        let free = grid
            .places(words)
            .into_iter()
            .enumerate()
            .filter(|(_, one)| placed.iter().all(|other| !one.touches(other)));
        let best = free.min_by_key(|(better, one)| better + PER_INKED_CELL * ink.under(one));
        placed.extend(best.map(|(_, one)| one));
    }
    placed
}

/// Words to be placed.
#[derive(Clone, Copy)]
struct Words<'a> {
    part: Part,
    label: &'a Label,
    home: Option<&'a Home>,
}

impl<'a> Words<'a> {
    fn of(figure: &'a Figure) -> Option<Self> {
        let home = match &figure.form {
            Form::Home(_, home) => Some(home),
            _ => None,
        };
        Some(Self {
            part: figure.part,
            label: figure.form.label()?,
            home,
        })
    }
}

impl Placed<'_> {
    /// How many columns the words take.
    pub fn width(&self) -> i32 {
        width(self.text)
    }

    /// Whether they share a cell with other words, or leave no cell between.
    fn touches(&self, other: &Self) -> bool {
        self.row == other.row
            && self.column <= other.column + other.width()
            && other.column <= self.column + self.width()
    }
}

impl Grid {
    /// How many whole columns there are.
    pub fn columns(&self) -> i32 {
        whole(self.bounds.width() * self.columns_per_mm)
    }

    /// How many whole rows there are.
    pub fn rows(&self) -> i32 {
        whole(self.bounds.height() * self.rows_per_mm)
    }

    /// The column and the row of a point, which may lie outside.
    pub fn cell(&self, point: Point) -> [i32; 2] {
        let right = point.x - self.bounds.least.x;
        let down = self.bounds.most.y - point.y;
        [
            whole(right * self.columns_per_mm),
            whole(down * self.rows_per_mm),
        ]
    }

    /// The first column of a home, and the one behind its last.
    fn columns_of(&self, home: &Home) -> (i32, i32) {
        let columns = self.columns();
        let [first, _] = self.cell(Point::new(home.least, self.bounds.most.y));
        let [end, _] = self.cell(Point::new(home.most, self.bounds.most.y));
        (first.clamp(0, columns), end.clamp(0, columns))
    }

    /// Where words may stand, the best first.
    fn places<'a>(&self, words: Words<'a>) -> Vec<Placed<'a>> {
        let Words { part, label, home } = words;
        let rows = self.rows();
        let (first, end) = home.map_or((0, self.columns()), |home| self.columns_of(home));
        let text = match home {
            Some(home) if width(&label.text) > end - first => home.short,
            _ => &label.text,
        };
        let width = width(text);
        if width > end - first || rows < 1 {
            return Vec::new();
        }
        let [column, row] = self.cell(label.at);
        let others = Lean::ALL.into_iter().filter(|&lean| lean != label.lean);
        let mut places = Vec::new();
        for lean in [label.lean].into_iter().chain(others) {
            for off in 1..=FARTHEST {
                let (column, row) = match lean {
                    Lean::Right => (column + off, row),
                    Lean::Left => (column - off - width + 1, row),
                    Lean::Above => (column - width / 2, row - off),
                    Lean::Below => (column - width / 2, row + off),
                    Lean::Upon => (column - width / 2, row),
                };
                places.push(Placed {
                    part,
                    text,
                    column: column.clamp(first, end - width),
                    row: row.clamp(0, rows - 1),
                });
            }
        }
        places
    }
}

fn width(text: &str) -> i32 {
    i32::try_from(text.chars().count()).unwrap_or(i32::MAX)
}

/// Whole cells; far outside any grid where the number is too large.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a cast to i32 stops at its ends"
)]
fn whole(cells: f64) -> i32 {
    const FAR: f64 = 1e6;
    cells.floor().clamp(-FAR, FAR) as i32
}

#[cfg(test)]
mod tests;
