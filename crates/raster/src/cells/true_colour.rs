use super::split::mean;
use super::{CELL_PIXELS, CellColour, LEAST_LINE, Painted, corners, halved};
use crate::blocks::Blocks;
use crate::brush::Detail;
use crate::cell_words::bears_words;
use crate::fit::Fit;
use crate::pixels::paint_detail;
use crate::{CellSize, RasterError};
use scene::stroke::colours::colour;
use scene::stroke::{Drawing, PageGround, Rgb, Role};

/// Paints a drawing and gives each cell the two colours and the glyph of
/// least squared error.
pub(super) fn cells(
    drawing: &Drawing,
    size: CellSize,
    ground: PageGround,
    blocks: Blocks,
    has_texture: bool,
) -> Result<Painted, RasterError> {
    let detail = Detail {
        has_texture,
        has_words: false,
        // A cell's part is the mean of 9 pixels or more, which is smooth enough, and
        // rough edges take a fifth of the time.
        is_smooth: false,
        least_line: LEAST_LINE,
    };
    let painted = size.pixels(CELL_PIXELS)?;
    let fit = Fit::over(drawing, painted)?;
    let pixels = paint_detail(drawing, painted, fit, ground, detail)?;
    let cells = halved(
        size,
        blocks,
        |corner, area| pixels.mean(corner, area),
        |part| part,
        |side| shown(mean(side)),
    );
    let calm: Vec<Rgb> = Role::ALL
        .into_iter()
        .filter(|role| bears_words(*role))
        .map(|role| colour(role, ground))
        .collect();
    let cell = CELL_PIXELS.map(usize::from);
    let is_free = |corner| pixels.block(corner, cell).all(|one| calm.contains(&one));
    Ok(Painted {
        cells,
        free: corners(size).map(is_free).collect(),
    })
}

fn shown(colour: [f32; 3]) -> CellColour {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "means of bytes"
    )]
    let [red, green, blue] = colour.map(|channel| channel.round() as u8);
    CellColour::Rgb(Rgb { red, green, blue })
}
