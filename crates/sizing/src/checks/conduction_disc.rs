use super::conduction_excess::{LATE_BLOCK, arc};
use crate::check::{About, Check, MM_SCALE, Per};
use crate::measure::{Measure, Situation};
use crate::{Harm, Setting, Size, Subject, check_name, words};
use geometry::{Face, Mm, Occluder};

/// How far a disc hangs past the waist where the bundle runs: a stiff wide disc
/// presses on it.
///
/// Of a disc off the axis it is the long side, whichever way it is turned: where it
/// comes to lie is not sure enough to count on the short one.
pub(super) struct ConductionDisc;

impl Check for ConductionDisc {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::AV_BLOCK_DISC,
            title: "AV block risk, stiff disc",
            short: "AV block risk",
            scale: MM_SCALE,
            per: Per::Shape(Measure::OfShape(disc_past_waist)),
            harm: |_| Harm::AvBlock,
            below: None,
            aside: LATE_BLOCK,
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, occluder: &Occluder, _: Subject) -> bool {
        setting.danger_arc().is_some() && longest_overhang(occluder).is_some()
    }

    fn says(&self, _: Subject, at: &Situation, value: f64) -> String {
        format!(
            "AV block risk: a stiff disc hangs {} over the edge {} where the bundle runs, in a small \
             child",
            words::mm(value),
            arc(at)
        )
    }
}

/// The longest overhang of both discs.
fn longest_overhang(occluder: &Occluder) -> Option<Mm> {
    Face::BOTH
        .iter()
        .filter_map(|&face| occluder.longest_overhang(face))
        .reduce(f64::max)
}

fn disc_past_waist(_: &Setting, size: &Size) -> Mm {
    longest_overhang(&size.occluder).unwrap_or(0.0)
}
