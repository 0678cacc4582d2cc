use super::{need, reach};
use crate::check::{About, Check, Id, Lanes, Measure, Nominal, Per, SHARE_SCALE, UNREAD};
use crate::house_rules::Parameter;
use crate::{Anatomy, Harm, Neighbour, Setting, Subject, words};
use geometry::{Face, Occluder, Seat, Vec2};
use measurement::{Quantity, Unit};

/// The share of an outflow tract's section that the shape leaves open.
///
/// Reduced model: a round tract of the same area, the wall at rest, the disc
/// lying on it as cloth or standing on its chord, mixed by the conformability.
pub(super) struct TractShare;

impl Check for TractShare {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::OfFace("tract_share_left", "tract_share_right"),
            title: "outflow open",
            unit: Unit::Share,
            scale: SHARE_SCALE,
            per: Per::Face,
            harm: Harm::to_outflow,
            below: None,
            aside: Some("at rest; the tract taken as round"),
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, _: &Occluder, of: Subject) -> bool {
        of.face().is_some_and(|face| stands_in_tract(setting, face))
    }

    fn needs(&self, _: &Setting, _: &Occluder, of: Subject) -> Vec<Quantity> {
        of.face().map(section).unwrap_or_default()
    }

    fn measure(&self, of: Subject) -> Option<Measure> {
        of.face().map(Measure::OpenShare)
    }

    fn fill(&self, of: Subject, lanes: &Lanes, values: &mut [f64]) {
        let Some(face) = of.face() else { return };
        lanes.each(values, |anatomy, seat| {
            open_share(lanes, anatomy, seat, face)
        });
    }

    fn says(&self, of: Subject, nominal: &Nominal, value: f64) -> String {
        let Some(face) = of.face() else {
            return String::new();
        };
        let part = reach::part(&nominal.size.occluder, face);
        format!(
            "{part} leaves {} of the {} outflow open",
            words::percent(value),
            side(face)
        )
    }
}

/// Whether a disc on a face stands in an outflow tract.
pub(super) fn stands_in_tract(setting: &Setting, face: Face) -> bool {
    !setting.case().is_absent(match face {
        Face::Left => Neighbour::LeftOutflow,
        Face::Right => Neighbour::RightOutflow,
    })
}

/// What the open section needs.
pub(super) fn section(face: Face) -> Vec<Quantity> {
    need::both(need::slack(), need::tract(face))
}

/// The open share of a face's tract, with the shape standing off as far as its
/// seat allows.
pub(super) fn open_share(lanes: &Lanes, anatomy: &Anatomy, seat: &Seat, face: Face) -> f64 {
    anatomy.tracts[face.index()].map_or(UNREAD, |tract| {
        let disc = seat.disc(
            lanes.occluder(),
            face,
            seat.stand_off(face).most,
            Vec2::ZERO,
        );
        tract.open_share(
            disc.radius,
            disc.stand_off + disc.thickness,
            lanes.occluder().conformability,
            lanes.setting.parameter(Parameter::DeadSpace),
        )
    })
}

/// A face as the name of a side.
pub(super) const fn side(face: Face) -> &'static str {
    match face {
        Face::Left => "left",
        Face::Right => "right",
    }
}
