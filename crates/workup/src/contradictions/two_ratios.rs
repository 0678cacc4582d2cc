use super::{ExaminedCase, contradiction, leaves_out};
use crate::figures::{Figures, read};
use crate::{Figure, Line, Parameter};
use measurement::Quantity;

/// Compares Qp:Qs by oxygen with that by Doppler, and with one that was entered.
pub(super) fn look(at: &ExaminedCase) -> Vec<Line> {
    let by_oxygen = at.drawn.nominal.get(Figure::QpQsBySaturations);
    let by_doppler = at.drawn.nominal.get(Figure::QpQsByDoppler);
    let as_read = read(&at.input.joint.nominal(), Quantity::FLOW_QP_QS);
    let factor = at.limits.parameter(Parameter::RatioFactor);
    let apart = |one: f64, other: f64| one.max(other) >= factor * one.min(other);
    let mut lines = Vec::new();
    if let Some((oxygen, doppler)) = by_oxygen.zip(by_doppler) {
        let ratio = at.drawn.interval_of(|figures: &Figures| {
            let oxygen = figures.get(Figure::QpQsBySaturations)?;
            Some(oxygen / figures.get(Figure::QpQsByDoppler)?)
        });
        if apart(oxygen, doppler) && leaves_out(ratio, 1.0) {
            lines.push(line("two_ratios", oxygen, doppler, "by Doppler"));
        }
    }
    if let Some((oxygen, as_read)) = by_oxygen.zip(as_read)
        && apart(oxygen, as_read)
        && leaves_out(at.drawn.interval(Figure::QpQsBySaturations), as_read)
    {
        lines.push(line("ratio_as_read", oxygen, as_read, "as measured"));
    }
    lines
}

fn line(id: &str, oxygen: f64, other: f64, way: &str) -> Line {
    contradiction(
        id,
        "two ways to Qp:Qs",
        format!(
            "{oxygen:.1} by saturations and {other:.1} {way}: a sample is not mixed, a diameter is \
             wrong (its error counts twice), or they were not taken in one state"
        ),
        "common practice, no source",
    )
    .on(&[Quantity::FLOW_QP_QS])
}
