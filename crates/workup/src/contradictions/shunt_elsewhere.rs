use super::{ExaminedCase, contradiction};
use crate::figures::read;
use crate::{Line, Parameter};
use measurement::{Answer, Finding, Quantity};

/// Finds a step of saturation that this defect cannot make.
pub(super) fn look(at: &ExaminedCase) -> Vec<Line> {
    let values = at.input.joint.nominal();
    let saturation = |quantity| read(&values, quantity);
    let mut lines = Vec::new();
    let step = |high: Option<f64>, low: Option<f64>| Some((high?, low?));
    if let Some((atrium, cava)) = step(
        saturation(Quantity::RIGHT_ATRIUM_SATURATION),
        saturation(Quantity::SUPERIOR_VENA_CAVA_SATURATION),
    ) && atrium - cava >= at.limits.parameter(Parameter::EarlyStepUp)
        && at.input.finding(Finding::OtherLesion) == Answer::No
    {
        lines.push(contradiction(
            "step_before_the_ventricle",
            "a step up before the ventricle",
            format!(
                "{atrium:.0} % in the right atrium against {cava:.0} % in the superior vena cava, \
                 and no other lesion is said to be there: look for a defect between the atria, a \
                 vein that goes astray, or a jet into the atrium"
            ),
            "common practice, no source",
        )
        .on(&[Quantity::RIGHT_ATRIUM_SATURATION, Quantity::SUPERIOR_VENA_CAVA_SATURATION, Quantity::FLOW_QP_QS]));
    }
    if let Some((vein, aorta)) = step(
        saturation(Quantity::PULMONARY_VEIN_SATURATION),
        saturation(Quantity::AORTA_SATURATION),
    ) && vein - aorta >= at.limits.parameter(Parameter::LeftStepDown)
        && at.input.finding(Finding::Cyanosis) == Answer::No
    {
        lines.push(contradiction(
            "step_down_on_the_left",
            "a step down on the left",
            format!(
                "{vein:.0} % in the pulmonary vein against {aorta:.0} % in the aorta, and no fall \
                 of saturation is said to be there: blood crosses from the right"
            ),
            "common practice, no source",
        )
        .on(&[Quantity::PULMONARY_VEIN_SATURATION, Quantity::AORTA_SATURATION, Quantity::FLOW_QP_QS]));
    }
    lines
}
