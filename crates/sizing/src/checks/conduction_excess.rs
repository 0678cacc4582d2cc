use crate::check::{About, Check, MM_SCALE, Per};
use crate::measure::{Measure, Situation};
use crate::{Harm, Setting, Subject, check_name, words};
use geometry::Occluder;

/// How much wider the waist is than the hole where the bundle runs along its
/// edge: w − `d_fit`.
pub(super) struct ConductionExcess;

/// Always said beside the conduction checks.
pub(super) const LATE_BLOCK: Option<&str> = Some("block can come late");

impl Check for ConductionExcess {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::AV_BLOCK_WAIST,
            title: "AV block risk, waist",
            short: "AV block risk",
            scale: MM_SCALE,
            per: Per::Shape(Measure::WaistExcess),
            harm: |_| Harm::AvBlock,
            below: Some("waist narrower"),
            aside: LATE_BLOCK,
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, _: &Occluder, _: Subject) -> bool {
        setting.danger_arc().is_some()
    }

    fn says(&self, _: Subject, at: &Situation, value: f64) -> String {
        format!(
            "AV block risk rises with size: the waist is {} than the defect, and the bundle runs \
             along its edge {}",
            words::by(value, "wider", "narrower"),
            arc(at),
        )
    }
}

/// The bundle's arc on the clock.
pub(super) fn arc(at: &Situation) -> String {
    at.setting.danger_arc().map_or_else(String::new, |arc| {
        let hour = |degrees: f64| geometry::clock_hour(geometry::degrees(degrees)).round();
        format!(
            "from {} to {} o'clock",
            hour(arc.from_degrees),
            hour(arc.to_degrees)
        )
    })
}
