use super::part;
use super::tract_share::{side, stands_in_tract};
use crate::check::{About, Check, MM_SCALE, Per};
use crate::measure::{Measure, Situation};
use crate::{Harm, Setting, Subject, check_name, words};
use geometry::Occluder;

/// How much wider the outflow tract is than the disc: 2 `ρ_t` − 2R.
///
/// A stiff disc wider than its tract cannot lie flat in it. `ρ_t` is the radius
/// of the round tract of the same area.
pub(super) struct TractWidth;

impl Check for TractWidth {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::OUTFLOW_WIDTH,
            title: "outflow over disc",
            short: "outflow",
            scale: MM_SCALE,
            per: Per::Face(Measure::TractRoom),
            harm: Harm::to_outflow,
            below: Some("disc too wide"),
            aside: None,
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
        format!(
            "{} outflow is {} than the stiff {}",
            side(face),
            words::by(value, "wider", "narrower"),
            part::part(&at.size.occluder, face),
        )
    }
}
