use crate::fit::Fit;
use crate::{CellSize, RasterError};
use scene::Point;
use scene::stroke::{Anchor, Drawing, Ink, Role, Word};
use typeface::CAP_HEIGHT;
use unicode_width::UnicodeWidthChar;

/// How far a word may move from where the drawing has it, rows and columns: nearest
/// first.
const MOVES: [[i32; 2]; 21] = [
    [0, 0],
    [0, -1],
    [0, 1],
    [-1, 0],
    [1, 0],
    [0, -2],
    [0, 2],
    [-1, -1],
    [-1, 1],
    [1, -1],
    [1, 1],
    [0, -3],
    [0, 3],
    [-1, -2],
    [-1, 2],
    [1, -2],
    [1, 2],
    [-2, 0],
    [2, 0],
    [0, -4],
    [0, 4],
];

/// The words of a drawing as they lie on cells, a letter a cell.
pub(crate) struct CellWords<'a> {
    /// Those for which there is room.
    pub(crate) placed: Vec<PlacedWord<'a>>,
    /// Those for which there is none.
    pub(crate) omitted: Vec<String>,
}

/// A word that has its cells.
pub(crate) struct PlacedWord<'a> {
    /// The cell of its first letter, counted line by line; the others follow.
    pub(crate) first: usize,
    pub(crate) role: Role,
    pub(crate) word: &'a Word,
}

impl<'a> CellWords<'a> {
    /// Places the words on cells that are free: blood, muscle and the page, never an
    /// edge or the device. A cell stays between one word and the next; what tells of
    /// harm is placed first.
    pub(crate) fn place(
        drawing: &'a Drawing,
        size: CellSize,
        free: Vec<bool>,
    ) -> Result<Self, RasterError> {
        let fit = Fit::over(drawing, size.pixels([1, 1])?)?;
        let words = drawing
            .strokes
            .iter()
            .filter_map(|stroke| match &stroke.ink {
                Ink::Word(word) => Some((stroke.role, word)),
                _ => None,
            });
        let mut words: Vec<(Role, &Word)> = words.collect();
        words.sort_by_key(|(role, _)| turn(*role));
        let mut page = FreeCells { size, free };
        let (mut placed, mut omitted) = (Vec::new(), Vec::new());
        for (role, word) in words {
            match page.room(word, fit) {
                Some(first) => placed.push(PlacedWord { first, role, word }),
                None => omitted.push(word.text.clone()),
            }
        }
        Ok(Self { placed, omitted })
    }
}

/// Whether words may lie on a role.
pub(crate) const fn bears_words(role: Role) -> bool {
    matches!(
        role,
        Role::Ground | Role::LeftBlood | Role::RightBlood | Role::Muscle
    )
}

/// When a word of a role is placed, early or late.
const fn turn(role: Role) -> u8 {
    match role {
        Role::Beyond => 0,
        Role::Warning => 1,
        Role::Ok => 2,
        Role::Schematic => 4,
        _ => 3,
    }
}

/// Which cells a word may lie on.
struct FreeCells {
    size: CellSize,
    free: Vec<bool>,
}

impl FreeCells {
    /// The cell of the first letter, taken from what is free with a cell on either
    /// side; `None` where there is no room or a letter is not one cell wide.
    fn room(&mut self, word: &Word, fit: Fit) -> Option<usize> {
        if word.text.chars().any(|letter| letter.width() != Some(1)) {
            return None;
        }
        let length = i32::try_from(word.text.chars().count()).ok()?;
        // The middle of a capital lies in the row, wherever the baseline falls.
        let middle = word.at.y - 0.5 * CAP_HEIGHT * word.size;
        let [x, y] = fit.at(Point::new(word.at.x, middle));
        let start = match word.anchor {
            Anchor::Start => x,
            Anchor::Middle => x - 0.5 * f64::from(length),
            Anchor::End => x - f64::from(length),
        };
        let columns = i32::from(self.size.columns);
        let column = floor(start.round()).clamp(0, (columns - length).max(0));
        let row = floor(y);
        let place = MOVES
            .iter()
            .map(|[down, right]| [column + right, row + down])
            .find(|&[column, row]| self.is_free(column, row, length))?;
        let [column, row] = place.map(|cell| usize::try_from(cell).unwrap_or(0));
        let length = usize::try_from(length).ok()?;
        let line = row * usize::from(self.size.columns);
        let end = (column + length + 1).min(usize::from(self.size.columns));
        self.free[line + column.saturating_sub(1)..line + end].fill(false);
        Some(line + column)
    }

    fn is_free(&self, column: i32, row: i32, length: i32) -> bool {
        let columns = i32::from(self.size.columns);
        let is_inside = column >= 0
            && column + length <= columns
            && (0..i32::from(self.size.rows)).contains(&row);
        let Ok(start) = usize::try_from(row * columns + column) else {
            return false;
        };
        let length = usize::try_from(length).unwrap_or(0);
        is_inside && self.free[start..start + length].iter().all(|free| *free)
    }
}

/// A cell's number; what is far outside stays outside.
#[expect(
    clippy::cast_possible_truncation,
    reason = "the cast saturates, and the ends of the range are no cells"
)]
fn floor(position: f64) -> i32 {
    position.floor().clamp(-1e6, 1e6) as i32
}
