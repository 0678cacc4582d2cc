use super::{need, waist};
use crate::check::{About, Check, Id, Lanes, Measure, Nominal, Per, RATIO_SCALE};
use crate::{Setting, Subject, words};
use geometry::Occluder;
use measurement::Quantity;

/// The free waist over the hole's fit diameter: w / `d_fit`.
pub(super) struct WaistRatio;

impl Check for WaistRatio {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("waist_ratio"),
            title: "waist ratio",
            unit: "ratio",
            scale: RATIO_SCALE,
            per: Per::Shape,
            aside: None,
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
            "waist {} is {value:.2} times the hole's fit diameter",
            words::mm(nominal.size.occluder.waist.diameter),
        )
    }
}
