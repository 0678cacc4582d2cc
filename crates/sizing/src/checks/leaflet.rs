use super::part;
use crate::check::{About, Check, Per, SHARE_SCALE};
use crate::measure::{Measure, Situation};
use crate::{Harm, Setting, Subject, check_name, face_of, words};
use geometry::Occluder;

/// The share of an atrioventricular leaflet that the shape lies on: how far it
/// reaches past the hinge over the leaflet's length.
///
/// Reduced model: the leaflet lies flat on the wall, as a septal one does in
/// diastole.
pub(super) struct Leaflet;

impl Check for Leaflet {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::LEAFLET,
            title: "leaflet covered",
            short: "leaflet",
            scale: SHARE_SCALE,
            per: Per::Valve(Measure::LeafletCovered),
            harm: Harm::to_valve,
            below: None,
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
        format!(
            "{part} would lie on {} of the {} leaflet",
            words::percent(value),
            valve.label()
        )
    }
}
