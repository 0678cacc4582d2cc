use super::tract::{gradient, open_share, room};
use super::{EdgePart, Measure, Situation, UNREAD, past_edge};
use crate::house_rules::Parameter;
use crate::{Setting, Size, face_of};
use geometry::{Accuracy, Face, Mm, least_clearance, lip};
use measurement::{ModelError, Valve};

impl Measure {
    /// Its value of a size in one anatomy: not a number where a reading is missing.
    pub fn value(self, at: &Situation) -> f64 {
        let (waist, anatomy) = (at.size.occluder.waist, at.anatomy);
        match self {
            Self::WaistExcess => waist.diameter - anatomy.defect.fit_diameter(),
            Self::WaistRatio => waist.diameter / anatomy.defect.fit_diameter(),
            Self::Slack => at.seat.slack(),
            Self::Clamp => (-at.seat.slack()).max(0.0),
            Self::Lip(face, part) => {
                least_lip(at, face, part) + anatomy.errors.of(ModelError::RimOverlap)
            }
            Self::Clearance(valve) => {
                clearance(at, valve) + anatomy.errors.clearance(face_of(valve))
            }
            Self::Reach(valve) => past_edge(&at.size.occluder, at.seat, anatomy, valve),
            Self::LeafletCovered(valve) => leaflet_covered(at, valve),
            Self::OpenShare(face) => open_share(at, face),
            Self::TractGradient(face) => gradient(at, face) * anatomy.errors.gradient(face),
            Self::TractRoom(face) => room(at, face),
            Self::ChamberRatio(face) => chamber_ratio(at, face),
            Self::SheathInVein => anatomy
                .vein
                .map_or(UNREAD, |vein| sheath(at.setting, at.size) / vein),
            Self::SheathInArtery => anatomy
                .artery
                .map_or(UNREAD, |artery| sheath(at.setting, at.size) / artery),
            Self::ArteryWidth => anatomy.artery.unwrap_or(UNREAD),
            Self::OfShape(of) => of(at.setting, at.size),
            Self::Own(own) => own(at),
        }
    }
}

/// The least lip of the disc on a face over a part of the opening's edge.
fn least_lip(at: &Situation, face: Face, part: EdgePart) -> Mm {
    let at_hinge = at.anatomy.hinge_arcs[face];
    let arcs = match part {
        EdgePart::AtHinge => at_hinge,
        EdgePart::Away => at_hinge.complement(),
    };
    let (occluder, opening) = (&at.size.occluder, at.anatomy.defect.opening(face));
    lip::least_lip(occluder, at.seat, opening, face, &arcs, Accuracy::DEFAULT).unwrap_or(UNREAD)
}

fn clearance(at: &Situation, valve: Valve) -> Mm {
    let plate = at.anatomy.valves[valve].as_ref();
    plate.map_or(UNREAD, |plate| {
        least_clearance(&at.size.occluder, at.seat, plate, Accuracy::DEFAULT)
    })
}

fn leaflet_covered(at: &Situation, valve: Valve) -> f64 {
    let reach = past_edge(&at.size.occluder, at.seat, at.anatomy, valve);
    match (at.anatomy.rims[valve], at.anatomy.leaflets[valve]) {
        (Some(rim), Some(length)) => ((reach - rim) / length).clamp(0.0, 1.0),
        _ => UNREAD,
    }
}

fn chamber_ratio(at: &Situation, face: Face) -> f64 {
    let disc = at.size.occluder.disc(face);
    let diameter = disc.map_or(0.0, |disc| 2.0 * disc.radius);
    at.anatomy.ventricles[face].map_or(UNREAD, |length| diameter / length)
}

/// The sheath's outer diameter: where the catalogue has none the house's wall is added
/// to what fits inside, by which a sheath is named (ISO 11070).
pub(crate) fn sheath(setting: &Setting, size: &Size) -> Mm {
    size.sheath
        .outer_diameter(setting.parameter(Parameter::SheathWalls))
}
