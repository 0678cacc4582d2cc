use super::part;
use crate::check::{About, Check, MM_SCALE, Per};
use crate::measure::{Measure, Situation};
use crate::{Answer, Harm, Setting, Subject, check_name, face_of, words};
use geometry::Occluder;

/// How far the shape covers the edge where chordae insert, or may insert.
///
/// Where nobody looked for chordae the limits of the house say so.
pub(super) struct LeafletChordae;

impl Check for LeafletChordae {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::LEAFLET_CHORDAE,
            title: "chordae on the edge",
            short: "chordae",
            scale: MM_SCALE,
            per: Per::Valve(Measure::Reach),
            harm: Harm::to_valve,
            below: Some("clear of chordae"),
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, _: &Setting, _: &Occluder, of: Subject) -> bool {
        matches!(of, Subject::Valve(valve) if valve.is_atrioventricular())
    }

    fn says(&self, of: Subject, at: &Situation, value: f64) -> String {
        let Subject::Valve(valve) = of else {
            return String::new();
        };
        let part = part::part(&at.size.occluder, face_of(valve));
        let chordae = match at.setting.case().facts.chordae_on_edge(valve) {
            Answer::Yes => "chordae insert on the edge",
            Answer::No => "no chordae on the edge",
            Answer::Unknown => "nobody knows whether chordae insert on the edge",
        };
        format!(
            "{}: {chordae}; {part} covers it by {}",
            valve.label(),
            words::mm(value.max(0.0))
        )
    }
}
