use super::conduction_excess::LATE_BLOCK;
use crate::check::{About, Check, Per, RATIO_SCALE};
use crate::measure::{Measure, Situation};
use crate::{Harm, Subject, check_name, words};

/// The free waist over the hole's fit diameter: w / `d_fit`.
pub(super) struct WaistRatio;

impl Check for WaistRatio {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::WAIST_RATIO,
            title: "AV block risk, published ratio",
            short: "AV block risk",
            scale: RATIO_SCALE,
            per: Per::Shape(Measure::WaistRatio),
            harm: |_| Harm::AvBlock,
            below: None,
            aside: LATE_BLOCK,
        };
        &ABOUT
    }

    fn says(&self, _: Subject, at: &Situation, value: f64) -> String {
        format!(
            "AV block risk rises with size: waist {} is {value:.2} times the defect's \
             perimeter-derived diameter",
            words::mm(at.size.occluder.waist.diameter),
        )
    }
}
