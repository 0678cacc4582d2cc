//! Oxygen, flows and resistances: published fragments and a worked shunt.
//!
//! Formulas by Rao 2022, Vessel Plus 6:24, doi 10.20517/2574-1209.2021.91; oxygen
//! uptake by LaFarge and Miettinen 1970, doi 10.1093/cvr/4.1.23; the binding of
//! oxygen by Dijkhuizen 1977, doi 10.1007/BF00582188. The worked shunt is made up,
//! and was worked from these formulas outside this project to six decimals.

#![expect(clippy::unwrap_used, reason = "what fails here fails a test")]

use measurement::{
    BeatsPerMin, GPerDl, LPerMin, LPerMinM2, MlPerMin, MlPerMinM2, MmHg, Percent, SquareMetres,
    Wood, WoodM2, Years,
};
use physiology::{
    Blood, Flows, Hufner, MixedVenous, OxygenConstants, Samples, Sex, Solubility, VenousSamples,
    assumed_uptake, flows, oxygen_capacity, oxygen_content, qp_qs_by_saturations, resistance,
};
use proptest::prelude::*;

/// Half the last decimal printed.
const PRINTED: f64 = 5e-7;

#[track_caller]
fn near(got: f64, wanted: f64, tolerance: f64) {
    assert!((got - wanted).abs() <= tolerance, "{got}, not {wanted}");
}

const VENOUS: VenousSamples<Percent> = VenousSamples {
    superior_cava: Some(Percent(65.0)),
    inferior_cava: Some(Percent(70.0)),
    right_atrium: None,
};

const HAEMOGLOBIN: GPerDl = GPerDl(12.0);

const UPTAKE: MlPerMinM2 = MlPerMinM2(160.0);

const SURFACE: SquareMetres = SquareMetres(0.40);

fn saturations(choice: MixedVenous) -> Samples<Percent> {
    Samples {
        aorta: Percent(98.0),
        mixed_venous: choice.of(VENOUS).unwrap(),
        pulmonary_vein: Percent(98.0),
        pulmonary_artery: Percent(85.0),
    }
}

fn worked(choice: MixedVenous, hufner: Hufner) -> Flows<LPerMinM2> {
    let constants = OxygenConstants {
        hufner,
        solubility: Solubility::Rounded,
    };
    let contents = saturations(choice)
        .map(|saturation| oxygen_content(HAEMOGLOBIN, Blood::saturated(saturation), constants));
    flows(UPTAKE, contents).unwrap()
}

/// The worked shunt, by (3 SVC + IVC) / 4.
#[test]
fn flows_of_the_worked_shunt() {
    let mixed = MixedVenous::BothCavae.of(VENOUS).unwrap();
    assert_eq!(mixed, Percent(66.25));
    near(
        oxygen_capacity(HAEMOGLOBIN, Hufner::Ml136).value(),
        163.2,
        PRINTED,
    );
    let flows = worked(MixedVenous::BothCavae, Hufner::Ml136);
    near(flows.pulmonary.value(), 7.541_478, PRINTED);
    near(flows.systemic.value(), 3.087_849, PRINTED);
    near(flows.effective.value(), 3.087_849, PRINTED);
    near(flows.left_to_right().value(), 4.453_629, PRINTED);
    near(flows.right_to_left().value(), 0.0, PRINTED);
    near(flows.qp_qs().value(), 2.442_308, PRINTED);
    near((flows.pulmonary * SURFACE).value(), 3.016_591, PRINTED);
}

/// By the superior caval vein alone the ratio is another; by another Hüfner's
/// number the flow, and not the ratio.
#[test]
fn choices_that_must_be_printed() {
    let superior = worked(MixedVenous::SuperiorCava, Hufner::Ml136);
    near(superior.qp_qs().value(), 2.538_462, PRINTED);
    let hufner = worked(MixedVenous::BothCavae, Hufner::Ml134);
    near(hufner.pulmonary.value(), 7.654_038, PRINTED);
    near(hufner.qp_qs().value(), 2.442_308, PRINTED);
}

/// The worked shunt's resistances, and the known slip: to index is to multiply.
#[test]
fn resistances_of_the_worked_shunt() {
    let flows = worked(MixedVenous::BothCavae, Hufner::Ml136);
    let indexed: WoodM2 = resistance(MmHg(35.0), MmHg(9.0), flows.pulmonary).unwrap();
    let systemic: WoodM2 = resistance(MmHg(60.0), MmHg(4.0), flows.systemic).unwrap();
    near(indexed.value(), 3.447_600, PRINTED);
    near(systemic.value(), 18.135_600, PRINTED);
    near((indexed / systemic).value(), 0.190_101, PRINTED);

    let absolute: Wood = resistance(MmHg(35.0), MmHg(9.0), flows.pulmonary * SURFACE).unwrap();
    near(absolute.value(), 8.619, 5e-4);
    near((absolute * SURFACE).value(), 3.447_600, PRINTED);
    let slip = absolute.value() / SURFACE.value();
    assert!(slip > 6.0 * indexed.value(), "{slip}");
}

/// Common practice, no source: haemoglobin 15 g/dL carries 20.4 mL/dL, 19.99 at
/// 98 %, 16.32 at 80 %, 12.24 at 60 %; 14 g/dL carries 190 mL/L, 133 at 70 %.
#[test]
fn published_contents() {
    let content = |haemoglobin, saturation| {
        let blood = Blood::saturated(Percent(saturation));
        oxygen_content(GPerDl(haemoglobin), blood, OxygenConstants::USUAL).value()
    };
    for (saturation, per_decilitre) in [(100.0, 20.4), (98.0, 19.99), (80.0, 16.32), (60.0, 12.24)]
    {
        near(content(15.0, saturation) / 10.0, per_decilitre, 0.005);
    }
    near(content(14.0, 100.0), 190.0, 0.5);
    near(content(14.0, 70.0), 133.0, 0.5);
}

/// LaFarge and Miettinen, Cardiovasc Res 1970;4:23, doi 10.1093/cvr/4.1.23 (from
/// memory), worked outside this project.
#[test]
fn assumed_oxygen_uptake() {
    let uptake = |sex, age, rate| {
        let assumed = assumed_uptake(sex, Years(age), BeatsPerMin(rate)).unwrap();
        assumed.formula.value()
    };
    near(uptake(Sex::Male, 3.0, 110.0), 167.056_945, PRINTED);
    near(uptake(Sex::Male, 10.0, 80.0), 141.883_297, PRINTED);
    near(uptake(Sex::Female, 3.0, 110.0), 160.959_647, PRINTED);
    near(uptake(Sex::Female, 10.0, 80.0), 129.103_950, PRINTED);
}

proptest! {
    /// Without dissolved oxygen the ratio of the flows is that of the saturations.
    #[test]
    fn by_flows_is_by_saturations_without_dissolved_oxygen(
        aorta in 75.0..100.0_f64,
        mixed in 40.0..74.0_f64,
        vein in 93.0..100.0_f64,
        artery in 50.0..92.0_f64,
        haemoglobin in 6.0..20.0_f64,
        uptake in 20.0..300.0_f64,
    ) {
        let saturations = Samples {
            aorta: Percent(aorta),
            mixed_venous: Percent(mixed),
            pulmonary_vein: Percent(vein),
            pulmonary_artery: Percent(artery),
        };
        for hufner in Hufner::ALL {
            let constants = OxygenConstants { hufner, solubility: Solubility::Warm };
            let contents = saturations.map(|saturation| {
                oxygen_content(GPerDl(haemoglobin), Blood::saturated(saturation), constants)
            });
            let by_flows: Flows<LPerMin> = flows(MlPerMin(uptake), contents).unwrap();
            let by_saturations = qp_qs_by_saturations(saturations, Some(Percent(21.0))).unwrap();
            let share = by_flows.qp_qs().value() / by_saturations.qp_qs.value();
            // Contents near 100 subtracted down to 1: 100 roundings of 2⁻⁵³, some times.
            prop_assert!((share - 1.0).abs() < 1e-12, "{share}");
        }
    }
}
