//! Flows and their ratio, by oxygen and by Doppler.

use super::{Figures, read};
use crate::{Circumstances, Figure};
use measurement::{Cm, GPerDl, LPerMinM2, MlPerMinM2, Mm, MmHg, Percent, Values};
use physiology::{
    Blood, DopplerTract, Flows, OxygenConstants, SUPPLEMENTAL, Samples, VenousSamples,
    doppler_qp_qs, flows, oxygen_content, qp_qs_by_saturations,
};

/// The saturation that stands for mixed venous blood.
fn mixed_venous(values: &Values, at: &Circumstances) -> Option<Percent> {
    let saturation = |address| read(values, address).map(Percent);
    at.mixed_venous.of(VenousSamples {
        superior_cava: saturation("superior_vena_cava.saturation"),
        inferior_cava: saturation("inferior_vena_cava.saturation"),
        right_atrium: saturation("right_atrium.saturation"),
    })
}

/// Saturations at the four places: for a pulmonary vein that was not entered the
/// left atrium or ventricle stands, for an aorta the left ventricle.
pub(crate) fn samples(values: &Values, at: &Circumstances) -> Option<Samples<Percent>> {
    let first = |addresses: &[&str]| addresses.iter().find_map(|one| read(values, one));
    Some(Samples {
        aorta: Percent(first(&["aorta.saturation", "left_ventricle.saturation"])?),
        mixed_venous: mixed_venous(values, at)?,
        pulmonary_vein: Percent(first(&[
            "pulmonary_vein.saturation",
            "left_atrium.saturation",
            "left_ventricle.saturation",
        ])?),
        pulmonary_artery: Percent(read(values, "pulmonary_artery.saturation")?),
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
    let dissolved = read(values, "patient.inspired_oxygen")
        .is_some_and(|inspired| Percent(inspired) > SUPPLEMENTAL);
    let by_oxygen = match (&fick, dissolved) {
        (Some(fick), true) => Some(fick.qp_qs().value()),
        _ => by_saturations,
    };
    let qp_qs = by_oxygen
        .or(by_doppler)
        .or_else(|| read(values, "flow.qp_qs"));
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
    let haemoglobin = GPerDl(read(values, "blood.haemoglobin")?);
    let uptake = MlPerMinM2(read(values, "patient.oxygen_uptake")?);
    let saturation = samples(values, at)?;
    let tension = |address| read(values, address).map(MmHg);
    let content = |saturation, address| {
        let blood = Blood {
            saturation,
            tension: tension(address),
        };
        oxygen_content(haemoglobin, blood, OxygenConstants::USUAL)
    };
    let contents = Samples {
        aorta: content(saturation.aorta, "aorta.oxygen_tension"),
        mixed_venous: content(saturation.mixed_venous, "superior_vena_cava.oxygen_tension"),
        pulmonary_vein: content(saturation.pulmonary_vein, "pulmonary_vein.oxygen_tension"),
        pulmonary_artery: content(
            saturation.pulmonary_artery,
            "pulmonary_artery.oxygen_tension",
        ),
    };
    flows(uptake, contents).ok()
}

/// Qp:Qs by Doppler, where a heart rate that both share drops out.
fn by_doppler(values: &Values) -> Option<f64> {
    let tract = |diameter, integral| {
        Some(DopplerTract {
            diameter: Mm(read(values, diameter)?),
            velocity_integral: Cm(read(values, integral)?),
        })
    };
    let aortic = tract("aorta.diameter", "aorta.velocity_integral")?;
    let pulmonary = tract(
        "pulmonary_artery.diameter",
        "pulmonary_artery.velocity_integral",
    )?;
    Some(doppler_qp_qs(pulmonary, aortic).value())
}
