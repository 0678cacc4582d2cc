//! The flow that the defect lets through, and the shunt over it.

use super::{Figures, read};
use crate::{Circumstances, Figure};
use measurement::{BeatsPerMin, LPerMin, MPerS, Mm, MmHg, Quantity, Ratio, Seconds, Values};
use physiology::{DefectFlowAndShunt, FlowTime, circle, orifice_flow, simplified_bernoulli};

/// A beat of one second: the share of systole is what counts.
const BEAT: BeatsPerMin = BeatsPerMin(60.0);

pub(super) fn set(figures: &mut Figures, values: &Values, at: &Circumstances) {
    let through_hole = through_hole(values, at);
    figures.set(Figure::FlowThroughHole, through_hole.map(LPerMin::value));
    let ratio = through_hole
        .zip(figures.get(Figure::Shunt))
        .and_then(|(through_hole, shunt)| {
            let shunt = LPerMin(shunt);
            DefectFlowAndShunt {
                through_defect: through_hole,
                shunt,
            }
            .ratio()
        });
    figures.set(Figure::ShuntOverHole, ratio.map(Ratio::value));
}

/// The flow through the defect, whose area is that of a circle with √(long · short axis).
fn through_hole(values: &Values, at: &Circumstances) -> Option<LPerMin> {
    let major = read(values, Quantity::DEFECT_LONG_AXIS)?;
    let minor = read(values, Quantity::DEFECT_SHORT_AXIS).unwrap_or(major);
    let area = circle(Mm((major * minor).sqrt()));
    let time = FlowTime {
        rate: BEAT,
        period: Seconds(at.systole_share),
    };
    let mean = MmHg(peak_gradient(values)?.value() * at.mean_over_peak);
    orifice_flow(area, mean, time, Ratio(at.discharge))
}

/// The peak gradient between the ventricles: by their pressures, else by the jet.
fn peak_gradient(values: &Values) -> Option<MmHg> {
    read(values, Quantity::LEFT_VENTRICLE_SYSTOLIC)
        .zip(read(values, Quantity::RIGHT_VENTRICLE_SYSTOLIC))
        .map(|(left, right)| MmHg((left - right).max(0.0)))
        .or_else(|| {
            read(values, Quantity::DEFECT_VELOCITY).map(|jet| simplified_bernoulli(MPerS(jet)))
        })
}
