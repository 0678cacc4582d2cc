use super::conduction_excess::{LATE_BLOCK, arc};
use crate::check::{About, Check, Id, Lanes, MM_SCALE, Measure, Nominal, Per};
use crate::{Harm, Setting, Subject, words};
use geometry::{Face, Mm, Occluder};
use measurement::Quantity;

/// The overhang of the wider disc where the bundle runs: a stiff wide disc
/// presses on it.
pub(super) struct ConductionDisc;

impl Check for ConductionDisc {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("conduction_disc"),
            title: "AV block risk, stiff disc",
            unit: "mm",
            scale: MM_SCALE,
            per: Per::Shape,
            harm: |_| Harm::AvBlock,
            below: None,
            aside: LATE_BLOCK,
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, occluder: &Occluder, _: Subject) -> bool {
        setting.danger_arc().is_some() && widest_overhang(occluder).is_some()
    }

    fn needs(&self, _: &Setting, _: &Occluder, _: Subject) -> Vec<Quantity> {
        Vec::new()
    }

    fn measure(&self, _: Subject) -> Option<Measure> {
        Some(Measure::OfShape)
    }

    fn fill(&self, _: Subject, lanes: &Lanes, values: &mut [f64]) {
        values.fill(widest_overhang(lanes.occluder()).unwrap_or(0.0));
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

/// Overhang of the wider disc.
fn widest_overhang(occluder: &Occluder) -> Option<Mm> {
    Face::BOTH
        .iter()
        .filter_map(|&face| occluder.overhang(face))
        .reduce(f64::max)
}
