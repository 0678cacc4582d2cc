use super::{ExaminedCase, contradiction};
use crate::{Line, Parameter};
use measurement::Quantity;

/// Pairs of pressures, of which the first cannot be the higher.
const ORDER: [(Quantity, Quantity); 6] = [
    (
        Quantity::PULMONARY_ARTERY_DIASTOLIC,
        Quantity::PULMONARY_ARTERY_MEAN,
    ),
    (
        Quantity::PULMONARY_ARTERY_MEAN,
        Quantity::PULMONARY_ARTERY_SYSTOLIC,
    ),
    (
        Quantity::PULMONARY_ARTERY_SYSTOLIC,
        Quantity::RIGHT_VENTRICLE_SYSTOLIC,
    ),
    (Quantity::AORTA_DIASTOLIC, Quantity::AORTA_MEAN),
    (Quantity::AORTA_MEAN, Quantity::AORTA_SYSTOLIC),
    (Quantity::LEFT_ATRIUM_MEAN, Quantity::PULMONARY_ARTERY_MEAN),
];

/// The least combined standard deviations by which a pair is out of order.
const APART: f64 = 1.96;

/// Finds pressures that no circulation has at one time.
pub(super) fn look(at: &ExaminedCase) -> Vec<Line> {
    ORDER
        .into_iter()
        .filter_map(|(lower, higher)| against(at, lower, higher))
        .collect()
}

fn against(at: &ExaminedCase, lower: Quantity, higher: Quantity) -> Option<Line> {
    let (one, other) = (at.input.read(lower)?, at.input.read(higher)?);
    let combined = (one.sd * one.sd + other.sd * other.sd).sqrt();
    let over = one.value - other.value;
    let least = at.limits.parameter(Parameter::PressureApart);
    (over >= least && over >= APART * combined).then(|| {
        contradiction(
            &format!("out_of_order.{}", lower.address()),
            "pressures out of order",
            format!(
                "{} {:.0} mmHg is over {} {:.0} mmHg: another state, a damped line, or a slip",
                lower.label(),
                one.value,
                higher.label(),
                other.value
            ),
            "common practice, no source",
        )
        .on(&[lower, higher])
    })
}
