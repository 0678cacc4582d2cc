//! The names by which rules, files and output know the checks, each with its unit.
//!
//! Rules stand below the checks that ask them, so the names stand below both.

use crate::Subject;
use geometry::Face;
use measurement::Unit;

/// A check as rules and output name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CheckName {
    ids: Ids,
    /// The unit of what it measures.
    pub unit: Unit,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ids {
    /// One id, whatever the subject.
    One(&'static str),
    /// One id for the left face and one for the right.
    OfFace(&'static str, &'static str),
}

impl CheckName {
    const fn one(id: &'static str, unit: Unit) -> Self {
        let ids = Ids::One(id);
        Self { ids, unit }
    }

    const fn of_face(left: &'static str, right: &'static str, unit: Unit) -> Self {
        let ids = Ids::OfFace(left, right);
        Self { ids, unit }
    }

    /// Its id for a subject.
    pub fn id(self, of: Subject) -> &'static str {
        match (self.ids, of) {
            (Ids::OfFace(_, right), Subject::Face(Face::Right)) => right,
            (Ids::One(id) | Ids::OfFace(id, _), _) => id,
        }
    }
}

pub(crate) const WAIST_FIT: CheckName = CheckName::one("waist_fit", Unit::Mm);
pub(crate) const WAIST_RATIO: CheckName = CheckName::one("waist_ratio", Unit::Ratio);
pub(crate) const LENGTH_FIT: CheckName = CheckName::one("length_fit", Unit::Mm);
pub(crate) const RIM_OVERLAP: CheckName =
    CheckName::of_face("rim_overlap_left", "rim_overlap_right", Unit::Mm);
pub(crate) const RIM_OVERLAP_TOWARD_VALVE: CheckName = CheckName::of_face(
    "rim_overlap_toward_valve_left",
    "rim_overlap_toward_valve_right",
    Unit::Mm,
);
pub(crate) const WAIST_ANCHORING: CheckName = CheckName::one("waist_anchoring", Unit::Ratio);
pub(crate) const CLEARANCE: CheckName = CheckName::one("clearance", Unit::Mm);
pub(crate) const PROLAPSE: CheckName = CheckName::one("prolapse", Unit::Grade);
pub(crate) const LEAFLET: CheckName = CheckName::one("leaflet", Unit::Share);
pub(crate) const LEAFLET_CHORDAE: CheckName = CheckName::one("leaflet_chordae", Unit::Mm);
pub(crate) const OUTFLOW_SHARE: CheckName =
    CheckName::of_face("outflow_share_left", "outflow_share_right", Unit::Share);
pub(crate) const OUTFLOW_GRADIENT: CheckName = CheckName::of_face(
    "outflow_gradient_left",
    "outflow_gradient_right",
    Unit::MmHg,
);
pub(crate) const OUTFLOW_WIDTH: CheckName =
    CheckName::of_face("outflow_width_left", "outflow_width_right", Unit::Mm);
pub(crate) const AV_BLOCK_WAIST: CheckName = CheckName::one("av_block_waist", Unit::Mm);
pub(crate) const AV_BLOCK_RATIO: CheckName = CheckName::one("av_block_ratio", Unit::Ratio);
pub(crate) const AV_BLOCK_PINCHED_WALL: CheckName =
    CheckName::one("av_block_pinched_wall", Unit::Mm);
pub(crate) const AV_BLOCK_DISC: CheckName = CheckName::one("av_block_disc", Unit::Mm);
pub(crate) const VENTRICLE: CheckName = CheckName::one("ventricle", Unit::Ratio);
pub(crate) const SHEATH_FIT: CheckName = CheckName::one("sheath_fit", Unit::Ratio);
pub(crate) const ARTERY_WIDTH: CheckName = CheckName::one("artery_width", Unit::Mm);

/// Every name, in the order in which the checks are shown.
pub(crate) const ALL: &[CheckName] = &[
    WAIST_FIT,
    WAIST_RATIO,
    LENGTH_FIT,
    RIM_OVERLAP,
    RIM_OVERLAP_TOWARD_VALVE,
    WAIST_ANCHORING,
    CLEARANCE,
    PROLAPSE,
    LEAFLET,
    LEAFLET_CHORDAE,
    OUTFLOW_SHARE,
    OUTFLOW_GRADIENT,
    OUTFLOW_WIDTH,
    AV_BLOCK_WAIST,
    AV_BLOCK_RATIO,
    AV_BLOCK_PINCHED_WALL,
    AV_BLOCK_DISC,
    VENTRICLE,
    SHEATH_FIT,
    ARTERY_WIDTH,
];

/// The id of every check, as house rules name them.
pub fn check_ids() -> Vec<&'static str> {
    let mut ids: Vec<&'static str> = ALL
        .iter()
        .flat_map(|name| Subject::ALL.map(|of| name.id(of)))
        .collect();
    // The ids of one check stand side by side, but alternate by face.
    let mut known = Vec::new();
    ids.retain(|id| {
        let is_new = !known.contains(id);
        known.push(*id);
        is_new
    });
    ids
}

/// The unit of a check by its id.
pub(crate) fn unit_of(id: &str) -> Option<Unit> {
    let is_named = |name: &&CheckName| Subject::ALL.iter().any(|&of| name.id(of) == id);
    ALL.iter().find(is_named).map(|name| name.unit)
}
