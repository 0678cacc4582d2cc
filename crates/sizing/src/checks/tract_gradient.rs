use super::tract_share::{side, stands_in_tract};
use crate::check::{About, Check, MMHG_SCALE, Per};
use crate::house_rules::Parameter;
use crate::measure::{Measure, Situation, open_share};
use crate::{Harm, Setting, Subject, check_name};
use geometry::{Face, Occluder};
use physiology::is_closed;

/// The peak gradient that the shape costs in an outflow tract after closure.
///
/// On the right the flow falls by Qs/Qp, on the left it rises by the house's
/// rule; where Qp:Qs was not measured no fall is counted. Reduced model: a jet at
/// rest through the open share, contracted after Weisbach.
pub(super) struct TractGradient;

impl Check for TractGradient {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::OUTFLOW_GRADIENT,
            title: "outflow gradient",
            short: "outflow",
            scale: MMHG_SCALE,
            per: Per::Face(Measure::TractGradient),
            harm: Harm::to_outflow,
            below: None,
            aside: Some("at rest; effort and tachycardia raise it"),
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, _: &Occluder, of: Subject) -> bool {
        of.face().is_some_and(|face| stands_in_tract(setting, face))
    }

    fn says(&self, of: Subject, at: &Situation, value: f64) -> String {
        let Some(face) = of.face() else {
            return String::new();
        };
        let Some(velocity) = at.anatomy.velocities_after[face] else {
            return String::new();
        };
        let setting = at.setting;
        let side = side(face);
        let share = open_share(at, face);
        let contraction = setting.parameter(Parameter::Contraction);
        if is_closed(
            share,
            contraction,
            setting.parameter(Parameter::LeastOpenShare),
        ) {
            return format!("{side} outflow closed: no gradient can be given");
        }
        let assumed = match (face, at.anatomy.qp_qs) {
            (Face::Right, None) => ", no fall of flow counted: Qp:Qs was not measured",
            _ => "",
        };
        format!(
            "costs {value:.0} mmHg in the {side} outflow at {:.1} m/s after closure{assumed}",
            velocity.value()
        )
    }
}
