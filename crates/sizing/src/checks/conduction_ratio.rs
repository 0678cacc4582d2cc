use super::conduction_excess::{LATE_BLOCK, arc};
use crate::check::{About, Check, Per, RATIO_SCALE};
use crate::measure::{Measure, Situation};
use crate::{Harm, Setting, Subject, check_name};
use geometry::Occluder;

/// The waist over the hole's fit diameter where the bundle runs along its edge.
pub(super) struct ConductionRatio;

impl Check for ConductionRatio {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::AV_BLOCK_RATIO,
            title: "AV block risk, ratio",
            short: "AV block risk",
            scale: RATIO_SCALE,
            per: Per::Shape(Measure::WaistRatio),
            harm: |_| Harm::AvBlock,
            below: None,
            aside: LATE_BLOCK,
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, _: &Occluder, _: Subject) -> bool {
        setting.danger_arc().is_some()
    }

    fn says(&self, _: Subject, at: &Situation, value: f64) -> String {
        format!(
            "AV block risk rises with size: the waist is {value:.2} times the defect, and the bundle \
             runs along its edge {}",
            arc(at)
        )
    }
}
