use super::{lip, need, reach};
use crate::check::{About, Check, EdgePart, Id, Lanes, MM_SCALE, Measure, Nominal, Per};
use crate::{Harm, Neighbour, Setting, Subject, face_of, words};
use geometry::{Face, Occluder};
use measurement::{Quantity, Unit, Valve};

/// The least lip of a seated disc within the arcs about the hinges of its face.
///
/// Where a disc must be short it still has to cover the edge.
pub(super) struct HingeLip;

impl Check for HingeLip {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::OfFace("hinge_lip_left", "hinge_lip_right"),
            title: "lip at the hinge",
            unit: Unit::Mm,
            scale: MM_SCALE,
            per: Per::Face,
            harm: |_| Harm::Embolisation,
            below: Some("edge bare at the hinge"),
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, occluder: &Occluder, of: Subject) -> bool {
        of.face().is_some_and(|face| {
            occluder.disc(face).is_some() && beside(setting, face).next().is_some()
        })
    }

    fn needs(&self, setting: &Setting, _: &Occluder, of: Subject) -> Vec<Quantity> {
        let Some(face) = of.face() else {
            return Vec::new();
        };
        let hinges = beside(setting, face).map(Quantity::clock_position);
        need::both(need::opening(face), hinges)
    }

    fn measure(&self, of: Subject) -> Option<Measure> {
        of.face().map(|face| Measure::Lip(face, EdgePart::AtHinge))
    }

    fn fill(&self, of: Subject, lanes: &Lanes, values: &mut [f64]) {
        let Some(face) = of.face() else { return };
        lip::fill(lanes, face, values, |anatomy| {
            anatomy.hinge_arcs[face.index()]
        });
    }

    fn says(&self, of: Subject, nominal: &Nominal, value: f64) -> String {
        let part = of
            .face()
            .map_or("disc", |face| reach::part(&nominal.size.occluder, face));
        if value < 0.0 {
            format!(
                "{part} leaves {} of the edge bare at a hinge",
                words::mm(-value)
            )
        } else {
            format!(
                "{part} covers the edge by at least {} at a hinge",
                words::mm(value)
            )
        }
    }
}

/// The valves that stand on a face.
pub(super) fn beside(setting: &Setting, face: Face) -> impl Iterator<Item = Valve> {
    Valve::ALL.into_iter().filter(move |&valve| {
        face_of(valve) == face && !setting.case().is_absent(Neighbour::Valve(valve))
    })
}
