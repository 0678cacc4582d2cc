use crate::{Evidence, Ground, Input, KnownContradiction, Limits, MixedVenous, Parameter, Workup};
use measurement::{
    Answer, Estimate, Finding, Fused, GroupKey, Joint, Law, Method, Modality, Phase, Quantity,
    Side, Site,
};

/// A quantity, its value and its standard deviation.
type Read = (Quantity, f64, f64);

const fn group(method: Method) -> GroupKey {
    GroupKey {
        side: Side::Within,
        phase: Phase::Systole,
        method,
    }
}

fn evidence(&(quantity, value, sd): &Read) -> Evidence {
    Evidence {
        quantity,
        value,
        sd,
        ground: Ground::Read(group(Method::Direct), vec![Modality::Catheter]),
        others: Vec::new(),
        is_disputed: false,
    }
}

fn case(read: &[Read]) -> Input {
    let law = |&(quantity, mean, sd): &Read| Estimate::alone(quantity, Law::Normal { mean, sd });
    Input {
        title: String::new(),
        site: Site::CentralPerimembranous,
        evidence: read.iter().map(evidence).collect(),
        joint: Joint::new(read.iter().map(law).collect(), Vec::new()),
        findings: [
            (Finding::OtherLesion, Answer::No),
            (Finding::Cyanosis, Answer::No),
        ]
        .into(),
        notes: Vec::new(),
        contradictions: Vec::new(),
    }
}

/// The shipped parameters, each at its place.
fn limits() -> Limits {
    let value = |parameter| match parameter {
        Parameter::AdultFrom => 18.0,
        Parameter::SystoleShare => 0.5,
        Parameter::MeanOverPeak => 0.7,
        Parameter::Discharge => 0.8,
        Parameter::FlowFactor => 2.0,
        Parameter::RatioFactor | Parameter::SmallShunt => 1.5,
        Parameter::PressureApart => 15.0,
        Parameter::LargeHeart => 3.0,
        Parameter::HeartOfUsualSize => 1.0,
        Parameter::LargeShunt => 2.5,
        Parameter::EarlyStepUp => 11.0,
        Parameter::NarrowArch => 20.0,
        Parameter::LeftStepDown => 5.0,
    };
    Limits {
        title: String::new(),
        parameters: Parameter::ALL
            .iter()
            .map(|info| (value(info.parameter), String::new()))
            .collect(),
        from_shipped: Vec::new(),
        mixed_venous: MixedVenous::SuperiorCava,
        children: Vec::new(),
        adults: Vec::new(),
        questions: Vec::new(),
        ways: Vec::new(),
    }
}

/// The ids and sentences of what does not add up.
fn said(input: &Input, draws: usize) -> Vec<(String, String)> {
    let page = Workup::new(input, &limits(), draws, 1).expect("draws");
    let section = page.section("contradictions").expect("a section");
    assert_eq!(section.says.is_empty(), !section.lines.is_empty());
    let lines = section.lines.iter();
    lines
        .map(|line| (line.id.clone(), line.note.clone()))
        .collect()
}

fn ids_in(input: &Input, draws: usize) -> Vec<String> {
    said(input, draws).into_iter().map(|(id, _)| id).collect()
}

fn ids(read: &[Read], draws: usize) -> Vec<String> {
    ids_in(&case(read), draws)
}

const NONE: [&str; 0] = [];

#[test]
fn what_was_found_before_stands_first_and_nothing_found_is_said() {
    assert_eq!(ids(&[], 0), NONE);
    let mut input = case(&[
        (Quantity::AORTA_MEAN, 90.0, 1.0),
        (Quantity::AORTA_SYSTOLIC, 60.0, 1.0),
    ]);
    input.contradictions.push(KnownContradiction {
        id: "rim".into(),
        label: "a rim",
        says: "two rims".into(),
    });
    assert_eq!(ids_in(&input, 0), ["rim", "out_of_order.aorta.mean"]);
}

/// Over by the least difference and by 95 % of a normal law, √(σ₁² + σ₂²) combined.
#[test]
fn pressures_are_out_of_order_from_15_mmhg_and_from_196_deviations() {
    let mean = |over: f64, sd: [f64; 2]| {
        ids(
            &[
                (Quantity::PULMONARY_ARTERY_MEAN, 40.0 + over, sd[0]),
                (Quantity::PULMONARY_ARTERY_SYSTOLIC, 40.0, sd[1]),
            ],
            0,
        )
    };
    let found = ["out_of_order.pulmonary_artery.mean"];
    assert_eq!(mean(15.0, [1.0, 1.0]), found);
    assert_eq!(mean(14.9, [1.0, 1.0]), NONE);
    assert_eq!(mean(-30.0, [1.0, 1.0]), NONE);
    // 1.96 · √(6² + 8²) = 19.6; one deviation alone would ask for 11.8 or 15.7.
    for sd in [[6.0, 8.0], [8.0, 6.0]] {
        assert_eq!(mean(19.7, sd), found);
        assert_eq!(mean(19.5, sd), NONE);
    }
    let pair = |lower, higher| ids(&[(lower, 80.0, 1.0), (higher, 50.0, 1.0)], 0).len();
    for (lower, higher) in [
        (
            Quantity::PULMONARY_ARTERY_DIASTOLIC,
            Quantity::PULMONARY_ARTERY_MEAN,
        ),
        (
            Quantity::PULMONARY_ARTERY_SYSTOLIC,
            Quantity::RIGHT_VENTRICLE_SYSTOLIC,
        ),
        (Quantity::AORTA_DIASTOLIC, Quantity::AORTA_MEAN),
        (Quantity::AORTA_MEAN, Quantity::AORTA_SYSTOLIC),
        (Quantity::LEFT_ATRIUM_MEAN, Quantity::PULMONARY_ARTERY_MEAN),
    ] {
        assert_eq!(pair(lower, higher), 1);
        assert_eq!(pair(higher, lower), 0);
    }
}

#[test]
fn a_transducer_and_a_jet_disagree_from_15_mmhg_and_from_196_deviations() {
    let said = |methods: [Method; 2], jet: f64, sd: [f64; 2]| {
        let mut input = case(&[(Quantity::RIGHT_VENTRICLE_SYSTOLIC, 40.0, sd[0])]);
        input.evidence[0].ground = Ground::Read(group(methods[0]), vec![Modality::Catheter]);
        input.evidence[0].others.push((
            group(methods[1]),
            Fused {
                value: jet,
                sd: sd[1],
                weights: vec![1.0],
                birge: 1.0,
                dispute: None,
            },
        ));
        said(&input, 0)
    };
    let found = |jet, sd| {
        let lines = said([Method::Direct, Method::Derived], jet, sd);
        assert!(lines.len() <= 1);
        lines
            .iter()
            .any(|(id, _)| id == "echo_against_catheter.right_ventricle.systolic")
    };
    for (jet, sd, expected) in [
        (55.0, [1.0, 1.0], true),
        (25.0, [1.0, 1.0], true),
        (54.9, [1.0, 1.0], false),
        (25.1, [1.0, 1.0], false),
        (59.7, [6.0, 8.0], true),
        (59.5, [8.0, 6.0], false),
        (59.5, [6.0, 8.0], false),
    ] {
        assert_eq!(found(jet, sd), expected, "{jet} {sd:?}");
    }
    // Two of one kind are a matter of the readings alone, and each keeps its name.
    let sure = [1.0, 1.0];
    assert!(said([Method::Direct, Method::Direct], 80.0, sure).is_empty());
    assert!(said([Method::Derived, Method::Doppler], 80.0, sure).is_empty());
    for methods in [
        [Method::Direct, Method::Derived],
        [Method::Derived, Method::Direct],
    ] {
        let lines = said(methods, 80.0, sure);
        let (transducer, jet) = if methods[0] == Method::Direct {
            (40, 80)
        } else {
            (80, 40)
        };
        let expected = format!("{transducer} mmHg by a transducer, {jet} mmHg worked out");
        assert!(lines[0].1.contains(&expected), "{lines:?}");
    }
    // A length by two methods is no pressure.
    let mut length = case(&[(Quantity::DEFECT_LONG_AXIS, 5.0, 0.1)]);
    let other = Fused {
        value: 50.0,
        sd: 0.1,
        weights: vec![1.0],
        birge: 1.0,
        dispute: None,
    };
    length.evidence[0]
        .others
        .push((group(Method::Derived), other));
    assert_eq!(ids_in(&length, 0), NONE);
}

/// 90 − 4 · 3² = 54 mmHg behind the defect; 5 + 4 · 3.5² = 54 before the tricuspid jet.
#[test]
fn a_jet_stands_against_the_pressure_that_was_measured() {
    let defect = |measured: f64| {
        vec![
            (Quantity::AORTA_SYSTOLIC, 90.0, 1.0),
            (Quantity::DEFECT_VELOCITY, 3.0, 0.02),
            (Quantity::RIGHT_VENTRICLE_SYSTOLIC, measured, 1.0),
        ]
    };
    let tricuspid = |measured: f64| {
        vec![
            (Quantity::RIGHT_ATRIUM_MEAN, 5.0, 0.1),
            (Quantity::RIGHT_VENTRICLE_VELOCITY, 3.5, 0.02),
            (Quantity::RIGHT_VENTRICLE_SYSTOLIC, measured, 1.0),
        ]
    };
    for draws in [0, 1024] {
        for (measured, expected) in [(39.0, 1), (69.0, 1), (39.1, 0), (68.9, 0), (54.0, 0)] {
            assert_eq!(
                ids(&defect(measured), draws).len(),
                expected,
                "{measured} {draws}"
            );
            assert_eq!(
                ids(&tricuspid(measured), draws).len(),
                expected,
                "{measured} {draws}"
            );
        }
    }
    let sum = &said(&case(&defect(30.0)), 0)[0];
    assert_eq!(sum.0, "pressure_behind_defect");
    assert!(sum.1.starts_with("90 − 4 × 3.0² = 54 mmHg"), "{}", sum.1);
    let sum = &said(&case(&tricuspid(30.0)), 0)[0];
    assert_eq!(sum.0, "pressure_before_tricuspid_jet");
    assert!(sum.1.starts_with("5 + 4 × 3.5² = 54 mmHg"), "{}", sum.1);
    // Twenty apart, but within the doubt of the jet (8 · 3 · 0.6 = 14 for each deviation),
    // or within that and a deviation of the pressure together.
    let mut unsure = defect(34.0);
    unsure[1].2 = 0.6;
    assert_eq!(ids(&unsure, 1024), NONE);
    unsure[1].2 = 0.3;
    assert_eq!(ids(&unsure, 1024).len(), 1);
    unsure[2].2 = 10.0;
    assert_eq!(ids(&unsure, 1024), NONE);
    // As far on the other side.
    unsure[2] = (Quantity::RIGHT_VENTRICLE_SYSTOLIC, 74.0, 10.0);
    assert_eq!(ids(&unsure, 1024), NONE);
    unsure[2].2 = 1.0;
    assert_eq!(ids(&unsure, 1024).len(), 1);
}

/// Qp:Qs by oxygen (100 − 60)/(100 − 80) = 2 against one that was entered, and steps.
#[test]
fn two_ways_to_one_ratio_disagree_from_the_factor_on() {
    let oxygen = |sd: f64, as_read: f64| {
        vec![
            (Quantity::AORTA_SATURATION, 100.0, 0.0),
            (Quantity::PULMONARY_VEIN_SATURATION, 100.0, 0.0),
            (Quantity::SUPERIOR_VENA_CAVA_SATURATION, 60.0, 0.0),
            (Quantity::PULMONARY_ARTERY_SATURATION, 80.0, sd),
            (Quantity::FLOW_QP_QS, as_read, 0.1),
        ]
    };
    for (as_read, expected) in [
        (3.0, true),
        (1.3, true),
        (2.9, false),
        (1.4, false),
        (2.0, false),
    ] {
        let found = ids(&oxygen(0.5, as_read), 0);
        assert_eq!(found == ["ratio_as_read"], expected, "{as_read} {found:?}");
        assert_eq!(found.is_empty(), !expected, "{as_read} {found:?}");
    }
    // A pulmonary saturation of 80 ± 0.5 % leaves 3 out, one of ± 8 % does not.
    assert_eq!(ids(&oxygen(0.5, 3.0), 1024), ["ratio_as_read"]);
    assert_eq!(ids(&oxygen(8.0, 3.0), 1024), NONE);
}

/// Doppler: (20 mm/20 mm)² · 24 cm/12 cm = 2 against saturations that give 3.
#[test]
fn doppler_and_saturations_disagree_from_the_factor_on() {
    let found = |integral: f64, sd: f64, draws| {
        ids(
            &[
                (Quantity::AORTA_SATURATION, 100.0, 0.0),
                (Quantity::PULMONARY_VEIN_SATURATION, 100.0, 0.0),
                (Quantity::SUPERIOR_VENA_CAVA_SATURATION, 70.0, 0.0),
                (Quantity::PULMONARY_ARTERY_SATURATION, 90.0, 0.1),
                (Quantity::AORTA_DIAMETER, 20.0, 0.0),
                (Quantity::PULMONARY_ARTERY_DIAMETER, 20.0, sd),
                (Quantity::AORTA_VELOCITY_INTEGRAL, 12.0, 0.1),
                (Quantity::PULMONARY_ARTERY_VELOCITY_INTEGRAL, integral, 0.1),
            ],
            draws,
        )
    };
    for (integral, expected) in [(23.9, true), (24.1, false), (53.9, false), (54.1, true)] {
        assert_eq!(
            found(integral, 0.1, 0) == ["two_ratios"],
            expected,
            "{integral}"
        );
    }
    assert_eq!(found(20.0, 0.1, 1024), ["two_ratios"]);
    // A diameter counts twice: ± 5 of 20 mm leave nothing out.
    assert_eq!(found(20.0, 5.0, 1024), NONE);
}

/// 160 mL/min/m² over 1.36 · 12 g/dL · 10 · (100 % − 80 %) are 4.9 L/min/m²; 30 mmHg over
/// that are 6.12 WU·m². Haycock's surface at 12 kg and 85 cm is 0.54 m².
fn flows() -> Vec<Read> {
    vec![
        (Quantity::BLOOD_HAEMOGLOBIN, 12.0, 0.0),
        (Quantity::PATIENT_OXYGEN_UPTAKE, 160.0, 1.0),
        (Quantity::AORTA_SATURATION, 100.0, 0.0),
        (Quantity::PULMONARY_VEIN_SATURATION, 100.0, 0.0),
        (Quantity::SUPERIOR_VENA_CAVA_SATURATION, 60.0, 0.0),
        (Quantity::PULMONARY_ARTERY_SATURATION, 80.0, 0.1),
        (Quantity::PATIENT_WEIGHT, 12.0, 0.0),
        (Quantity::PATIENT_HEIGHT, 85.0, 0.0),
    ]
}

#[test]
fn a_reported_resistance_stands_against_the_one_worked_out() {
    let found = |reported: f64, sd: f64, draws| {
        let mut read = flows();
        read.extend([
            (Quantity::PULMONARY_ARTERY_MEAN, 40.0, 0.1),
            (Quantity::LEFT_ATRIUM_MEAN, 10.0, 0.1),
            (Quantity::PULMONARY_RESISTANCE_INDEXED, reported, sd),
        ]);
        said(&case(&read), draws)
    };
    // Nothing drawn: the factor of 1.5, 9.18 and 4.08.
    for (reported, expected) in [(9.3, 1), (9.0, 0), (6.1, 0), (4.2, 0), (4.0, 1)] {
        let lines = found(reported, 0.1, 0);
        assert_eq!(lines.len(), expected, "{reported} {lines:?}");
    }
    // Drawn: whether the difference leaves out 0.
    for (reported, sd, expected) in [(7.0, 0.1, 1), (5.2, 0.1, 1), (7.0, 1.0, 0), (9.3, 3.0, 0)] {
        let lines = found(reported, sd, 1024);
        assert_eq!(lines.len(), expected, "{reported} {sd} {lines:?}");
    }
    let line = &found(12.0, 0.1, 0)[0];
    assert_eq!(line.0, "reported.flow.pulmonary_resistance_indexed");
    assert!(line.1.starts_with("PVRi is 6.1 WU·m²"), "{}", line.1);
    assert!(line.1.contains("12.0 WU·m² as reported"), "{}", line.1);
}

/// Left to right are 4.9 − 2.45 L/min/m², 1.3 L/min; what passes a hole is by its area.
#[test]
fn a_shunt_and_the_hole_it_comes_through_agree_within_the_factor() {
    let found = |axis: f64, sd: f64, draws| {
        let mut read = flows();
        read.extend([
            (Quantity::DEFECT_LONG_AXIS, axis, sd),
            (Quantity::DEFECT_SHORT_AXIS, axis, sd),
            (Quantity::DEFECT_VELOCITY, 4.0, 0.01),
        ]);
        said(&case(&read), draws)
    };
    // 0.8 · 30 s of systole in a minute · 4 m/s · √0.7 are 8.03 L/min for each cm².
    let axis = |flow: f64| 10.0 * (4.0 * flow / 8.03 / std::f64::consts::PI).sqrt();
    let surface = 0.5401;
    let shunt = 160.0 / 1.36 / 120.0 * (1.0 / 0.2 - 1.0 / 0.4) * surface;
    for (share, expected) in [(0.48, 1), (0.52, 0), (1.0, 0), (1.9, 0), (2.1, 1)] {
        let lines = found(axis(shunt * share), 0.01, 0);
        assert_eq!(lines.len(), expected, "{share} {lines:?}");
        let means = if share < 1.0 {
            "too small, or there"
        } else {
            "too large, or sat"
        };
        assert!(
            lines
                .iter()
                .all(|(id, says)| id == "flow_against_hole" && says.contains(means))
        );
    }
    assert_eq!(found(axis(shunt * 2.5), 0.05, 1024).len(), 1);
    assert_eq!(found(axis(shunt * 2.5), 2.0, 1024).len(), 0);
}

#[test]
fn a_step_is_told_from_its_least_on_and_where_nothing_else_explains_it() {
    let right = |atrium: f64| {
        case(&[
            (Quantity::RIGHT_ATRIUM_SATURATION, atrium, 1.0),
            (Quantity::SUPERIOR_VENA_CAVA_SATURATION, 60.0, 1.0),
        ])
    };
    let left = |aorta: f64| {
        case(&[
            (Quantity::PULMONARY_VEIN_SATURATION, 98.0, 1.0),
            (Quantity::AORTA_SATURATION, aorta, 1.0),
        ])
    };
    assert_eq!(ids_in(&right(71.0), 0), ["step_before_the_ventricle"]);
    assert_eq!(ids_in(&right(70.9), 0), NONE);
    assert_eq!(ids_in(&left(93.0), 0), ["step_down_on_the_left"]);
    assert_eq!(ids_in(&left(93.1), 0), NONE);
    for answer in [Answer::Yes, Answer::Unknown] {
        let mut right = right(80.0);
        right.findings.insert(Finding::OtherLesion, answer);
        assert_eq!(ids_in(&right, 0), NONE, "{answer:?}");
        let mut left = left(80.0);
        left.findings.insert(Finding::Cyanosis, answer);
        assert_eq!(ids_in(&left, 0), NONE, "{answer:?}");
    }
}

/// A child of 12 kg and 85 cm, whose left ventricle has z 0 near 29 mm (Lopez 2017: 3.89 cm · BSA^0.45, from memory).
#[test]
fn the_heart_and_the_shunt_explain_each_other() {
    let found = |ventricle: f64, qp_qs: f64, sd: [f64; 2], draws| {
        ids(
            &[
                (Quantity::PATIENT_WEIGHT, 12.0, 0.0),
                (Quantity::PATIENT_HEIGHT, 85.0, 0.0),
                (Quantity::LEFT_VENTRICLE_DIAMETER, ventricle, sd[0]),
                (Quantity::FLOW_QP_QS, qp_qs, sd[1]),
            ],
            draws,
        )
    };
    let sure = [0.1, 0.01];
    let large = ["large_heart_small_shunt"];
    let usual = ["large_shunt_usual_heart"];
    for draws in [0, 1024] {
        assert_eq!(found(50.0, 1.2, sure, draws), large);
        assert_eq!(found(50.0, 1.5, sure, draws), NONE);
        assert_eq!(found(50.0, 3.0, sure, draws), NONE);
        assert_eq!(found(29.0, 1.2, sure, draws), NONE);
        assert_eq!(found(29.0, 2.5, sure, draws), usual);
        assert_eq!(found(29.0, 2.4, sure, draws), NONE);
        assert_eq!(found(38.0, 2.5, sure, draws), NONE);
    }
    // What is not sure of one of the two does not stand against the other.
    assert_eq!(found(50.0, 1.2, [12.0, 0.01], 1024), NONE);
    assert_eq!(found(50.0, 1.2, [0.1, 0.9], 1024), NONE);
    assert_eq!(found(29.0, 2.6, [6.0, 0.01], 1024), NONE);
    assert_eq!(found(29.0, 2.6, [0.1, 0.8], 1024), NONE);
}
