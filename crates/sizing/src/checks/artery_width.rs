use crate::check::{About, Check, MM_SCALE, Per};
use crate::measure::{Measure, Situation};
use crate::{Harm, Subject, check_name, words};

/// The inner diameter of the artery of the way in: in a narrow one the pulse is
/// lost more often, whatever the sheath.
pub(super) struct ArteryWidth;

impl Check for ArteryWidth {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::ARTERY_WIDTH,
            title: "width of vessel",
            short: "vessel",
            scale: MM_SCALE,
            per: Per::Artery(Measure::ArteryWidth),
            harm: |_| Harm::Vessel,
            below: None,
            aside: Some("a clot is likelier the smaller the child, and with a long sheath"),
        };
        &ABOUT
    }

    fn says(&self, of: Subject, _: &Situation, value: f64) -> String {
        format!("the {of} is {} wide", words::mm(value))
    }
}
