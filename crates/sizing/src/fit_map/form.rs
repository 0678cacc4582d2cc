use crate::placements::Placements;
use crate::{Catalogue, Setting, Shape, Sheath, Size, rows};
use geometry::{Disc, Mm, Occluder, PerFace, Radians, Vec2, Waist};

/// What shapes of one kind have in common, whatever their waist and discs.
///
/// Both discs are equal and on the axis.
#[derive(Clone, Debug, PartialEq)]
pub struct EvenShape {
    /// Length L of the waist.
    pub length: Mm,
    /// Thickness of either disc.
    pub thickness: Mm,
    /// κ from 0 (stiff) to 1 (lies on the wall as cloth).
    pub conformability: f64,
    /// β, the wires' angle from the axis.
    pub braid_angle: Radians,
    /// Sheaths by waist: a shape takes that of the nearest waist.
    pub sheaths: Vec<(Mm, Sheath)>,
}

impl EvenShape {
    /// The form of a size, with the sheaths of all sizes of its shape; `None`
    /// where a disc is missing. The thickness is that of the thicker disc.
    pub fn of(shape: &Shape, size: &Size) -> Option<Self> {
        let [Some(left), Some(right)] = size.occluder.discs.into_both() else {
            return None;
        };
        Some(Self {
            length: size.occluder.waist.length,
            thickness: left.thickness.max(right.thickness),
            conformability: size.occluder.conformability,
            braid_angle: size.occluder.braid_angle,
            sheaths: shape
                .sizes
                .iter()
                .map(|size| (size.occluder.waist.diameter, size.sheath))
                .collect(),
        })
    }

    /// The size of this form with a waist and an overhang.
    pub fn size(&self, waist: Mm, overhang: Mm) -> Size {
        let radius = 0.5 * waist + overhang;
        let disc = Disc {
            radius,
            thickness: self.thickness.min(2.0 * radius),
            offset: Vec2::ZERO,
        };
        Size {
            label: format!("{waist:.1}x{:.1}", self.length),
            occluder: Occluder {
                conformability: self.conformability,
                braid_angle: self.braid_angle,
                ..Occluder::new(
                    Waist {
                        diameter: waist,
                        length: self.length,
                    },
                    PerFace::of(|_| Some(disc)),
                )
            },
            sheath: self.sheath(waist),
        }
    }

    /// The same form at another length.
    #[must_use]
    pub fn at_length(&self, length: Mm) -> Self {
        Self {
            length,
            ..self.clone()
        }
    }

    fn sheath(&self, waist: Mm) -> Sheath {
        // Where no sheath is known, none is so small that it always passes.
        const NONE: Sheath = Sheath {
            french: 0.0,
            outer_diameter: None,
        };
        self.sheaths
            .iter()
            .min_by(|(one, _), (other, _)| (one - waist).abs().total_cmp(&(other - waist).abs()))
            .map_or(NONE, |(_, sheath)| *sheath)
    }
}

/// The form of the size that stands best at the values as read, of those with two
/// equal discs on the axis; the first of equals.
pub fn nearest_form(setting: &Setting, catalogues: &[Catalogue]) -> Option<EvenShape> {
    let mut best: Option<(Standing, EvenShape)> = None;
    for shape in catalogues.iter().flat_map(|catalogue| &catalogue.shapes) {
        for size in shape.sizes.iter().filter(|size| has_even_discs(size)) {
            let Some(form) = EvenShape::of(shape, size) else {
                continue;
            };
            let standing = standing(setting, size);
            if best
                .as_ref()
                .is_none_or(|(known, _)| is_better(standing, *known))
            {
                best = Some((standing, form));
            }
        }
    }
    best.map(|(_, form)| form)
}

/// Whether a size has two equal discs on its axis, as every cell of a map has.
pub(super) fn has_even_discs(size: &Size) -> bool {
    let [Some(left), Some(right)] = size.occluder.discs.into_both() else {
        return false;
    };
    left.radius == right.radius && !size.occluder.is_offset()
}

/// The worst state of a size as read, and its least margin in units of scale.
type Standing = (crate::State, f64);

fn is_better(one: Standing, other: Standing) -> bool {
    one.0 < other.0 || (one.0 == other.0 && one.1 > other.1)
}

fn standing(setting: &Setting, size: &Size) -> Standing {
    let places = Placements::as_read(setting, size, 0.0);
    let mut standing = (crate::State::Ok, f64::INFINITY);
    for row in rows(setting, &size.occluder)
        .iter()
        .filter(|row| row.is_assessed())
    {
        let value = places.roughly_worst(row);
        standing.0 = standing.0.max(row.state(value));
        if let Some(margin) = row.stop.margin(value) {
            standing.1 = standing.1.min(margin / row.check.about().scale);
        }
    }
    standing
}
