use super::{Looked, found};
use crate::figures::read;
use crate::{Line, Parameter};
use measurement::{Answer, Finding};

/// A step of saturation that this defect does not make.
pub(super) fn look(at: &Looked) -> Vec<Line> {
    let values = at.input.joint.nominal();
    let saturation = |address| read(&values, address);
    let mut lines = Vec::new();
    let step = |high: Option<f64>, low: Option<f64>| Some((high?, low?));
    if let Some((atrium, cava)) = step(
        saturation("right_atrium.saturation"),
        saturation("superior_vena_cava.saturation"),
    ) && atrium - cava >= at.limits.parameter(Parameter::EarlyStepUp)
        && at.input.finding(Finding::OtherLesion) == Answer::No
    {
        lines.push(found(
            "step_before_the_ventricle",
            "a step up before the ventricle",
            format!(
                "{atrium:.0} % in the right atrium against {cava:.0} % in the superior vena cava, \
                 and no other lesion is said to be there: look for a defect between the atria, a \
                 vein that goes astray, or a jet into the atrium"
            ),
            "common practice, no source",
        )
        .on(&["right_atrium.saturation", "superior_vena_cava.saturation", "flow.qp_qs"]));
    }
    if let Some((vein, aorta)) = step(
        saturation("pulmonary_vein.saturation"),
        saturation("aorta.saturation"),
    ) && vein - aorta >= at.limits.parameter(Parameter::LeftStepDown)
        && at.input.finding(Finding::Cyanosis) == Answer::No
    {
        lines.push(found(
            "step_down_on_the_left",
            "a step down on the left",
            format!(
                "{vein:.0} % in the pulmonary vein against {aorta:.0} % in the aorta, and no fall \
                 of saturation is said to be there: blood crosses from the right"
            ),
            "common practice, no source",
        )
        .on(&["pulmonary_vein.saturation", "aorta.saturation", "flow.qp_qs"]));
    }
    lines
}
