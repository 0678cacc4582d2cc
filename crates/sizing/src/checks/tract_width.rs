use super::need;
use super::reach;
use super::tract_share::{side, stands_in_tract};
use crate::check::{About, Check, Id, Lanes, MM_SCALE, Measure, Nominal, Per, UNREAD};
use crate::{Harm, Setting, Subject, words};
use geometry::{Occluder, Vec2};
use measurement::{Quantity, Unit};

/// How much wider the outflow tract is than the disc: 2 `ρ_t` − 2R.
///
/// A stiff disc wider than its tract cannot lie flat in it. `ρ_t` is the radius
/// of the round tract of the same area.
pub(super) struct TractWidth;

impl Check for TractWidth {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::OfFace("tract_width_left", "tract_width_right"),
            title: "outflow over disc",
            unit: Unit::Mm,
            scale: MM_SCALE,
            per: Per::Face,
            harm: Harm::to_outflow,
            below: Some("disc too wide"),
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, _: &Occluder, of: Subject) -> bool {
        of.face().is_some_and(|face| stands_in_tract(setting, face))
    }

    fn needs(&self, _: &Setting, _: &Occluder, of: Subject) -> Vec<Quantity> {
        let Some(face) = of.face() else {
            return Vec::new();
        };
        need::both(need::throat(), need::tract(face))
    }

    fn measure(&self, of: Subject) -> Option<Measure> {
        of.face().map(Measure::TractRoom)
    }

    fn fill(&self, of: Subject, lanes: &Lanes, values: &mut [f64]) {
        let Some(face) = of.face() else { return };
        lanes.each(values, |anatomy, seat| {
            let disc = seat.disc(lanes.occluder(), face, 0.0, Vec2::ZERO);
            anatomy.tracts[face.index()].map_or(UNREAD, |tract| {
                2.0 * (tract.effective_radius() - disc.radius)
            })
        });
    }

    fn says(&self, of: Subject, nominal: &Nominal, value: f64) -> String {
        let Some(face) = of.face() else {
            return String::new();
        };
        format!(
            "{} outflow is {} than the stiff {}",
            side(face),
            words::by(value, "wider", "narrower"),
            reach::part(&nominal.size.occluder, face),
        )
    }
}
