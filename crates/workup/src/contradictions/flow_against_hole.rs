use super::{ExaminedCase, contradiction, leaves_out};
use crate::{Figure, Line, Parameter};
use measurement::{LPerMin, Quantity, Ratio};
use physiology::DefectFlowAndShunt;

/// Compares the shunt with the flow that a defect of this size lets through at this
/// gradient.
pub(super) fn look(at: &ExaminedCase) -> Vec<Line> {
    against(at).into_iter().collect()
}

fn against(at: &ExaminedCase) -> Option<Line> {
    let shunt = at.drawn.nominal.get(Figure::Shunt)?;
    let through_hole = at.drawn.nominal.get(Figure::FlowThroughHole)?;
    let both = DefectFlowAndShunt {
        through_defect: LPerMin(through_hole),
        shunt: LPerMin(shunt),
    };
    let factor = Ratio(at.limits.parameter(Parameter::FlowFactor));
    let sure = leaves_out(at.drawn.interval(Figure::ShuntOverHole), 1.0);
    if !both.disagree(factor) || !sure {
        return None;
    }
    let means = if shunt > through_hole {
        "the defect was measured too small, or there is another, or the shunt is elsewhere"
    } else {
        "the defect was measured too large, or saturations or uptake hide a part of the shunt"
    };
    Some(
        contradiction(
            "flow_against_hole",
            "flow against defect size",
            format!(
                "the hole lets {through_hole:.2} L/min through at this gradient, and a shunt of \
             {shunt:.2} L/min was found: {means}"
            ),
            Figure::FlowThroughHole.info().source,
        )
        .on(&[Quantity::DEFECT_LONG_AXIS, Quantity::DEFECT_SHORT_AXIS]),
    )
}
