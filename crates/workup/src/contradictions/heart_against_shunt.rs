use super::{ExaminedCase, contradiction, leaves_out};
use crate::{Figure, Line, Parameter};
use measurement::Quantity;

/// Finds a large heart with a small shunt, and a large shunt with a heart that is not
/// enlarged.
pub(super) fn look(at: &ExaminedCase) -> Vec<Line> {
    against(at).into_iter().collect()
}

fn against(at: &ExaminedCase) -> Option<Line> {
    let z = at.drawn.nominal.get(Figure::LeftVentricleZ)?;
    let qp_qs = at.drawn.nominal.get(Figure::QpQs)?;
    let limit = |parameter| at.limits.parameter(parameter);
    let of_z = |to| leaves_out(at.drawn.interval(Figure::LeftVentricleZ), to);
    let of_shunt = |to| leaves_out(at.drawn.interval(Figure::QpQs), to);
    let large_heart = limit(Parameter::LargeHeart);
    let usual = limit(Parameter::HeartOfUsualSize);
    let small_shunt = limit(Parameter::SmallShunt);
    let large_shunt = limit(Parameter::LargeShunt);
    if z >= large_heart && qp_qs < small_shunt && of_z(usual) && of_shunt(large_shunt) {
        return Some(
            contradiction(
                "large_heart_small_shunt",
                "a large heart with a small shunt",
                format!(
                    "left ventricle at z {z:+.1}, and Qp:Qs {qp_qs:.1}: the shunt does not explain \
                 the heart; look for a leaking valve, a duct, a narrow arch, a weak muscle"
                ),
                "common practice, no source",
            )
            .on(&[Quantity::LEFT_VENTRICLE_DIAMETER, Quantity::FLOW_QP_QS]),
        );
    }
    (z < usual && qp_qs >= large_shunt && of_z(large_heart) && of_shunt(small_shunt)).then(|| {
        contradiction(
            "large_shunt_usual_heart",
            "a large shunt without load on the left heart",
            format!(
                "Qp:Qs {qp_qs:.1}, and the left ventricle at z {z:+.1}: a sample was not mixed, \
                 the shunt is before the ventricle, or it is new"
            ),
            "common practice, no source",
        )
        .on(&[Quantity::LEFT_VENTRICLE_DIAMETER, Quantity::FLOW_QP_QS])
    })
}
