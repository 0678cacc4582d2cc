use super::{ExaminedCase, contradiction};
use crate::input::bears;
use crate::{Evidence, Ground, Line, Parameter};
use measurement::{Method, Unit};

/// Combined standard deviations from which two ways to one pressure disagree: those that
/// hold 95 % of a normal law.
const APART: f64 = 1.96;

/// Compares a pressure by a transducer with the same pressure from a jet.
pub(super) fn look(at: &ExaminedCase) -> Vec<Line> {
    at.input
        .evidence
        .iter()
        .filter(|one| bears(one.quantity) && one.quantity.unit() == Unit::MmHg)
        .filter_map(|one| against(at, one))
        .collect()
}

fn against(at: &ExaminedCase, one: &Evidence) -> Option<Line> {
    let Ground::Read(key, _) = &one.ground else {
        return None;
    };
    let least = at.limits.parameter(Parameter::PressureApart);
    let is_direct = |method| method == Method::Direct;
    let (_, other) = one.others.iter().find(|(other, fused)| {
        let combined = (one.sd * one.sd + fused.sd * fused.sd).sqrt();
        let apart = (one.value - fused.value).abs();
        is_direct(other.method) != is_direct(key.method)
            && apart >= least
            && apart >= APART * combined
    })?;
    let (direct, worked_out) = if is_direct(key.method) {
        (one.value, other.value)
    } else {
        (other.value, one.value)
    };
    Some(
        contradiction(
            &format!("echo_against_catheter.{}", one.quantity.address()),
            "echo against catheter",
            format!(
                "{}: {direct:.0} mmHg by a transducer, {worked_out:.0} mmHg worked out from a jet: \
             they were not read at the same time, or one of them is wrong",
                one.quantity
            ),
            "common practice, no source",
        )
        .on(&[one.quantity]),
    )
}
