use crate::check::{About, Check, Per, RATIO_SCALE};
use crate::measure::{Measure, Situation};
use crate::{Harm, Setting, Subject, check_name};
use geometry::{Face, Occluder};

/// The free waist over the hole's fit diameter where a disc is missing: there
/// the waist alone holds the shape.
///
/// Friction and the tissue's give are left out.
pub(super) struct Grip;

impl Check for Grip {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::WAIST_ANCHORING,
            title: "waist-only anchoring",
            short: "anchoring",
            scale: RATIO_SCALE,
            per: Per::Shape(Measure::WaistRatio),
            harm: |_| Harm::Embolisation,
            below: None,
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, _: &Setting, occluder: &Occluder, _: Subject) -> bool {
        occluder.discs.iter().any(Option::is_none)
    }

    fn says(&self, _: Subject, at: &Situation, value: f64) -> String {
        let occluder = &at.size.occluder;
        let side = match (occluder.disc(Face::Left), occluder.disc(Face::Right)) {
            (None, None) => "on either side",
            (None, _) => "on the left",
            _ => "on the right",
        };
        format!(
            "no disc {side}: the waist alone anchors it, {value:.2} times as wide as the defect"
        )
    }
}
