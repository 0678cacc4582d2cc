use crate::{Face, Mm, PerFace, Radians, Vec2};

/// A disc: all points within t/2 of a flat round plate of radius R − t/2.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    /// Radius R.
    pub radius: Mm,
    /// Thickness t, at most 2R.
    pub thickness: Mm,
    /// Its centre from the axis of the waist, at rotation 0.
    pub offset: Vec2,
}

/// The cylinder between the discs, as it is outside the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Waist {
    /// Diameter w.
    pub diameter: Mm,
    /// Length L.
    pub length: Mm,
}

/// One size of a device: a waist with a disc on one side, on both or on none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Occluder {
    /// The waist, as it is outside the body.
    pub waist: Waist,
    /// The disc on each face, where the device has one.
    pub discs: PerFace<Option<Disc>>,
    /// Conformability κ, from 0 (stiff) to 1 (lies on the wall as cloth).
    pub conformability: f64,
    /// Angle β of the wires from the axis of the waist; at 0 its length does not change
    /// with its diameter.
    pub braid_angle: Radians,
}

impl Occluder {
    /// A stiff device whose length does not change with its diameter.
    pub const fn new(waist: Waist, discs: PerFace<Option<Disc>>) -> Self {
        Self {
            waist,
            discs,
            conformability: 0.0,
            braid_angle: 0.0,
        }
    }

    /// The disc on a face, if the device has one there.
    pub fn disc(&self, face: Face) -> Option<&Disc> {
        self.discs[face].as_ref()
    }

    /// Overhang R − w/2 of the disc on a face past the free waist, radial.
    pub fn overhang(&self, face: Face) -> Option<Mm> {
        self.disc(face)
            .map(|disc| disc.radius - 0.5 * self.waist.diameter)
    }

    /// Overhang of the disc on a face on its long side: R − w/2 and the length of its
    /// offset.
    pub fn longest_overhang(&self, face: Face) -> Option<Mm> {
        let off_axis = self.disc(face)?.offset.length();
        self.overhang(face).map(|overhang| overhang + off_axis)
    }

    /// Whether some disc is off the waist's axis, so that rotation matters.
    pub fn is_offset(&self) -> bool {
        self.discs
            .iter()
            .flatten()
            .any(|disc| disc.offset != Vec2::ZERO)
    }
}
