use super::{need, reach};
use crate::check::{About, Check, Id, Lanes, MM_SCALE, Measure, Nominal, Per};
use crate::{Answer, Harm, Setting, Subject, face_of, words};
use geometry::Occluder;
use measurement::{Quantity, Unit};

/// How far the shape covers the edge where chordae insert, or may insert.
///
/// Where nobody looked for chordae the limits of the house say so.
pub(super) struct LeafletChordae;

impl Check for LeafletChordae {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("leaflet_chordae"),
            title: "chordae on the edge",
            unit: Unit::Mm,
            scale: MM_SCALE,
            per: Per::Valve,
            harm: Harm::to_valve,
            below: Some("clear of chordae"),
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, _: &Setting, _: &Occluder, of: Subject) -> bool {
        matches!(of, Subject::Valve(valve) if valve.is_atrioventricular())
    }

    fn needs(&self, _: &Setting, _: &Occluder, of: Subject) -> Vec<Quantity> {
        let Subject::Valve(valve) = of else {
            return Vec::new();
        };
        need::both(
            need::opening(face_of(valve)),
            [Quantity::clock_position(valve)],
        )
    }

    fn measure(&self, of: Subject) -> Option<Measure> {
        of.valve().map(Measure::Reach)
    }

    fn fill(&self, of: Subject, lanes: &Lanes, values: &mut [f64]) {
        let Subject::Valve(valve) = of else { return };
        lanes.each(values, |anatomy, seat| {
            reach::past_edge(lanes.occluder(), seat, anatomy, valve)
        });
    }

    fn says(&self, of: Subject, nominal: &Nominal, value: f64) -> String {
        let Subject::Valve(valve) = of else {
            return String::new();
        };
        let part = reach::part(&nominal.size.occluder, face_of(valve));
        let chordae = match nominal.setting.case().facts.chordae_on_edge(valve) {
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
