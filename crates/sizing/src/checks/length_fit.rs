use super::need;
use crate::check::{About, Check, Id, Lanes, MM_SCALE, Measure, Nominal, Per};
use crate::{Harm, Setting, Subject, words};
use geometry::{Occluder, Seat};
use measurement::{Quantity, Unit};

/// How much longer the squeezed waist is than the wall is thick: s = L' − T.
///
/// Positive: slack, the discs stand off. Negative: the waist is stretched.
/// Reduced model: the wires do not stretch, and a waist squeezed by the hole
/// grows longer as a braid does.
pub(super) struct LengthFit;

impl Check for LengthFit {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("length_fit"),
            title: "length against wall",
            unit: Unit::Mm,
            scale: MM_SCALE,
            per: Per::Shape,
            harm: |_| Harm::Embolisation,
            below: Some("stretched"),
            aside: None,
        };
        &ABOUT
    }

    fn needs(&self, _: &Setting, _: &Occluder, _: Subject) -> Vec<Quantity> {
        need::slack()
    }

    fn measure(&self, _: Subject) -> Option<Measure> {
        Some(Measure::Slack)
    }

    fn fill(&self, _: Subject, lanes: &Lanes, values: &mut [f64]) {
        lanes.each(values, |_, seat| Seat::slack(seat));
    }

    fn says(&self, _: Subject, nominal: &Nominal, value: f64) -> String {
        let free = nominal.size.occluder.waist.length;
        let wall = nominal.anatomy().defect.wall;
        let squeezed = wall + value;
        let grown = if squeezed - free >= 0.05 {
            format!(
                "waist {} long, {} once squeezed,",
                words::mm(free),
                words::mm(squeezed)
            )
        } else {
            format!("waist {} long", words::mm(free))
        };
        let against = if value < 0.0 {
            format!("is stretched by {}", words::mm(-value))
        } else {
            format!("leaves {} of slack", words::mm(value))
        };
        format!("{grown} {against} in a wall of {}", words::mm(wall))
    }
}
