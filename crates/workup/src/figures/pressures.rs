//! Resistances, and the right ventricular pressure by jets.

use super::{Figures, read};
use crate::{Circumstances, Figure};
use measurement::{LPerMinM2, MPerS, MmHg, Quantity, Values, WoodM2};
use physiology::{BehindDefect, JetRefused, before_tricuspid_jet, resistance};

/// Systemic systolic pressure: of the aorta, else of the left ventricle.
pub(crate) fn systemic_systolic(values: &Values) -> Option<MmHg> {
    read(values, Quantity::AORTA_SYSTOLIC)
        .or_else(|| read(values, Quantity::LEFT_VENTRICLE_SYSTOLIC))
        .map(MmHg)
}

/// Mean pressure downstream of the lungs: of the left atrium, else the wedge.
pub(crate) fn left_atrial(values: &Values) -> Option<MmHg> {
    read(values, Quantity::LEFT_ATRIUM_MEAN)
        .or_else(|| read(values, Quantity::PULMONARY_WEDGE_MEAN))
        .map(MmHg)
}

/// Mean pressures before and behind the lungs.
pub(crate) fn across_lungs(values: &Values) -> Option<(MmHg, MmHg)> {
    let before = read(values, Quantity::PULMONARY_ARTERY_MEAN).map(MmHg);
    before.zip(left_atrial(values))
}

/// Mean pressures before and behind the body.
pub(crate) fn across_body(values: &Values) -> Option<(MmHg, MmHg)> {
    let mean = |quantity| read(values, quantity).map(MmHg);
    mean(Quantity::AORTA_MEAN).zip(mean(Quantity::RIGHT_ATRIUM_MEAN))
}

/// Right ventricular systolic pressure behind the defect, where its jet and a
/// systemic pressure were measured.
pub(crate) fn behind_defect(
    values: &Values,
    at: &Circumstances,
) -> Option<Result<BehindDefect, JetRefused>> {
    let jet = MPerS(read(values, Quantity::DEFECT_VELOCITY)?);
    Some(physiology::behind_defect(
        systemic_systolic(values)?,
        jet,
        at.left_side,
    ))
}

pub(super) fn set(figures: &mut Figures, values: &Values, at: &Circumstances) {
    let behind = behind_defect(values, at)
        .and_then(Result::ok)
        .map(|behind| behind.pressure.value());
    figures.set(Figure::PressureBehindDefect, behind);
    let before = read(values, Quantity::RIGHT_ATRIUM_MEAN)
        .zip(read(values, Quantity::RIGHT_VENTRICLE_VELOCITY))
        .map(|(atrial, jet)| before_tricuspid_jet(MmHg(atrial), MPerS(jet)).value());
    figures.set(Figure::PressureBeforeTricuspidJet, before);

    let lungs = read(values, Quantity::PULMONARY_ARTERY_SYSTOLIC)
        .or_else(|| read(values, Quantity::RIGHT_VENTRICLE_SYSTOLIC))
        .or(behind)
        .or(before);
    let ratio = lungs
        .zip(systemic_systolic(values))
        .map(|(lungs, body)| lungs / body.value());
    figures.set(Figure::PressureRatio, ratio);

    let (across_lungs, across_body) = (across_lungs(values), across_body(values));
    // Pressures and flow go before a report, also where they give no resistance.
    let over = |across: Option<(MmHg, MmHg)>, flow, reported| match (across, figures.get(flow)) {
        (Some((upstream, downstream)), Some(flow)) => {
            let worked_out = resistance(upstream, downstream, LPerMinM2(flow));
            worked_out.ok().map(WoodM2::value)
        }
        _ => reported,
    };
    let of_lungs = read(values, Quantity::PULMONARY_RESISTANCE_INDEXED);
    let of_body = read(values, Quantity::SYSTEMIC_RESISTANCE_INDEXED);
    let pulmonary = over(across_lungs, Figure::PulmonaryFlow, of_lungs);
    let systemic = over(across_body, Figure::SystemicFlow, of_body);
    let absolute = pulmonary
        .zip(figures.get(Figure::BodySurface))
        .map(|(indexed, surface)| indexed / surface);
    // Rp:Rs needs no flow, only how the flows stand to each other.
    let ratio = across_lungs
        .zip(across_body)
        .zip(figures.get(Figure::QpQs))
        .map(|((lungs, body), qp_qs)| ((lungs.0 - lungs.1) / (body.0 - body.1)).value() / qp_qs)
        .filter(|ratio| *ratio >= 0.0)
        .or_else(|| Some(pulmonary? / systemic?));
    let after = pulmonary
        .zip(figures.get(Figure::SystemicFlow))
        .zip(left_atrial(values))
        .map(|((indexed, flow), atrial)| (atrial + LPerMinM2(flow) * WoodM2(indexed)).value());
    figures.set(Figure::PressureAfterClosing, after);
    figures.set(Figure::PulmonaryResistanceIndexed, pulmonary);
    figures.set(Figure::PulmonaryResistance, absolute);
    figures.set(Figure::SystemicResistanceIndexed, systemic);
    figures.set(Figure::PulmonaryResistanceReported, of_lungs);
    figures.set(Figure::SystemicResistanceReported, of_body);
    figures.set(Figure::ResistanceRatio, ratio);
}
