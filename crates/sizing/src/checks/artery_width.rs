use crate::check::{About, Check, Id, Lanes, MM_SCALE, Measure, Nominal, Per, UNREAD};
use crate::{Harm, Setting, Subject, words};
use geometry::Occluder;
use measurement::{Quantity, Unit};

/// The inner diameter of the artery of the way in: in a narrow one the pulse is
/// lost more often, whatever the sheath.
pub(super) struct ArteryWidth;

impl Check for ArteryWidth {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("artery_width"),
            title: "width of vessel",
            unit: Unit::Mm,
            scale: MM_SCALE,
            per: Per::Vessel,
            harm: |_| Harm::Vessel,
            below: None,
            aside: Some("a clot is likelier the smaller the child, and with a long sheath"),
        };
        &ABOUT
    }

    fn is_asked(&self, _: &Setting, _: &Occluder, of: Subject) -> bool {
        of == Subject::Artery
    }

    fn needs(&self, _: &Setting, _: &Occluder, _: Subject) -> Vec<Quantity> {
        vec![Quantity::ARTERY_DIAMETER]
    }

    fn measure(&self, _: Subject) -> Option<Measure> {
        Some(Measure::ArteryWidth)
    }

    fn fill(&self, _: Subject, lanes: &Lanes, values: &mut [f64]) {
        lanes.each(values, |anatomy, _| anatomy.artery.unwrap_or(UNREAD));
    }

    fn says(&self, of: Subject, _: &Nominal, value: f64) -> String {
        format!("the {of} is {} wide", words::mm(value))
    }
}
