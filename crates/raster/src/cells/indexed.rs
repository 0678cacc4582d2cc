use super::split::{MOST_PARTS, best_split};
use super::{
    CELL_PIXELS, Cell, CellColour, LEAST_LINE, Painted, corners, part_offset, part_pixels,
};
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
    let area = part_pixels(blocks);
    let each = corners(size).map(|[x, y]| {
        let mut roles = [Role::Ground; MOST_PARTS];
        let roles = &mut roles[..2 * blocks.lines()];
        for (part, role) in roles.iter_mut().enumerate() {
            let [right, down] = part_offset(part, area);
            *role = Heaviest::of(map.block([x + right, y + down], area)).role();
        }
        let mut parts = [[0.0; 3]; MOST_PARTS];
        for (part, role) in parts.iter_mut().zip(roles.iter()) {
            *part = seen(*role, ground);
        }
        let ink = best_split(&parts[..roles.len()]);
        let side = |wanted: bool| {
            let of_side = roles
                .iter()
                .enumerate()
                .filter(|(part, _)| (ink >> part & 1 == 1) == wanted);
            let role = Heaviest::of(of_side.map(|(_, role)| *role)).role();
            CellColour::Index(index(role, ground))
        };
        Cell {
            glyph: blocks.glyph(ink),
            ink: side(ink != 0),
            ground: side(false),
            is_bold: false,
        }
    });
    let cell = CELL_PIXELS.map(usize::from);
    let is_free = |corner| map.block(corner, cell).all(bears_words);
    Ok(Painted {
        cells: each.collect(),
        free: corners(size).map(is_free).collect(),
    })
}

/// The colour as which the index of a role is seen.
fn seen(role: Role, ground: PageGround) -> [f32; 3] {
    let colour = Rgb::of_index(index(role, ground)).unwrap_or_default();
    colour.channels().map(f32::from)
}
