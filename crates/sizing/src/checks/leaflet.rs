use super::{need, reach};
use crate::check::{About, Check, Id, Lanes, Measure, Nominal, Per, SHARE_SCALE, UNREAD};
use crate::{Harm, Setting, Subject, face_of, words};
use geometry::Occluder;
use measurement::{Quantity, Unit};

/// The share of an atrioventricular leaflet that the shape lies on: how far it
/// reaches past the hinge over the leaflet's length.
///
/// Reduced model: the leaflet lies flat on the wall, as a septal one does in
/// diastole.
pub(super) struct Leaflet;

impl Check for Leaflet {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("leaflet"),
            title: "leaflet covered",
            unit: Unit::Share,
            scale: SHARE_SCALE,
            per: Per::Valve,
            harm: Harm::to_valve,
            below: None,
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
        need::both(need::hinge(valve), Quantity::leaflet(valve))
    }

    fn measure(&self, of: Subject) -> Option<Measure> {
        of.valve().map(Measure::LeafletCovered)
    }

    fn fill(&self, of: Subject, lanes: &Lanes, values: &mut [f64]) {
        let Subject::Valve(valve) = of else { return };
        lanes.each(values, |anatomy, seat| {
            let index = valve.index();
            let reach = reach::past_edge(lanes.occluder(), seat, anatomy, valve);
            match (anatomy.rims[index], anatomy.leaflets[index]) {
                (Some(rim), Some(length)) => ((reach - rim) / length).clamp(0.0, 1.0),
                _ => UNREAD,
            }
        });
    }

    fn says(&self, of: Subject, nominal: &Nominal, value: f64) -> String {
        let Subject::Valve(valve) = of else {
            return String::new();
        };
        let part = reach::part(&nominal.size.occluder, face_of(valve));
        format!(
            "{part} would lie on {} of the {} leaflet",
            words::percent(value),
            valve.label()
        )
    }
}
