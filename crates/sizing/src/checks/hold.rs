use super::{hinge_lip, lip, need, reach};
use crate::check::{About, Check, EdgePart, Id, Lanes, MM_SCALE, Measure, Nominal, Per};
use crate::{Harm, Setting, Subject, words};
use geometry::Occluder;
use measurement::{Quantity, Unit};

/// The least lip of a seated disc away from the hinges of its face.
///
/// Lip: how far the disc reaches past the opening's edge. Reduced model: the
/// opening keeps its form, and the disc stays round.
pub(super) struct Hold;

impl Check for Hold {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::OfFace("hold_left", "hold_right"),
            title: "hold",
            unit: Unit::Mm,
            scale: MM_SCALE,
            per: Per::Face,
            harm: |_| Harm::Embolisation,
            below: Some("edge bare"),
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, _: &Setting, occluder: &Occluder, of: Subject) -> bool {
        of.face().is_some_and(|face| occluder.disc(face).is_some())
    }

    fn needs(&self, _: &Setting, _: &Occluder, of: Subject) -> Vec<Quantity> {
        of.face().map(need::opening).unwrap_or_default()
    }

    fn measure(&self, of: Subject) -> Option<Measure> {
        of.face().map(|face| Measure::Lip(face, EdgePart::Away))
    }

    // The arcs about the hinges of its face are left out of it.
    fn moved_by(&self, setting: &Setting, of: Subject) -> Vec<Quantity> {
        of.face().map_or_else(Vec::new, |face| {
            hinge_lip::beside(setting, face)
                .map(Quantity::clock_position)
                .collect()
        })
    }

    fn fill(&self, of: Subject, lanes: &Lanes, values: &mut [f64]) {
        let Some(face) = of.face() else { return };
        lip::fill(lanes, face, values, |anatomy| {
            anatomy.hinge_arcs[face.index()].complement()
        });
    }

    fn says(&self, of: Subject, nominal: &Nominal, value: f64) -> String {
        let part = of
            .face()
            .map_or("disc", |face| reach::part(&nominal.size.occluder, face));
        if value < 0.0 {
            format!(
                "{part} ends {} inside the edge away from the hinges",
                words::mm(-value)
            )
        } else {
            format!(
                "{part} holds by at least {} past the edge away from the hinges",
                words::mm(value)
            )
        }
    }
}
