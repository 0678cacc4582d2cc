use super::part;
use super::tract_share::side;
use crate::check::{About, Check, Per, RATIO_SCALE};
use crate::measure::{Measure, Situation};
use crate::{Harm, Setting, Subject, check_name};
use geometry::Occluder;

/// The disc's diameter over the shortest free end-systolic length of its
/// ventricle in the wall plane.
pub(super) struct Chamber;

impl Check for Chamber {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::VENTRICLE,
            title: "disc in ventricle",
            short: "ventricle",
            scale: RATIO_SCALE,
            per: Per::Face(Measure::ChamberRatio),
            harm: Harm::to_outflow,
            below: None,
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, _: &Setting, occluder: &Occluder, of: Subject) -> bool {
        of.face().is_some_and(|face| occluder.disc(face).is_some())
    }

    fn says(&self, of: Subject, at: &Situation, value: f64) -> String {
        let Some(face) = of.face() else {
            return String::new();
        };
        format!(
            "{} is {value:.2} times the emptied {} ventricle's shortest free length",
            part::part(&at.size.occluder, face),
            side(face),
        )
    }
}
