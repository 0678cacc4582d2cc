use crate::{Face, Mm, PerFace, Radians, Vec2};

/// A disc: all points within t/2 of a flat round plate of radius R − t/2.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    /// Radius R.
    pub radius: Mm,
    /// Thickness t, at most 2R.
    pub thickness: Mm,
    /// Its centre from the axis of the waist, at turn 0.
    pub offset: Vec2,
}

impl Disc {
    /// The radius R − t/2 of the flat core plate.
    pub fn core_radius(&self) -> Mm {
        self.radius - 0.5 * self.thickness
    }
}

/// The cylinder between the discs, as it is when free.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Waist {
    /// Diameter w.
    pub diameter: Mm,
    /// Length L.
    pub length: Mm,
}

/// One size of one shape: a waist with a disc on one side, both or none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Occluder {
    /// The waist, free.
    pub waist: Waist,
    /// The disc on each face, where the shape has one.
    pub discs: PerFace<Option<Disc>>,
    /// κ from 0 (stiff) to 1 (lies on the wall as cloth).
    pub conformability: f64,
    /// β, the wires' angle from the axis; 0: its length does not change.
    pub braid_angle: Radians,
}

impl Occluder {
    /// A stiff shape whose length does not change with its diameter.
    pub const fn new(waist: Waist, discs: PerFace<Option<Disc>>) -> Self {
        Self {
            waist,
            discs,
            conformability: 0.0,
            braid_angle: 0.0,
        }
    }

    /// The disc on a face, if the shape has one.
    pub fn disc(&self, face: Face) -> Option<&Disc> {
        self.discs[face].as_ref()
    }

    /// Overhang R − w/2 of the free shape on a face, radial.
    pub fn overhang(&self, face: Face) -> Option<Mm> {
        self.disc(face)
            .map(|disc| disc.radius - 0.5 * self.waist.diameter)
    }

    /// How far the disc on a face hangs past the free waist on its long side: its
    /// overhang, and by how much it is off the axis.
    pub fn longest_overhang(&self, face: Face) -> Option<Mm> {
        let off_axis = self.disc(face)?.offset.length();
        self.overhang(face).map(|overhang| overhang + off_axis)
    }

    /// Whether some disc is off the waist's axis, so that turning matters.
    pub fn is_offset(&self) -> bool {
        self.discs
            .iter()
            .flatten()
            .any(|disc| disc.offset != Vec2::ZERO)
    }
}
