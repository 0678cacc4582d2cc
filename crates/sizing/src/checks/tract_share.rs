use super::part;
use crate::check::{About, Check, Per, SHARE_SCALE};
use crate::measure::{Measure, Situation};
use crate::{Harm, Neighbour, Setting, Subject, check_name, words};
use geometry::{Face, Occluder};

/// The share of an outflow tract's section that the shape leaves open.
///
/// Reduced model: a round tract of the same area, the wall at rest, the disc
/// lying on it as cloth or standing on its chord, mixed by the conformability.
pub(super) struct TractShare;

impl Check for TractShare {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::OUTFLOW_SHARE,
            title: "outflow open",
            short: "outflow",
            scale: SHARE_SCALE,
            per: Per::Face(Measure::OpenShare),
            harm: Harm::to_outflow,
            below: None,
            aside: Some("at rest; the outflow tract taken as round"),
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, _: &Occluder, of: Subject) -> bool {
        of.face().is_some_and(|face| stands_in_tract(setting, face))
    }

    fn says(&self, of: Subject, at: &Situation, value: f64) -> String {
        let Some(face) = of.face() else {
            return String::new();
        };
        let part = part::part(&at.size.occluder, face);
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

/// A face as the name of a side.
pub(super) const fn side(face: Face) -> &'static str {
    match face {
        Face::Left => "left",
        Face::Right => "right",
    }
}
