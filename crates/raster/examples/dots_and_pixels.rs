//! A drawing of three strokes, as dots on a terminal and as a PNG file.
//!
//! `cargo run -p raster --example dots_and_pixels > waist.png`

use raster::{CellSize, Glyphs, PixelSize, RasterError, glyph_cells, paint, png};
use scene::stroke::{Drawing, Ink, PageGround, Path, Role, Stroke};
use scene::{Part, Point};
use std::io::{self, Write};

fn main() -> Result<(), RasterError> {
    let drawing = waist_in_a_septum();
    let size = CellSize {
        columns: 40,
        rows: 12,
    };
    let dots = glyph_cells(&drawing, size, Glyphs::Braille)?;
    for line in dots.cells.chunks(usize::from(size.columns)) {
        let line: String = line.iter().map(|cell| cell.glyph).collect();
        eprintln!("{}", line.trim_end());
    }
    let pixels = paint(
        &drawing,
        PixelSize::of_width(&drawing, 640)?,
        PageGround::Light,
    )?;
    let file = png(&pixels, &drawing.title, &drawing.alternative_text)?;
    // A reader that closed the pipe wanted no more.
    io::stdout().write_all(&file).unwrap_or_default();
    Ok(())
}

/// Two rims of a septum and a waist between them.
fn waist_in_a_septum() -> Drawing {
    let block = |part, role, [left, top, right, bottom]: [f64; 4]| Stroke {
        part,
        role,
        ink: Ink::Fill(Path::polygon([
            Point::new(left, top),
            Point::new(right, top),
            Point::new(right, bottom),
            Point::new(left, bottom),
        ])),
    };
    Drawing {
        width: 30.0,
        height: 18.0,
        title: String::from("A waist in a septum"),
        alternative_text: String::from("A waist fills a defect of 5 mm."),
        strokes: vec![
            block(Part::Wall, Role::Muscle, [13.0, 0.0, 17.0, 6.5]),
            block(Part::Wall, Role::Muscle, [13.0, 11.5, 17.0, 18.0]),
            block(Part::Waist, Role::Device, [12.0, 6.5, 18.0, 11.5]),
        ],
    }
}
