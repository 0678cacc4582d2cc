//! A drawing as cells of the screen.

use super::theme::{PictureCells, Theme};
use raster::{CellColour, CellSize, cells, glyph_cells};
use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::Rect;
use ratatui::style::{Color, Modifier, Style};
use scene::stroke::Drawing;

/// Paints a drawing over an area from edge to edge. A picture that has no cells, or
/// more than a terminal has, is left out.
pub(super) fn paint(drawing: &Drawing, theme: Theme, area: Rect, buffer: &mut Buffer) {
    let size = CellSize {
        columns: area.width,
        rows: area.height,
    };
    match theme.picture_cells() {
        PictureCells::Filled(ground, blocks, depth) => {
            let Ok(picture) = cells(drawing, size, ground, blocks, depth) else {
                return;
            };
            put(area, buffer, &picture.cells, |to, from| {
                let bold = if from.is_bold {
                    Modifier::BOLD
                } else {
                    Modifier::empty()
                };
                let style = Style::reset().fg(shown(from.ink)).bg(shown(from.ground));
                to.set_char(from.glyph).set_style(style.add_modifier(bold));
            });
        }
        PictureCells::Patterned(glyphs) => {
            let Ok(picture) = glyph_cells(drawing, size, glyphs) else {
                return;
            };
            put(area, buffer, &picture.cells, |to, from| {
                let mut style = Style::reset().patch(theme.role(from.role));
                if from.is_bold {
                    style = style.add_modifier(Modifier::BOLD);
                }
                to.set_char(from.glyph).set_style(style);
            });
        }
    }
}

/// Sets each cell of an area by that of the picture.
fn put<C>(area: Rect, buffer: &mut Buffer, cells: &[C], set: impl Fn(&mut Cell, &C)) {
    for (at, cell) in area.positions().zip(cells) {
        if let Some(to) = buffer.cell_mut(at) {
            set(to, cell);
        }
    }
}

const fn shown(colour: CellColour) -> Color {
    match colour {
        CellColour::Rgb(colour) => Color::Rgb(colour.red, colour.green, colour.blue),
        CellColour::Index(index) => Color::Indexed(index),
    }
}
