use super::need;
use super::tract_share::{open_share, section, side, stands_in_tract};
use crate::check::{About, Check, Id, Lanes, MMHG_SCALE, Measure, Nominal, Per, UNREAD};
use crate::house_rules::Parameter;
use crate::{Anatomy, Harm, Setting, Subject};
use geometry::{Face, Occluder};
use measurement::{MPerS, Quantity, Unit};
use physiology::{cost_of_narrowing, is_closed};

/// The peak gradient that the shape costs in an outflow tract after closure.
///
/// On the right the flow falls by Qs/Qp, on the left it rises by the house's
/// rule; where Qp:Qs was not read no fall is counted. Reduced model: a jet at
/// rest through the open share, contracted after Weisbach.
pub(super) struct TractGradient;

impl Check for TractGradient {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::OfFace("tract_gradient_left", "tract_gradient_right"),
            title: "outflow gradient",
            unit: Unit::MmHg,
            scale: MMHG_SCALE,
            per: Per::Face,
            harm: Harm::to_outflow,
            below: None,
            aside: Some("at rest; effort and tachycardia raise it"),
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
        need::both(
            section(face),
            [match face {
                Face::Left => Quantity::LEFT_OUTFLOW_VELOCITY,
                Face::Right => Quantity::RIGHT_OUTFLOW_VELOCITY,
            }],
        )
    }

    fn measure(&self, of: Subject) -> Option<Measure> {
        of.face().map(Measure::TractGradient)
    }

    fn moved_by(&self, _: &Setting, of: Subject) -> Vec<Quantity> {
        match of.face() {
            Some(Face::Right) => vec![Quantity::FLOW_QP_QS],
            _ => Vec::new(),
        }
    }

    fn fill(&self, of: Subject, lanes: &Lanes, values: &mut [f64]) {
        let Some(face) = of.face() else { return };
        let setting = lanes.setting;
        lanes.each(values, |anatomy, seat| {
            velocity_after(setting, anatomy, face).map_or(UNREAD, |velocity| {
                cost_of_narrowing(
                    velocity,
                    open_share(lanes, anatomy, seat, face),
                    setting.parameter(Parameter::Contraction),
                    setting.parameter(Parameter::LeastOpenShare),
                )
                .value()
            })
        });
    }

    fn says(&self, of: Subject, nominal: &Nominal, value: f64) -> String {
        let Some(face) = of.face() else {
            return String::new();
        };
        let Some(velocity) = velocity_after(nominal.setting, nominal.anatomy(), face) else {
            return String::new();
        };
        let setting = nominal.setting;
        let side = side(face);
        let share = open_share(&nominal.lanes(), nominal.anatomy(), nominal.seat, face);
        let contraction = setting.parameter(Parameter::Contraction);
        if is_closed(
            share,
            contraction,
            setting.parameter(Parameter::LeastOpenShare),
        ) {
            return format!("{side} outflow closed: no gradient can be given");
        }
        let assumed = match (face, nominal.anatomy().qp_qs) {
            (Face::Right, None) => ", no fall of flow counted: Qp:Qs was not read",
            _ => "",
        };
        format!(
            "costs {value:.0} mmHg in the {side} outflow at {:.1} m/s after closure{assumed}",
            velocity.value()
        )
    }
}

/// Peak velocity in a tract once the shunt is gone.
pub(crate) fn velocity_after(setting: &Setting, anatomy: &Anatomy, face: Face) -> Option<MPerS> {
    let factor = match face {
        Face::Left => setting.parameter(Parameter::SystemicRise),
        Face::Right => anatomy.qp_qs.map_or(1.0, |qp_qs| 1.0 / qp_qs),
    };
    anatomy.velocities[face.index()].map(|velocity| velocity * factor)
}
