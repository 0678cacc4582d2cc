use super::conduction_excess::{LATE_BLOCK, arc};
use crate::check::{About, Check, MM_SCALE, Per};
use crate::measure::{Measure, Situation};
use crate::{Harm, Setting, Subject, check_name, words};
use geometry::Occluder;

/// How far a short waist is stretched where the bundle runs: the discs clamp the
/// wall by it.
pub(super) struct ConductionClamp;

impl Check for ConductionClamp {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::AV_BLOCK_PINCHED_WALL,
            title: "AV block risk, pinched wall",
            short: "AV block risk",
            scale: MM_SCALE,
            per: Per::Shape(Measure::Clamp),
            harm: |_| Harm::AvBlock,
            below: None,
            aside: LATE_BLOCK,
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, occluder: &Occluder, _: Subject) -> bool {
        setting.danger_arc().is_some() && occluder.discs.iter().all(Option::is_some)
    }

    fn says(&self, _: Subject, at: &Situation, value: f64) -> String {
        format!(
            "AV block risk: the discs pinch the wall by {}, and the bundle runs along the edge {}",
            words::mm(value),
            arc(at)
        )
    }
}
