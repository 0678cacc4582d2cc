use crate::check::{About, Check, MM_SCALE, Per};
use crate::measure::{Measure, Situation};
use crate::{Harm, Subject, check_name, words};

/// How much longer the squeezed waist is than the wall is thick: s = L' − T.
///
/// Positive: slack, the discs stand off. Negative: the waist is stretched.
/// Reduced model: the wires do not stretch, and a waist squeezed by the hole
/// grows longer as a braid does.
pub(super) struct LengthFit;

impl Check for LengthFit {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::LENGTH_FIT,
            title: "length against wall",
            short: "length",
            scale: MM_SCALE,
            per: Per::Shape(Measure::Slack),
            harm: |_| Harm::Embolisation,
            below: Some("stretched"),
            aside: None,
        };
        &ABOUT
    }

    fn says(&self, _: Subject, at: &Situation, value: f64) -> String {
        let free = at.size.occluder.waist.length;
        let wall = at.anatomy.defect.wall;
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
