use super::form::has_even_discs;
use super::{EvenShape, FitMap};
use crate::{Catalogue, Size};
use geometry::{Face, Mm};

/// A size of a catalogue on a map.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Its name: `shape/size`.
    pub name: String,
    /// Its waist.
    pub waist: Mm,
    /// The overhang of its wider disc.
    pub overhang: Mm,
    /// Whether the map's chance is nearly its own: two equal discs on the axis,
    /// and length, thickness and conformability near the map's.
    pub is_near: bool,
}

/// How near a size's length must be to the map's.
const LENGTH: Mm = 0.5;
/// How near its discs' thickness.
const THICKNESS: Mm = 0.3;
/// How near its conformability.
const CONFORMABILITY: f64 = 0.15;

/// Every size of the catalogues that has a disc on either side, in their order.
pub fn marks(catalogues: &[Catalogue], form: &EvenShape) -> Vec<Mark> {
    catalogues
        .iter()
        .flat_map(|catalogue| &catalogue.shapes)
        .flat_map(|shape| shape.sizes.iter().map(move |size| (shape, size)))
        .filter_map(|(shape, size)| {
            let overhang = Face::BOTH.map(|face| size.occluder.overhang(face));
            let [Some(left), Some(right)] = overhang else {
                return None;
            };
            Some(Mark {
                name: format!("{}/{}", shape.id, size.label),
                waist: size.occluder.waist.diameter,
                overhang: left.max(right),
                is_near: is_near(size, form),
            })
        })
        .collect()
}

fn is_near(size: &Size, form: &EvenShape) -> bool {
    // Far under any figure of a catalogue: sums of decimals are not exact.
    const SLACK: f64 = 1e-9;
    let occluder = &size.occluder;
    let near = |one: f64, other: f64, most: f64| (one - other).abs() <= most + SLACK;
    has_even_discs(size)
        && near(occluder.waist.length, form.length, LENGTH)
        && near(occluder.conformability, form.conformability, CONFORMABILITY)
        && occluder
            .discs
            .iter()
            .flatten()
            .all(|disc| near(disc.thickness, form.thickness, THICKNESS))
}

impl Mark {
    /// The column and row nearest to it, where it lies on the map.
    pub fn cell(&self, map: &FitMap) -> Option<(usize, usize)> {
        Some((
            map.waists.index_of(self.waist)?,
            map.overhangs.index_of(self.overhang)?,
        ))
    }
}
