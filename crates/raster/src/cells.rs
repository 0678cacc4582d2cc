//! A picture as cells of block glyphs, two colours each.

mod indexed;
mod split;
mod true_colour;

use crate::blocks::Blocks;
use crate::cell_words::CellWords;
use crate::{CellSize, RasterError};
use scene::stroke::colours::{colour, index};
use scene::stroke::{Drawing, PageGround, Rgb};
use split::{MOST_PARTS, best_split, side};

/// Pixels painted for a cell, across and down: they divide into the parts of
/// every kind of block.
const CELL_PIXELS: [u16; 2] = [6, 12];

/// A line is at least so wide, pixels: as wide as a part of a cell, so that it fills
/// one wherever it runs.
const LEAST_LINE: f64 = 3.0;

/// From so many columns on, fibres and wires are painted.
const TEXTURE_FROM: u16 = 60;

/// The colours that a terminal shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Depth {
    /// 24-bit colours.
    TrueColour,
    /// 256 colours by their index.
    Indexed,
}

/// A colour of a cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CellColour {
    /// A 24-bit colour.
    Rgb(Rgb),
    /// One of 256, from 16 up.
    Index(u8),
}

/// One cell: a glyph in a colour on another. It paints all of itself, so that
/// nothing hangs on the terminal's own ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    /// A block, a letter or a space; one column wide.
    pub glyph: char,
    /// The colour of the glyph.
    pub ink: CellColour,
    /// The colour behind it.
    pub ground: CellColour,
    /// Whether it is a bold letter.
    pub is_bold: bool,
}

/// A picture in cells.
#[derive(Clone, Debug, PartialEq)]
pub struct Cells {
    /// How many there are.
    pub size: CellSize,
    /// Each of them, line by line from the top.
    pub cells: Vec<Cell>,
    /// The words for which there was no room.
    pub omitted: Vec<String>,
}

impl Cells {
    /// A line of cells; empty beyond the last.
    pub fn line(&self, row: u16) -> &[Cell] {
        let columns = usize::from(self.size.columns);
        let start = usize::from(row) * columns;
        self.cells.get(start..start + columns).unwrap_or_default()
    }
}

/// Paints a drawing over cells from edge to edge: it is not distorted if its page has
/// the shape that the cells have on the screen. Words stand as letters of one cell
/// each, where there is room for them.
pub fn cells(
    drawing: &Drawing,
    size: CellSize,
    ground: PageGround,
    blocks: Blocks,
    depth: Depth,
) -> Result<Cells, RasterError> {
    let has_texture = size.columns >= TEXTURE_FROM;
    let Painted { mut cells, free } = match depth {
        Depth::TrueColour => true_colour::cells(drawing, size, ground, blocks, has_texture)?,
        Depth::Indexed => indexed::cells(drawing, size, ground, blocks, has_texture)?,
    };
    let shown = |role| match depth {
        Depth::TrueColour => CellColour::Rgb(colour(role, ground)),
        Depth::Indexed => CellColour::Index(index(role, ground)),
    };
    let words = CellWords::place(drawing, size, free)?;
    for one in &words.placed {
        for (letter, cell) in one.word.text.chars().zip(&mut cells[one.first..]) {
            cell.glyph = letter;
            cell.ink = shown(one.role);
            cell.is_bold = one.word.is_bold;
        }
    }
    Ok(Cells {
        size,
        cells,
        omitted: words.omitted,
    })
}

/// Cells without their words, and which of them may bear some.
struct Painted {
    cells: Vec<Cell>,
    free: Vec<bool>,
}

/// Parts each cell in two groups of least squared error. `look` gives what is painted
/// in a part, by its upper left pixel and its size; `seen` the colour as which that
/// is seen; `shown` the colour in which a group is shown.
fn halved<P: Copy>(
    size: CellSize,
    blocks: Blocks,
    look: impl Fn([usize; 2], [usize; 2]) -> P,
    seen: impl Fn(P) -> [f32; 3],
    shown: impl Fn(&mut dyn Iterator<Item = P>) -> CellColour,
) -> Vec<Cell> {
    let area = part_pixels(blocks);
    let count = 2 * blocks.lines();
    let cell = |[x, y]: [usize; 2]| {
        let mut parts = [look([x, y], area); MOST_PARTS];
        for (part, painted) in parts.iter_mut().enumerate().take(count).skip(1) {
            let [right, down] = part_offset(part, area);
            *painted = look([x + right, y + down], area);
        }
        let ink = best_split(&parts.map(&seen)[..count]);
        let parts = &parts[..count];
        Cell {
            glyph: blocks.glyph(ink),
            ink: shown(&mut side(parts, ink, ink != 0)),
            ground: shown(&mut side(parts, ink, false)),
            is_bold: false,
        }
    };
    corners(size).map(cell).collect()
}

/// The upper left pixels of the cells, line by line.
fn corners(size: CellSize) -> impl Iterator<Item = [usize; 2]> {
    let [across, down] = CELL_PIXELS.map(usize::from);
    let (columns, rows) = (usize::from(size.columns), usize::from(size.rows));
    (0..rows).flat_map(move |row| (0..columns).map(move |column| [column * across, row * down]))
}

/// Width and height in pixels of a part of a cell.
fn part_pixels(blocks: Blocks) -> [usize; 2] {
    let [across, down] = CELL_PIXELS.map(usize::from);
    [across / 2, down / blocks.lines()]
}

/// The pixels by which a part lies right of its cell's corner and below it.
fn part_offset(part: usize, [width, height]: [usize; 2]) -> [usize; 2] {
    [part % 2 * width, part / 2 * height]
}
