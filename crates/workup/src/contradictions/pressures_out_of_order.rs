use super::{Looked, found};
use crate::remark::label;
use crate::{Evidence, Line, Parameter};
use measurement::Quantity;

/// Pairs of pressures of which the first cannot be the higher.
const ORDER: [(&str, &str); 6] = [
    ("pulmonary_artery.diastolic", "pulmonary_artery.mean"),
    ("pulmonary_artery.mean", "pulmonary_artery.systolic"),
    ("pulmonary_artery.systolic", "right_ventricle.systolic"),
    ("aorta.diastolic", "aorta.mean"),
    ("aorta.mean", "aorta.systolic"),
    ("left_atrium.mean", "pulmonary_artery.mean"),
];

/// Combined standard deviations by which they must be out of order.
const APART: f64 = 1.96;

/// Pressures that no circulation has at one time.
pub(super) fn look(at: &Looked) -> Vec<Line> {
    ORDER
        .into_iter()
        .filter_map(|(lower, higher)| against(at, lower, higher))
        .collect()
}

fn against(at: &Looked, lower: &str, higher: &str) -> Option<Line> {
    let read = |address| -> Option<&Evidence> { at.input.read(Quantity::from_address(address)?) };
    let (one, other) = (read(lower)?, read(higher)?);
    let combined = (one.sd * one.sd + other.sd * other.sd).sqrt();
    let over = one.value - other.value;
    let least = at.limits.parameter(Parameter::PressureApart);
    (over >= least && over >= APART * combined).then(|| {
        found(
            &format!("out_of_order.{lower}"),
            "pressures out of order",
            format!(
                "{} {:.0} mmHg is over {} {:.0} mmHg: another state, a damped line, or a slip",
                label(lower),
                one.value,
                label(higher),
                other.value
            ),
            "common practice, no source",
        )
        .on(&[lower, higher])
    })
}
