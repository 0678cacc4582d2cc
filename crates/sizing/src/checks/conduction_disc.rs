use super::conduction_excess::{LATE_BLOCK, arc};
use crate::check::{About, Check, Id, Lanes, MM_SCALE, Measure, Nominal, Per};
use crate::{Harm, Setting, Subject, words};
use geometry::{Face, Mm, Occluder};
use measurement::{Quantity, Unit};

/// How far a disc hangs past the waist where the bundle runs: a stiff wide disc
/// presses on it.
///
/// Of a disc off the axis it is the long side, whichever way it is turned: where it
/// comes to lie is not sure enough to count on the short one.
pub(super) struct ConductionDisc;

impl Check for ConductionDisc {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("conduction_disc"),
            title: "AV block risk, stiff disc",
            unit: Unit::Mm,
            scale: MM_SCALE,
            per: Per::Shape,
            harm: |_| Harm::AvBlock,
            below: None,
            aside: LATE_BLOCK,
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, occluder: &Occluder, _: Subject) -> bool {
        setting.danger_arc().is_some() && longest_overhang(occluder).is_some()
    }

    fn needs(&self, _: &Setting, _: &Occluder, _: Subject) -> Vec<Quantity> {
        Vec::new()
    }

    fn measure(&self, _: Subject) -> Option<Measure> {
        Some(Measure::OfShape)
    }

    fn fill(&self, _: Subject, lanes: &Lanes, values: &mut [f64]) {
        values.fill(longest_overhang(lanes.occluder()).unwrap_or(0.0));
    }

    fn says(&self, _: Subject, nominal: &Nominal, value: f64) -> String {
        format!(
            "AV block risk: a stiff disc hangs {} over the edge {} where the bundle runs, in a small \
             child",
            words::mm(value),
            arc(nominal)
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
