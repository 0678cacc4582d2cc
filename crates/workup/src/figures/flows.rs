//! Flows and their ratio, by oxygen and by Doppler.

use super::{Figures, read};
use crate::{Circumstances, Figure};
use measurement::{Cm, GPerDl, LPerMinM2, MlPerMinM2, Mm, MmHg, Percent, Quantity, Values};
use physiology::{
    Blood, DopplerTract, Flows, OxygenConstants, SUPPLEMENTAL, Samples, VenousSamples,
    doppler_qp_qs, flows, oxygen_content, qp_qs_by_saturations,
};

/// The saturation that stands for mixed venous blood.
fn mixed_venous(values: &Values, at: &Circumstances) -> Option<Percent> {
    let saturation = |quantity| read(values, quantity).map(Percent);
    at.mixed_venous.of(VenousSamples {
        superior_cava: saturation(Quantity::SUPERIOR_VENA_CAVA_SATURATION),
        inferior_cava: saturation(Quantity::INFERIOR_VENA_CAVA_SATURATION),
        right_atrium: saturation(Quantity::RIGHT_ATRIUM_SATURATION),
    })
}

/// The saturations at the four places. For a pulmonary vein that was not entered the left
/// atrium or ventricle counts, for the aorta the left ventricle.
pub(crate) fn samples(values: &Values, at: &Circumstances) -> Option<Samples<Percent>> {
    let first = |each: &[Quantity]| each.iter().find_map(|one| read(values, *one));
    Some(Samples {
        aorta: Percent(first(&[
            Quantity::AORTA_SATURATION,
            Quantity::LEFT_VENTRICLE_SATURATION,
        ])?),
        mixed_venous: mixed_venous(values, at)?,
        pulmonary_vein: Percent(first(&[
            Quantity::PULMONARY_VEIN_SATURATION,
            Quantity::LEFT_ATRIUM_SATURATION,
            Quantity::LEFT_VENTRICLE_SATURATION,
        ])?),
        pulmonary_artery: Percent(read(values, Quantity::PULMONARY_ARTERY_SATURATION)?),
    })
}

pub(super) fn set(figures: &mut Figures, values: &Values, at: &Circumstances) {
    let mixed = mixed_venous(values, at).map(Percent::value);
    figures.set(Figure::MixedVenous, mixed);
    let by_saturations = samples(values, at)
        .and_then(|samples| qp_qs_by_saturations(samples, None).ok())
        .map(|ratio| ratio.qp_qs.value());
    figures.set(Figure::QpQsBySaturations, by_saturations);
    let by_doppler = by_doppler(values);
    figures.set(Figure::QpQsByDoppler, by_doppler);

    let fick = by_fick(values, at);
    let dissolved = read(values, Quantity::PATIENT_INSPIRED_OXYGEN)
        .is_some_and(|inspired| Percent(inspired) > SUPPLEMENTAL);
    let by_oxygen = match (&fick, dissolved) {
        (Some(fick), true) => Some(fick.qp_qs().value()),
        _ => by_saturations,
    };
    let qp_qs = by_oxygen
        .or(by_doppler)
        .or_else(|| read(values, Quantity::FLOW_QP_QS));
    figures.set(Figure::QpQs, qp_qs);

    let Some(fick) = fick else { return };
    figures.set(Figure::PulmonaryFlow, Some(fick.pulmonary.value()));
    figures.set(Figure::SystemicFlow, Some(fick.systemic.value()));
    figures.set(Figure::EffectiveFlow, Some(fick.effective.value()));
    let left_to_right = fick.left_to_right().value();
    figures.set(Figure::LeftToRight, Some(left_to_right));
    figures.set(Figure::RightToLeft, Some(fick.right_to_left().value()));
    let surface = figures.get(Figure::BodySurface);
    figures.set(
        Figure::Shunt,
        surface.map(|surface| left_to_right * surface),
    );
}

/// Flows by oxygen uptake and contents.
fn by_fick(values: &Values, at: &Circumstances) -> Option<Flows<LPerMinM2>> {
    let haemoglobin = GPerDl(read(values, Quantity::BLOOD_HAEMOGLOBIN)?);
    let uptake = MlPerMinM2(read(values, Quantity::PATIENT_OXYGEN_UPTAKE)?);
    let saturation = samples(values, at)?;
    let tension = |quantity| read(values, quantity).map(MmHg);
    let content = |saturation, of_tension| {
        let blood = Blood {
            saturation,
            tension: tension(of_tension),
        };
        oxygen_content(haemoglobin, blood, OxygenConstants::USUAL)
    };
    let contents = Samples {
        aorta: content(saturation.aorta, Quantity::AORTA_OXYGEN_TENSION),
        mixed_venous: content(
            saturation.mixed_venous,
            Quantity::SUPERIOR_VENA_CAVA_OXYGEN_TENSION,
        ),
        pulmonary_vein: content(
            saturation.pulmonary_vein,
            Quantity::PULMONARY_VEIN_OXYGEN_TENSION,
        ),
        pulmonary_artery: content(
            saturation.pulmonary_artery,
            Quantity::PULMONARY_ARTERY_OXYGEN_TENSION,
        ),
    };
    flows(uptake, contents).ok()
}

/// Qp:Qs by Doppler. The heart rate, which both flows share, cancels out.
fn by_doppler(values: &Values) -> Option<f64> {
    let tract = |diameter, integral| {
        Some(DopplerTract {
            diameter: Mm(read(values, diameter)?),
            velocity_integral: Cm(read(values, integral)?),
        })
    };
    let aortic = tract(Quantity::AORTA_DIAMETER, Quantity::AORTA_VELOCITY_INTEGRAL)?;
    let pulmonary = tract(
        Quantity::PULMONARY_ARTERY_DIAMETER,
        Quantity::PULMONARY_ARTERY_VELOCITY_INTEGRAL,
    )?;
    Some(doppler_qp_qs(pulmonary, aortic).value())
}
