use super::{need, reach};
use crate::check::{About, Check, Id, Lanes, MM_SCALE, Nominal, Per, UNREAD};
use crate::{Setting, Subject, words};
use geometry::{Accuracy, Face, Occluder, lip};
use measurement::Quantity;

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
            unit: "mm",
            scale: MM_SCALE,
            per: Per::Face,
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, _: &Setting, occluder: &Occluder, of: Subject) -> bool {
        matches!(of, Subject::Face(face) if occluder.disc(face).is_some())
    }

    fn needs(&self, _: &Setting, _: &Occluder, of: Subject) -> Vec<Quantity> {
        face(of).map(need::opening).unwrap_or_default()
    }

    fn fill(&self, of: Subject, lanes: &Lanes, values: &mut [f64]) {
        let Some(face) = face(of) else { return };
        lanes.each(values, |anatomy, seat| {
            let arcs = anatomy.hinge_arcs[face.index()].complement();
            let opening = anatomy.defect.opening(face);
            lip::least_lip(
                lanes.occluder(),
                seat,
                opening,
                face,
                &arcs,
                Accuracy::DEFAULT,
            )
            .unwrap_or(UNREAD)
        });
    }

    fn says(&self, of: Subject, nominal: &Nominal, value: f64) -> String {
        let part = face(of).map_or("disc", |face| reach::part(&nominal.size.occluder, face));
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

/// The face a subject is.
pub(super) const fn face(of: Subject) -> Option<Face> {
    match of {
        Subject::Face(face) => Some(face),
        _ => None,
    }
}
