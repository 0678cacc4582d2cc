use super::part;
use crate::check::{About, Check, MM_SCALE, Per};
use crate::measure::{Measure, Situation, past_edge};
use crate::{Harm, Subject, check_name, face_of, words};
use measurement::Valve;

/// The signed clearance of the shape from a valve's annulus and closed cusps.
///
/// Positive apart, zero touching, negative overlapping or past it. Reduced
/// model: the annulus is a flat plate hinged at the wall, at rest.
pub(super) struct Clearance;

impl Check for Clearance {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::CLEARANCE,
            title: "clearance",
            short: "clearance",
            scale: MM_SCALE,
            per: Per::Valve(Measure::Clearance),
            harm: Harm::to_valve,
            below: Some("contact"),
            aside: None,
        };
        &ABOUT
    }

    fn says(&self, of: Subject, at: &Situation, value: f64) -> String {
        let Subject::Valve(valve) = of else {
            return String::new();
        };
        let beside = match valve {
            Valve::Aortic => rim_rule(at),
            Valve::Mitral | Valve::Tricuspid => "; says nothing of chordae".into(),
            Valve::Pulmonary => String::new(),
        };
        let name = if value < 0.0 { "contact" } else { "clearance" };
        format!(
            "{}; {name} {}{beside}",
            in_the_wall(at, valve),
            words::mm(value.abs())
        )
    }
}

/// Rim and reach in the plane of the wall, where an operator measures them.
fn in_the_wall(at: &Situation, valve: Valve) -> String {
    let occluder = &at.size.occluder;
    let anatomy = at.anatomy;
    let rim = anatomy.rims[valve].unwrap_or(0.0);
    let reach = past_edge(occluder, at.seat, anatomy, valve);
    let part = part::part(occluder, face_of(valve));
    let hinge = valve.label().trim_end_matches(" valve");
    let verb = if reach > rim {
        format!("reaches {} past the {hinge} hinge", words::mm(reach - rim))
    } else {
        format!("ends {} short of the {hinge} hinge", words::mm(rim - reach))
    };
    let reaches = if reach < 0.0 {
        format!("{} short of the edge", words::mm(-reach))
    } else {
        format!("reach past the edge {}", words::mm(reach))
    };
    format!("{part} {verb}: rim {}, {reaches}", words::mm(rim))
}

/// The rim that a source asks for at the site, and whether the one measured is over
/// it.
fn rim_rule(at: &Situation) -> String {
    let setting = at.setting;
    let offset = at.size.occluder.is_offset();
    let rule = setting
        .rules()
        .rim_rules
        .iter()
        .find(|rule| rule.offset_discs == offset && rule.sites.contains(&setting.case().site));
    let rim = setting.anatomy().rims[Valve::Aortic];
    rule.zip(rim).map_or_else(String::new, |(rule, rim)| {
        let agrees = if rim > rule.least_rim {
            "holds"
        } else {
            "does not hold"
        };
        format!(
            "; the rim rule of a secondary source (over {}) {agrees}",
            words::mm(rule.least_rim)
        )
    })
}
