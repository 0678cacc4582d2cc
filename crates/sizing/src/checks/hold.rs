use super::part;
use crate::check::{About, Check, MM_SCALE, Per};
use crate::measure::{EdgePart, Measure, Situation};
use crate::{Harm, Setting, Subject, check_name, words};
use geometry::Occluder;

/// The least lip of a seated disc away from the hinges of its face.
///
/// Lip: how far the disc reaches past the opening's edge. Reduced model: the
/// opening keeps its form, and the disc stays round.
pub(super) struct Hold;

impl Check for Hold {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::RIM_OVERLAP,
            title: "rim overlap",
            short: "rim overlap",
            scale: MM_SCALE,
            per: Per::Face(|face| Measure::Lip(face, EdgePart::Away)),
            harm: |_| Harm::Embolisation,
            below: Some("edge bare"),
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, _: &Setting, occluder: &Occluder, of: Subject) -> bool {
        of.face().is_some_and(|face| occluder.disc(face).is_some())
    }

    fn says(&self, of: Subject, at: &Situation, value: f64) -> String {
        let part = of
            .face()
            .map_or("disc", |face| part::part(&at.size.occluder, face));
        if value < 0.0 {
            format!("{part} ends {} inside the edge", words::mm(-value))
        } else {
            format!("{part} overlaps the rim by at least {}", words::mm(value))
        }
    }
}
