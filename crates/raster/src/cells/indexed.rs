use super::{CELL_PIXELS, CellColour, LEAST_LINE, Painted, corners, halved};
use crate::blocks::Blocks;
use crate::cell_words::bears_words;
use crate::role_map::{Heaviest, RoleMap};
use crate::{CellSize, RasterError};
use scene::stroke::colours::index;
use scene::stroke::{Drawing, PageGround, Rgb, Role};

/// Paints a drawing in roles and gives each cell the two that matter most in it, so
/// that no mixed colour appears which might be taken for another role's.
pub(super) fn cells(
    drawing: &Drawing,
    size: CellSize,
    ground: PageGround,
    blocks: Blocks,
    has_texture: bool,
) -> Result<Painted, RasterError> {
    let map = RoleMap::new(drawing, size.pixels(CELL_PIXELS)?, has_texture, LEAST_LINE)?;
    let cells = halved(
        size,
        blocks,
        |corner, area| Heaviest::of(map.block(corner, area)).role(),
        |role| seen(role, ground),
        |side| CellColour::Index(index(Heaviest::of(side).role(), ground)),
    );
    let cell = CELL_PIXELS.map(usize::from);
    let is_free = |corner| map.block(corner, cell).all(bears_words);
    Ok(Painted {
        cells,
        free: corners(size).map(is_free).collect(),
    })
}

/// The colour as which the index of a role is seen.
fn seen(role: Role, ground: PageGround) -> [f32; 3] {
    let colour = Rgb::of_index(index(role, ground)).unwrap_or_default();
    colour.channels().map(f32::from)
}
