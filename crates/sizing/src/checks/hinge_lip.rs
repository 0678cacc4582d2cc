use super::part;
use crate::check::{About, Check, MM_SCALE, Per};
use crate::measure::{EdgePart, Measure, Situation, beside};
use crate::{Harm, Setting, Subject, check_name, words};
use geometry::Occluder;

/// The least lip of a seated disc within the arcs about the hinges of its face.
///
/// Where a disc must be short it still has to cover the edge.
pub(super) struct HingeLip;

impl Check for HingeLip {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::RIM_OVERLAP_TOWARD_VALVE,
            title: "rim overlap toward a valve",
            short: "rim overlap to valve",
            scale: MM_SCALE,
            per: Per::Face(|face| Measure::Lip(face, EdgePart::AtHinge)),
            harm: |_| Harm::Embolisation,
            below: Some("edge bare toward a valve"),
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, occluder: &Occluder, of: Subject) -> bool {
        of.face().is_some_and(|face| {
            occluder.disc(face).is_some() && beside(setting, face).next().is_some()
        })
    }

    fn says(&self, of: Subject, at: &Situation, value: f64) -> String {
        let part = of
            .face()
            .map_or("disc", |face| part::part(&at.size.occluder, face));
        if value < 0.0 {
            format!(
                "{part} leaves {} of the edge bare toward a valve",
                words::mm(-value)
            )
        } else {
            format!(
                "{part} overlaps the rim toward a valve by at least {}",
                words::mm(value)
            )
        }
    }
}
