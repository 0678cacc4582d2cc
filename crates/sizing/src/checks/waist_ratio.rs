use super::conduction_excess::LATE_BLOCK;
use super::{need, waist};
use crate::check::{About, Check, Id, Lanes, Measure, Nominal, Per, RATIO_SCALE};
use crate::{Harm, Setting, Subject, words};
use geometry::Occluder;
use measurement::{Quantity, Unit};

/// The free waist over the hole's fit diameter: w / `d_fit`.
pub(super) struct WaistRatio;

impl Check for WaistRatio {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("waist_ratio"),
            title: "AV block risk, published ratio",
            unit: Unit::Ratio,
            scale: RATIO_SCALE,
            per: Per::Shape,
            harm: |_| Harm::AvBlock,
            below: None,
            aside: LATE_BLOCK,
        };
        &ABOUT
    }

    fn needs(&self, _: &Setting, _: &Occluder, _: Subject) -> Vec<Quantity> {
        need::throat()
    }

    fn measure(&self, _: Subject) -> Option<Measure> {
        Some(Measure::WaistRatio)
    }

    fn fill(&self, _: Subject, lanes: &Lanes, values: &mut [f64]) {
        waist::ratio(lanes, values);
    }

    fn says(&self, _: Subject, nominal: &Nominal, value: f64) -> String {
        format!(
            "AV block risk rises with size: waist {} is {value:.2} times the defect's \
             perimeter-derived diameter",
            words::mm(nominal.size.occluder.waist.diameter),
        )
    }
}
