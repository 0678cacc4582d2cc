use crate::rim_overlap::LeastOverlap;
use crate::section::{Cut, clearance_line};
use geometry::{Face, Mm, PerFace, Radians, SeatedDisc, Vec2};
use measurement::Valve;
use sizing::{Setting, Size, nominal_seat};

/// Where a size comes nearest to a valve, as a section toward that valve shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct NearestToValve {
    /// The signed clearance: positive apart, negative overlapping or past, mm.
    pub clearance: Mm,
    /// Whether a ruler on the section finds it: both nearest points lie in the cut.
    pub is_in_cut: bool,
    /// The centre of the waist in the wall.
    pub waist: Vec2,
    /// The left and the right disc, or the waist's end that stands for one.
    pub discs: PerFace<SeatedDisc>,
}

impl NearestToValve {
    /// `None` while a reading of hole, wall or valve is missing.
    pub fn of(setting: &Setting, size: &Size, turn: Radians, valve: Valve) -> Option<Self> {
        let cut = Cut::of(setting, size, turn, valve)?;
        let line = clearance_line(&cut)?;
        Some(Self {
            clearance: cut.place.clearance,
            is_in_cut: line.is_in_cut,
            waist: cut.place.waist,
            discs: cut.place.discs,
        })
    }
}

/// Where a size overlaps the rim least on a face, away from the hinges there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeastRimOverlap {
    /// How far the disc covers the septum beyond the edge; negative where it leaves
    /// the edge bare, mm.
    pub overlap: Mm,
    /// The azimuth about the opening's centre; `None` where no line shows it.
    pub azimuth: Option<Radians>,
    /// The centre of the waist in the wall.
    pub waist: Vec2,
}

impl LeastRimOverlap {
    /// `None` where the size has no disc on the face or hinges leave no arc.
    pub fn of(setting: &Setting, size: &Size, turn: Radians, face: Face) -> Option<Self> {
        let anatomy = setting.anatomy();
        let seat = nominal_seat(setting, size, turn);
        let arcs = anatomy.hinge_arcs[face].complement();
        let opening = anatomy.defect.opening(face);
        let least = LeastOverlap::of(&size.occluder, &seat, opening, face, &arcs)?;
        Some(Self {
            overlap: least.value,
            azimuth: least.azimuth,
            waist: least.waist,
        })
    }
}
