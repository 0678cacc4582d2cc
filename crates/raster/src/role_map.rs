use crate::brush::{Brush, Detail};
use crate::fit::Fit;
use crate::pixels::new_pixmap;
use crate::{PixelSize, RasterError};
use scene::stroke::{Drawing, Role};
use tiny_skia::Color;

/// The role of the uppermost stroke at each pixel: a picture before it has colours.
#[derive(Clone, Debug)]
pub(crate) struct RoleMap {
    width: usize,
    roles: Vec<Role>,
}

impl RoleMap {
    /// Paints a drawing in roles. Edges are never smooth: no pixel is part one
    /// thing and part another.
    pub(crate) fn new(
        drawing: &Drawing,
        size: PixelSize,
        has_texture: bool,
        least_line: f64,
    ) -> Result<Self, RasterError> {
        let mut pixmap = new_pixmap(size)?;
        Brush {
            pixmap: &mut pixmap,
            fit: Fit::over(drawing, size)?,
            detail: Detail {
                has_texture,
                has_words: false,
                is_smooth: false,
                least_line,
            },
            // Opaque red of a level that is the role's place in the list of all.
            colour: &|role| Color::from_rgba8(role as u8, 0, 0, u8::MAX),
        }
        .draw(drawing);
        let role_at = |level: u8| {
            let role = Role::ALL.get(usize::from(level));
            role.copied().unwrap_or(Role::Ground)
        };
        let roles = pixmap.pixels().iter().map(|pixel| role_at(pixel.red()));
        Ok(Self {
            width: size.width() as usize,
            roles: roles.collect(),
        })
    }

    /// The roles of a block of pixels from its upper left corner, line by line.
    pub(crate) fn block(
        &self,
        [x, y]: [usize; 2],
        [width, height]: [usize; 2],
    ) -> impl Iterator<Item = Role> + '_ {
        (y..y + height).flat_map(move |line| {
            let start = line * self.width + x;
            self.roles[start..start + width].iter().copied()
        })
    }
}

/// Counts roles by their weight and tells which weighs most.
pub(crate) struct Heaviest {
    weights: [u16; Role::ALL.len()],
}

impl Heaviest {
    /// Counts roles.
    pub(crate) fn of(roles: impl IntoIterator<Item = Role>) -> Self {
        let mut weights = [0; Role::ALL.len()];
        for role in roles {
            weights[role as usize] += weight(role);
        }
        Self { weights }
    }

    /// The role that weighs most; of two alike the one that is listed later, which
    /// is the one that is drawn over the other.
    pub(crate) fn role(&self) -> Role {
        let heaviest = (0..self.weights.len()).max_by_key(|&role| self.weights[role]);
        heaviest.map_or(Role::Ground, |role| Role::ALL[role])
    }
}

/// How much a pixel of a role counts where many share one part of a cell: lines
/// more than areas, and what may harm most of all.
const fn weight(role: Role) -> u16 {
    match role {
        Role::Beyond => 5,
        Role::Warning | Role::Plate | Role::ConductionAxis => 4,
        Role::Outline | Role::DeviceOutline | Role::Ok | Role::Schematic => 3,
        Role::Ground
        | Role::LeftBlood
        | Role::RightBlood
        | Role::Muscle
        | Role::Fibre
        | Role::FarWall
        | Role::Device
        | Role::Wire
        | Role::Dimension
        | Role::Word
        | Role::Casing => 2,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A role is painted as its place in the list of all.
    #[test]
    fn roles_stand_in_the_list_in_their_order() {
        for (place, role) in Role::ALL.into_iter().enumerate() {
            assert_eq!(role as usize, place);
        }
    }

    #[test]
    fn a_line_outweighs_as_much_area() {
        let roles = [Role::Muscle, Role::Muscle, Role::Plate, Role::Plate];
        assert_eq!(Heaviest::of(roles).role(), Role::Plate);
        let roles = [Role::Muscle, Role::Muscle, Role::Muscle, Role::Plate];
        assert_eq!(Heaviest::of(roles).role(), Role::Muscle);
    }
}
