use super::reach;
use super::tract_share::side;
use crate::check::{About, Check, Id, Lanes, Measure, Nominal, Per, RATIO_SCALE, UNREAD};
use crate::{Harm, Setting, Subject};
use geometry::{Face, Occluder};
use measurement::{Quantity, Unit};

/// The disc's diameter over the shortest free end-systolic length of its
/// ventricle in the wall plane.
pub(super) struct Chamber;

impl Check for Chamber {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("chamber"),
            title: "disc in ventricle",
            unit: Unit::Ratio,
            scale: RATIO_SCALE,
            per: Per::Face,
            harm: Harm::to_outflow,
            below: None,
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, _: &Setting, occluder: &Occluder, of: Subject) -> bool {
        of.face().is_some_and(|face| occluder.disc(face).is_some())
    }

    fn needs(&self, _: &Setting, _: &Occluder, of: Subject) -> Vec<Quantity> {
        let Some(face) = of.face() else {
            return Vec::new();
        };
        vec![match face {
            Face::Left => Quantity::LEFT_VENTRICLE_LENGTH,
            Face::Right => Quantity::RIGHT_VENTRICLE_LENGTH,
        }]
    }

    fn measure(&self, of: Subject) -> Option<Measure> {
        of.face().map(Measure::ChamberRatio)
    }

    fn fill(&self, of: Subject, lanes: &Lanes, values: &mut [f64]) {
        let Some(face) = of.face() else { return };
        let diameter = lanes
            .occluder()
            .disc(face)
            .map_or(0.0, |disc| 2.0 * disc.radius);
        lanes.each(values, |anatomy, _| {
            anatomy.ventricles[face.index()].map_or(UNREAD, |length| diameter / length)
        });
    }

    fn says(&self, of: Subject, nominal: &Nominal, value: f64) -> String {
        let Some(face) = of.face() else {
            return String::new();
        };
        format!(
            "{} is {value:.2} times the emptied {} ventricle's shortest free length",
            reach::part(&nominal.size.occluder, face),
            side(face),
        )
    }
}
