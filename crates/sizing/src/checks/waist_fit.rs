use crate::check::{About, Check, MM_SCALE, Per};
use crate::measure::{Measure, Situation};
use crate::{Harm, Subject, check_name, words};

/// How much wider the free waist is than the hole: w − `d_fit`.
///
/// `d_fit` is the diameter of the circle with the throat's perimeter. Reduced
/// model: the edge is rounded by the waist and does not stretch.
pub(super) struct WaistFit;

impl Check for WaistFit {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::WAIST_FIT,
            title: "waist over defect",
            short: "waist",
            scale: MM_SCALE,
            per: Per::Shape(Measure::WaistExcess),
            harm: |_| Harm::Embolisation,
            below: Some("waist narrower"),
            aside: None,
        };
        &ABOUT
    }

    fn says(&self, _: Subject, at: &Situation, value: f64) -> String {
        let waist = at.size.occluder.waist.diameter;
        let longest = 2.0 * at.anatomy.defect.narrowest.semi_major;
        format!(
            "waist {} is {} than the defect's perimeter-derived diameter of {} ({} than its long axis)",
            words::mm(waist),
            words::by(value, "wider", "narrower"),
            words::mm(waist - value),
            words::by(waist - longest, "wider", "narrower"),
        )
    }
}
