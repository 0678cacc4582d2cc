use super::{need, waist};
use crate::check::{About, Check, Id, Lanes, MM_SCALE, Measure, Nominal, Per};
use crate::{Harm, Setting, Subject, words};
use geometry::Occluder;
use measurement::{Quantity, Unit};

/// How much wider the free waist is than the hole: w − `d_fit`.
///
/// `d_fit` is the diameter of the circle with the throat's perimeter. Reduced
/// model: the edge is rounded by the waist and does not stretch.
pub(super) struct WaistFit;

impl Check for WaistFit {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("waist_fit"),
            title: "waist over hole",
            unit: Unit::Mm,
            scale: MM_SCALE,
            per: Per::Shape,
            harm: |_| Harm::Embolisation,
            below: Some("waist narrower"),
            aside: None,
        };
        &ABOUT
    }

    fn needs(&self, _: &Setting, _: &Occluder, _: Subject) -> Vec<Quantity> {
        need::throat()
    }

    fn measure(&self, _: Subject) -> Option<Measure> {
        Some(Measure::WaistExcess)
    }

    fn fill(&self, _: Subject, lanes: &Lanes, values: &mut [f64]) {
        waist::excess(lanes, values);
    }

    fn says(&self, _: Subject, nominal: &Nominal, value: f64) -> String {
        let waist = nominal.size.occluder.waist.diameter;
        let longest = 2.0 * nominal.anatomy().defect.throat.semi_major;
        format!(
            "waist {} is {} than the hole's fit diameter of {} ({} than its longer axis)",
            words::mm(waist),
            words::by(value, "wider", "narrower"),
            words::mm(waist - value),
            words::by(waist - longest, "wider", "narrower"),
        )
    }
}
