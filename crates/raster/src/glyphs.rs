//! A picture where there are 16 colours or none: what a thing is, is told by
//! pattern.

use crate::blocks::Blocks;
use crate::cell_words::{CellWords, bears_words};
use crate::role_map::{Heaviest, RoleMap};
use crate::{CellSize, RasterError};
use scene::stroke::{Drawing, Role};

/// Pixels of a cell, across and down: the dots of braille.
const DOTS: [u16; 2] = [2, 4];

/// A line is at least so wide, dots; thinner, it would fall between two.
const LEAST_LINE: f64 = 1.0;

/// What a picture without colours is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Glyphs {
    /// Braille dots: muscle hatched, the device ruled, blood empty; blocks fill what is
    /// beyond a limit, and nothing else.
    Braille,
    /// ASCII: `#` muscle, `=` device, `.` blood.
    Ascii,
}

/// One cell of such a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GlyphCell {
    /// Its glyph, one column wide.
    pub glyph: char,
    /// What matters most of what it shows, for a terminal that has a few colours.
    pub role: Role,
    /// Whether it is a bold letter.
    pub is_bold: bool,
}

/// A picture told by pattern alone.
#[derive(Clone, Debug, PartialEq)]
pub struct GlyphCells {
    /// How many cells there are.
    pub size: CellSize,
    /// Each of them, line by line from the top.
    pub cells: Vec<GlyphCell>,
    /// The words for which there was no room.
    pub omitted: Vec<String>,
}

/// Paints a drawing in patterns over cells from edge to edge: it is not distorted if
/// its page has the shape that the cells have on the screen.
pub fn glyph_cells(
    drawing: &Drawing,
    size: CellSize,
    glyphs: Glyphs,
) -> Result<GlyphCells, RasterError> {
    let map = RoleMap::new(drawing, size.pixels(DOTS)?, false, LEAST_LINE)?;
    let dots = DOTS.map(usize::from);
    let columns = usize::from(size.columns);
    let (mut cells, mut free) = (Vec::with_capacity(size.cells()), Vec::new());
    for index in 0..size.cells() {
        let [x, y] = [index % columns * dots[0], index / columns * dots[1]];
        let roles: Vec<Role> = map.block([x, y], dots).collect();
        free.push(roles.iter().all(|role| bears_words(*role)));
        cells.push(match glyphs {
            Glyphs::Braille => beyond(&roles).unwrap_or_else(|| braille(&roles, [x, y])),
            Glyphs::Ascii => ascii(&roles),
        });
    }
    let words = CellWords::place(drawing, size, free)?;
    for one in &words.placed {
        for (letter, cell) in one.word.text.chars().zip(&mut cells[one.first..]) {
            *cell = GlyphCell {
                glyph: letter,
                role: one.role,
                is_bold: one.word.is_bold,
            };
        }
    }
    Ok(GlyphCells {
        size,
        cells,
        omitted: words.omitted,
    })
}

/// The bits of a braille glyph, line by line (Unicode, Braille Patterns).
const BRAILLE_BITS: [u32; 8] = [0x01, 0x08, 0x02, 0x10, 0x04, 0x20, 0x40, 0x80];

fn braille(roles: &[Role], [x, y]: [usize; 2]) -> GlyphCell {
    let mut bits = 0;
    let mut inked = Vec::with_capacity(roles.len());
    for (place, (&role, bit)) in roles.iter().zip(BRAILLE_BITS).enumerate() {
        if has_dot(role, [x + place % 2, y + place / 2]) {
            bits |= bit;
            inked.push(role);
        }
    }
    let glyph = match bits {
        0 => ' ',
        _ => char::from_u32(0x2800 + bits).unwrap_or(' '),
    };
    let role = if inked.is_empty() {
        Role::Ground
    } else {
        Heaviest::of(inked).role()
    };
    GlyphCell {
        glyph,
        role,
        is_bold: false,
    }
}

/// The quarters of a cell in which something is beyond a limit; `None` where nothing is.
fn beyond(roles: &[Role]) -> Option<GlyphCell> {
    let mut quarters = 0;
    for (place, role) in roles.iter().enumerate() {
        if *role == Role::Beyond {
            let [x, y] = [place % 2, place / 2];
            quarters |= 1 << (2 * (y / 2) + x);
        }
    }
    (quarters != 0).then(|| GlyphCell {
        glyph: Blocks::Quadrants.glyph(quarters),
        role: Role::Beyond,
        is_bold: false,
    })
}

/// Whether a dot of a role is set: lines are solid; muscle is hatched thinly, the
/// device ruled closely, what is drawn from habit dotted.
const fn has_dot(role: Role, [x, y]: [usize; 2]) -> bool {
    match role {
        Role::Ground | Role::LeftBlood | Role::RightBlood | Role::Casing => false,
        Role::Muscle => (x + y).is_multiple_of(4),
        Role::Device => y.is_multiple_of(2),
        Role::FarWall => x.is_multiple_of(4) && y.is_multiple_of(4),
        Role::Schematic => x.is_multiple_of(2) || y.is_multiple_of(2),
        Role::Fibre
        | Role::Outline
        | Role::Wire
        | Role::DeviceOutline
        | Role::Plate
        | Role::Ok
        | Role::Warning
        | Role::Beyond
        | Role::ConductionAxis
        | Role::Dimension
        | Role::Word => true,
    }
}

/// A letter for what covers most of the cell, or for a line that crosses it.
fn ascii(roles: &[Role]) -> GlyphCell {
    const LEAST: usize = 2;
    let count = |role: Role| roles.iter().filter(|one| **one == role).count();
    let lines = [
        (Role::Beyond, 'X'),
        (Role::Plate, '%'),
        (Role::Warning, '!'),
        (Role::ConductionAxis, '*'),
        (Role::Ok, '+'),
        (Role::Dimension, '+'),
        (Role::Schematic, '~'),
    ];
    // A dimension says nothing where it crosses what it measures.
    let is_solid = roles.iter().any(|role| {
        let area = area_of(*role);
        matches!(area, Role::Device | Role::Muscle)
    });
    let is_seen = |role: Role| count(role) >= LEAST && !(role == Role::Dimension && is_solid);
    if let Some((role, glyph)) = lines.into_iter().find(|(role, _)| is_seen(*role)) {
        return GlyphCell {
            glyph,
            role,
            is_bold: false,
        };
    }
    let areas = [
        (Role::Device, '='),
        (Role::Muscle, '#'),
        (Role::FarWall, ':'),
        (Role::LeftBlood, '.'),
        (Role::RightBlood, '.'),
        (Role::Ground, ' '),
    ];
    let covered = |area: Role| roles.iter().filter(|role| area_of(**role) == area).count();
    // The first of those that cover most: what is laid in before what was there.
    let mut best = (0, Role::Ground, ' ');
    for (role, glyph) in areas {
        if covered(role) > best.0 {
            best = (covered(role), role, glyph);
        }
    }
    GlyphCell {
        glyph: best.2,
        role: best.1,
        is_bold: false,
    }
}

/// The area that a role belongs to.
const fn area_of(role: Role) -> Role {
    match role {
        Role::Wire | Role::DeviceOutline => Role::Device,
        Role::Fibre | Role::Outline => Role::Muscle,
        other => other,
    }
}
