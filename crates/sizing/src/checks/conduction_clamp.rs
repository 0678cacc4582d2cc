use super::conduction_excess::{LATE_BLOCK, arc};
use super::need;
use crate::check::{About, Check, Id, Lanes, MM_SCALE, Measure, Nominal, Per};
use crate::{Harm, Setting, Subject, words};
use geometry::Occluder;
use measurement::{Quantity, Unit};

/// How far a short waist is stretched where the bundle runs: the discs clamp the
/// wall by it.
pub(super) struct ConductionClamp;

impl Check for ConductionClamp {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("conduction_clamp"),
            title: "AV block risk, pinched wall",
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
        setting.danger_arc().is_some() && occluder.discs.iter().all(Option::is_some)
    }

    fn needs(&self, _: &Setting, _: &Occluder, _: Subject) -> Vec<Quantity> {
        need::slack()
    }

    fn measure(&self, _: Subject) -> Option<Measure> {
        Some(Measure::Clamp)
    }

    fn fill(&self, _: Subject, lanes: &Lanes, values: &mut [f64]) {
        lanes.each(values, |_, seat| (-seat.slack()).max(0.0));
    }

    fn says(&self, _: Subject, nominal: &Nominal, value: f64) -> String {
        format!(
            "AV block risk: the discs pinch the wall by {}, and the bundle runs along the edge {}",
            words::mm(value),
            arc(nominal)
        )
    }
}
