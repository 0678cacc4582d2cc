use super::{EdgePart, Measure};
use crate::{Neighbour, Setting, face_of};
use geometry::Face;
use measurement::{Quantity, Valve};

impl Measure {
    /// The quantities without which it has no value.
    pub(crate) fn needs(self, setting: &Setting) -> Vec<Quantity> {
        match self {
            Self::WaistExcess | Self::WaistRatio => throat(),
            Self::Slack | Self::Clamp => slack(),
            Self::Lip(face, EdgePart::AtHinge) => both(opening(face), hinges(setting, face)),
            Self::Lip(face, EdgePart::Away) => opening(face),
            Self::Clearance(valve) => {
                let placed = both(slack(), hinge(valve));
                both(placed, Quantity::plate(valve))
            }
            Self::Reach(valve) => both(opening(face_of(valve)), [Quantity::clock_position(valve)]),
            Self::LeafletCovered(valve) => both(hinge(valve), Quantity::leaflet(valve)),
            Self::OpenShare(face) => section(face),
            Self::TractGradient(face) => both(section(face), [velocity(face)]),
            Self::TractRoom(face) => both(throat(), tract(face)),
            Self::ChamberRatio(face) => vec![ventricle(face)],
            Self::SheathInVein => vec![Quantity::VEIN_DIAMETER],
            Self::SheathInArtery | Self::ArteryWidth => vec![Quantity::ARTERY_DIAMETER],
            Self::OfShape(_) | Self::Own(_) => Vec::new(),
        }
    }

    /// The quantities that move its value, though it has one without them.
    pub(crate) fn moved_by(self, setting: &Setting) -> Vec<Quantity> {
        match self {
            // The arcs about the hinges of its face are left out of it.
            Self::Lip(face, EdgePart::Away) => hinges(setting, face).collect(),
            Self::TractGradient(Face::Right) => vec![Quantity::FLOW_QP_QS],
            _ => Vec::new(),
        }
    }
}

/// The valves that stand on a face.
pub(crate) fn beside(setting: &Setting, face: Face) -> impl Iterator<Item = Valve> {
    Valve::ALL.into_iter().filter(move |&valve| {
        face_of(valve) == face && !setting.case().is_absent(Neighbour::Valve(valve))
    })
}

/// Where the hinges of a face stand.
fn hinges(setting: &Setting, face: Face) -> impl Iterator<Item = Quantity> {
    beside(setting, face).map(Quantity::clock_position)
}

/// What the defect's perimeter needs.
fn throat() -> Vec<Quantity> {
    vec![
        Quantity::DEFECT_LONG_AXIS,
        Quantity::DEFECT_SHORT_AXIS,
        Quantity::DEFECT_ROTATION,
    ]
}

/// What slack and stand-off need.
fn slack() -> Vec<Quantity> {
    both(throat(), [Quantity::WALL_THICKNESS])
}

/// What a disc's place over the opening of a face needs.
fn opening(face: Face) -> Vec<Quantity> {
    let own = match face {
        Face::Left => [
            Quantity::LEFT_OPENING_LONG_AXIS,
            Quantity::LEFT_OPENING_SHORT_AXIS,
            Quantity::LEFT_OPENING_ROTATION,
            Quantity::LEFT_OPENING_OFFSET_TOWARD_12,
            Quantity::LEFT_OPENING_OFFSET_TOWARD_3,
        ],
        Face::Right => [
            Quantity::RIGHT_OPENING_LONG_AXIS,
            Quantity::RIGHT_OPENING_SHORT_AXIS,
            Quantity::RIGHT_OPENING_ROTATION,
            Quantity::RIGHT_OPENING_OFFSET_TOWARD_12,
            Quantity::RIGHT_OPENING_OFFSET_TOWARD_3,
        ],
    };
    both(throat(), own)
}

/// What the place of a hinge on its face needs.
fn hinge(valve: Valve) -> Vec<Quantity> {
    let place = [Quantity::rim(valve), Quantity::clock_position(valve)];
    both(opening(face_of(valve)), place)
}

/// What the section of a side's outflow tract needs.
const fn tract(face: Face) -> [Quantity; 2] {
    match face {
        Face::Left => [Quantity::LEFT_OUTFLOW_DEPTH, Quantity::LEFT_OUTFLOW_WIDTH],
        Face::Right => [Quantity::RIGHT_OUTFLOW_DEPTH, Quantity::RIGHT_OUTFLOW_WIDTH],
    }
}

const fn velocity(face: Face) -> Quantity {
    match face {
        Face::Left => Quantity::LEFT_OUTFLOW_VELOCITY,
        Face::Right => Quantity::RIGHT_OUTFLOW_VELOCITY,
    }
}

const fn ventricle(face: Face) -> Quantity {
    match face {
        Face::Left => Quantity::LEFT_VENTRICLE_LENGTH,
        Face::Right => Quantity::RIGHT_VENTRICLE_LENGTH,
    }
}

/// What the open section of a side's outflow tract needs.
fn section(face: Face) -> Vec<Quantity> {
    both(slack(), tract(face))
}

/// Two lists as one, nothing twice.
fn both(mut one: Vec<Quantity>, other: impl IntoIterator<Item = Quantity>) -> Vec<Quantity> {
    for quantity in other {
        if !one.contains(&quantity) {
            one.push(quantity);
        }
    }
    one
}
