use super::{ExaminedCase, contradiction, leaves_out};
use crate::{Figure, Figures, Line, Parameter};
use measurement::Quantity;

/// A resistance of a report against the one that pressures and flow give.
pub(super) fn look(at: &ExaminedCase) -> Vec<Line> {
    const RESISTANCES: [(&str, Figure, Figure, Quantity); 2] = [
        (
            "PVRi",
            Figure::PulmonaryResistanceIndexed,
            Figure::PulmonaryResistanceReported,
            Quantity::PULMONARY_RESISTANCE_INDEXED,
        ),
        (
            "SVRi",
            Figure::SystemicResistanceIndexed,
            Figure::SystemicResistanceReported,
            Quantity::SYSTEMIC_RESISTANCE_INDEXED,
        ),
    ];
    let each = RESISTANCES.into_iter();
    each.filter_map(|(name, worked_out, reported, quantity)| {
        let nominal = &at.drawn.nominal;
        let pair = nominal.get(worked_out).zip(nominal.get(reported))?;
        let difference =
            |figures: &Figures| Some(figures.get(worked_out)? - figures.get(reported)?);
        // Where nothing was drawn the factor between two ways to one figure serves.
        let interval = at.drawn.interval_of(difference);
        let is_apart = if interval.is_some() {
            leaves_out(interval, 0.0)
        } else {
            let factor = at.limits.parameter(Parameter::RatioFactor);
            pair.0.max(pair.1) >= factor * pair.0.min(pair.1)
        };
        is_apart.then(|| line(name, pair, quantity))
    })
    .collect()
}

fn line(name: &str, (worked_out, reported): (f64, f64), quantity: Quantity) -> Line {
    contradiction(
        &format!("reported.{}", quantity.address()),
        "resistance as reported",
        format!(
            "{name} is {worked_out:.1} WU·m² by the pressures and flow of the case and \
             {reported:.1} WU·m² as reported: the report rests on another oxygen uptake or \
             pressure, is not indexed to body surface, or was not taken in one state"
        ),
        "common practice, no source",
    )
    .on(&[quantity])
}
