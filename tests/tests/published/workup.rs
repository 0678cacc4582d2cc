//! The work-up against published figures and limits, and over the scenarios.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use measurement::Site;
use measurement::{Answer, Finding};
use outside::page::{line, of, page, state, value};
use outside::sample::shipped_limits;
use std::collections::BTreeSet;
use workup::{Figure, MixedVenous, State, Workup};

/// A worked example of our own, calculated outside the project: Hb 12, uptake 160, surface 0.40 m² (8 kg,
/// 70 cm: 0.399999 by Haycock), SVC 65, IVC 70, PA 85, PV and Ao 98 %, mean
/// pressures 35, 9, 60 and 4 mmHg.
const EXAMPLE: [(&str, f64); 14] = [
    ("patient.weight", 8.0),
    ("patient.height", 70.0),
    ("patient.age", 0.8),
    ("blood.haemoglobin", 12.0),
    ("patient.oxygen_uptake", 160.0),
    ("superior_vena_cava.saturation", 65.0),
    ("inferior_vena_cava.saturation", 70.0),
    ("pulmonary_artery.saturation", 85.0),
    ("pulmonary_vein.saturation", 98.0),
    ("aorta.saturation", 98.0),
    ("pulmonary_artery.mean", 35.0),
    ("left_atrium.mean", 9.0),
    ("aorta.mean", 60.0),
    ("right_atrium.mean", 4.0),
];

/// Digits that the constructed example gives.
const PRINTED: f64 = 1e-6;

fn close(found: Option<f64>, wanted: f64) {
    let found = found.expect("a figure");
    assert!(
        (found - wanted).abs() < PRINTED * wanted.abs().max(1.0),
        "{found} for {wanted}"
    );
}

#[test]
fn the_worked_example_of_shunt_and_resistance() {
    let mut limits = shipped_limits();
    let by_svc = page(of(Site::TrabecularMuscular, &EXAMPLE, &[]), &limits, 0);
    close(value(&by_svc, Figure::QpQs), 2.538_462);
    limits.mixed_venous = MixedVenous::BothCavae;
    let page = page(of(Site::TrabecularMuscular, &EXAMPLE, &[]), &limits, 0);
    for (figure, wanted) in [
        (Figure::MixedVenous, 66.25),
        (Figure::QpQs, 2.442_308),
        (Figure::PulmonaryFlow, 7.541_478),
        (Figure::SystemicFlow, 3.087_849),
        (Figure::EffectiveFlow, 3.087_849),
        (Figure::LeftToRight, 4.453_629),
        (Figure::PulmonaryResistanceIndexed, 3.447_600),
        (Figure::SystemicResistanceIndexed, 18.135_600),
        (Figure::ResistanceRatio, 0.190_101),
    ] {
        close(value(&page, figure), wanted);
    }
    // With Qp = Qs at the same resistance: 9 + 3.447600 × 3.087849 mmHg.
    close(
        value(&page, Figure::PressureAfterClosing),
        9.0 + 3.447_600 * 3.087_849,
    );
}

/// The absolute resistance of example A is 8.6 WU: over every adult's limit, in a
/// child whose indexed 3.4 WU·m² is under every child's.
#[test]
fn a_resistance_of_a_report_counts_where_none_can_be_worked_out() {
    let limits = shipped_limits();
    let reported = [
        ("flow.pulmonary_resistance_indexed", 3.0),
        ("flow.systemic_resistance_indexed", 15.0),
    ];
    let alone = page(of(Site::TrabecularMuscular, &reported, &[]), &limits, 0);
    close(value(&alone, Figure::PulmonaryResistanceIndexed), 3.0);
    close(value(&alone, Figure::SystemicResistanceIndexed), 15.0);
    close(value(&alone, Figure::ResistanceRatio), 0.2);
    // Pressures and flow go before it, and both are shown.
    let both: Vec<(&str, f64)> = EXAMPLE.into_iter().chain(reported).collect();
    let both = page(of(Site::TrabecularMuscular, &both, &[]), &limits, 0);
    close(value(&both, Figure::PulmonaryResistanceIndexed), 3.447_600);
    close(value(&both, Figure::PulmonaryResistanceReported), 3.0);
    close(value(&both, Figure::SystemicResistanceReported), 15.0);
}

#[test]
fn a_resistance_of_a_report_beyond_its_doubt_does_not_add_up() {
    let limits = shipped_limits();
    let id = "reported.flow.pulmonary_resistance_indexed";
    for draws in [0, 1024] {
        let contradicts = |reported: f64| {
            let reported = ("flow.pulmonary_resistance_indexed", reported);
            let both: Vec<(&str, f64)> = EXAMPLE.into_iter().chain([reported]).collect();
            let mut case = of(Site::TrabecularMuscular, &both, &[]);
            // A tenth of 3.5 WU·m²: a report is not exact.
            let last = case.readings.last_mut().expect("a reading");
            last.sd = Some(0.35);
            let page = page(case, &limits, draws);
            let section = page.section("contradictions").expect("a section");
            section.lines.iter().any(|line| line.id == id)
        };
        assert!(!contradicts(3.4) && contradicts(9.0), "{draws} draws");
    }
}

#[test]
fn an_adults_limit_is_never_held_against_a_child() {
    let limits = shipped_limits();
    let child = page(of(Site::TrabecularMuscular, &EXAMPLE, &[]), &limits, 0);
    assert_eq!(value(&child, Figure::PulmonaryResistance), None);
    assert_eq!(state(&child, "world_resistance_under_4"), Some(State::Met));
    assert_eq!(state(&child, "acc2025_close"), None);

    let mut grown = EXAMPLE;
    grown[2].1 = 30.0;
    let adult = page(of(Site::TrabecularMuscular, &grown, &[]), &limits, 0);
    // The example's own 3.4476 and 8.619 are with (3 SVC + IVC)/4, which changes Qs alone.
    close(
        value(&adult, Figure::PulmonaryResistance),
        3.447_600 / 0.399_999_044_3,
    );
    assert_eq!(state(&adult, "world_resistance_under_4"), None);
    assert_eq!(state(&adult, "acc2025_close"), Some(State::NotMet));
    let rows = |page: &Workup| -> BTreeSet<String> {
        let published = page.section("published").expect("a section");
        published.lines.iter().map(|line| line.id.clone()).collect()
    };
    assert!(rows(&child).is_disjoint(&rows(&adult)));
}

/// Lopez 2017 (doi 10.1161/CIRCIMAGING.117.006979), at 8 kg and 70 cm.
#[test]
fn z_scores_of_the_left_heart() {
    let mut readings = EXAMPLE.to_vec();
    readings.extend([("left_ventricle.diameter", 34.0), ("aortic.diameter", 10.5)]);
    let page = page(
        of(Site::TrabecularMuscular, &readings, &[]),
        &shipped_limits(),
        0,
    );
    close(value(&page, Figure::LeftVentricleZ), 3.773_155);
    close(value(&page, Figure::AorticAnnulusZ), 1.287_127);
}

/// 90 − 4 × 4.2² = 19.44 mmHg (Rao, Vessel Plus 2022;6:24, table 3); refused where outflow or arch is
/// narrow.
#[test]
fn no_pressure_by_the_jet_behind_a_narrow_arch() {
    let jet = [("aorta.systolic", 90.0), ("defect.velocity", 4.2)];
    let free = [
        (Finding::ArchSeen, Answer::Yes),
        (Finding::FreeLeftOutflow, Answer::Yes),
    ];
    let id = Figure::PressureBehindDefect.info().id;
    let limits = shipped_limits();
    let seen = page(of(Site::TrabecularMuscular, &jet, &free), &limits, 0);
    close(value(&seen, Figure::PressureBehindDefect), 19.44);
    assert_eq!(
        line(&seen, "derived", id).expect("a line").state,
        State::Plain
    );

    let unseen = page(of(Site::TrabecularMuscular, &jet, &[]), &limits, 0);
    assert_eq!(
        line(&unseen, "derived", id).expect("a line").state,
        State::Warned
    );

    let narrow = [jet[0], jet[1], ("arch.gradient", 30.0)];
    let refused = page(of(Site::TrabecularMuscular, &narrow, &free), &limits, 0);
    let line = line(&refused, "derived", id).expect("a line");
    assert_eq!((line.state, line.amount), (State::Refused, None));
    assert!(line.note.contains("aortic arch"), "{}", line.note);
}

/// Rutledge 2010: no assumed uptake under 3 years.
#[test]
fn no_oxygen_uptake_is_assumed_under_three_years() {
    let without = |age: f64| {
        let mut readings = EXAMPLE.to_vec();
        readings.retain(|(at, _)| *at != "patient.oxygen_uptake");
        readings.push(("patient.heart_rate", 110.0));
        readings[2].1 = age;
        let page = page(
            of(Site::TrabecularMuscular, &readings, &[]),
            &shipped_limits(),
            0,
        );
        line(&page, "derived", Figure::PulmonaryFlow.info().id)
            .expect("a line")
            .clone()
    };
    let infant = without(0.8);
    assert_eq!((infant.state, infant.amount), (State::Refused, None));
    assert!(infant.note.contains("53 ± 52 %"), "{}", infant.note);
    // LaFarge at 3 years and 110/min: 160.96 and 167.06 mL/min/m².
    let child = without(3.0);
    assert_eq!(child.state, State::Refused);
    assert!(
        child.note.contains("161 (girl)") && child.note.contains("167 mL"),
        "{}",
        child.note
    );
}

/// A newcomer's error (common practice, no source): dissolved oxygen left out on supplemental
/// oxygen.
#[test]
fn saturations_on_oxygen_are_warned_of() {
    let inspired = |percent| {
        let mut readings = EXAMPLE.to_vec();
        readings.push(("patient.inspired_oxygen", percent));
        let page = page(
            of(Site::TrabecularMuscular, &readings, &[]),
            &shipped_limits(),
            0,
        );
        let id = Figure::QpQsBySaturations.info().id;
        line(&page, "derived", id).expect("a line").state
    };
    assert_eq!(inspired(21.0), State::Plain);
    assert_eq!(inspired(60.0), State::Warned);
}

/// Tensions of a child on oxygen bring Qp:Qs down: the pulmonary vein gains more
/// than the pulmonary artery.
#[test]
fn dissolved_oxygen_counts_where_it_was_read() {
    let mut readings = EXAMPLE.to_vec();
    readings.push(("patient.inspired_oxygen", 90.0));
    let without = page(
        of(Site::TrabecularMuscular, &readings, &[]),
        &shipped_limits(),
        0,
    );
    readings.extend([
        ("pulmonary_vein.oxygen_tension", 400.0),
        ("aorta.oxygen_tension", 380.0),
        ("pulmonary_artery.oxygen_tension", 55.0),
        ("superior_vena_cava.oxygen_tension", 38.0),
    ]);
    let with = page(
        of(Site::TrabecularMuscular, &readings, &[]),
        &shipped_limits(),
        0,
    );
    let ratio = |page: &Workup| value(page, Figure::QpQs).expect("a ratio");
    // (163.2 × 0.33 + 0.03 × 342) / (163.2 × 0.13 + 0.03 × 345).
    close(Some(ratio(&with)), (53.856 + 10.26) / (21.216 + 10.35));
    assert!(ratio(&with) < ratio(&without));
}

/// Each row at both sides of its limit: AHA 2011, ACC/AHA 2025, ESC 2020, the world
/// symposium's and the other sources that the rows name.
#[test]
#[expect(clippy::too_many_lines, reason = "a table of rows, each at its limit")]
fn guidance_stand_where_they_are_published() {
    let limits = shipped_limits();
    let at = |site, readings: &[(&str, f64)], findings: &[(Finding, Answer)], row: &str| {
        state(&page(of(site, readings, findings), &limits, 0), row)
    };
    let muscular = Site::TrabecularMuscular;
    let (met, not, none) = (Some(State::Met), Some(State::NotMet), None);

    // AHA 2011: muscular defects from 5 kg, Qp:Qs of 2 or a loaded left heart.
    let weighing = |weight, qp_qs| {
        [
            ("patient.weight", weight),
            ("patient.height", 60.0),
            ("left_ventricle.diameter", 20.0),
            ("left_atrium.diameter", 10.0),
            ("flow.qp_qs", qp_qs),
        ]
    };
    assert_eq!(
        at(muscular, &weighing(5.0, 2.0), &[], "aha2011_from_5_kg"),
        met
    );
    assert_eq!(
        at(muscular, &weighing(5.0, 1.9), &[], "aha2011_from_5_kg"),
        not
    );
    assert_eq!(
        at(muscular, &weighing(4.9, 2.0), &[], "aha2011_from_5_kg"),
        none
    );
    assert_eq!(
        at(muscular, &weighing(4.9, 2.0), &[], "aha2011_under_5_kg"),
        met
    );
    let membranous = Site::CentralPerimembranous;
    assert_eq!(
        at(membranous, &weighing(8.0, 2.0), &[], "aha2011_from_5_kg"),
        none
    );
    assert_eq!(
        at(
            membranous,
            &weighing(8.0, 2.0),
            &[],
            "aha2011_perimembranous"
        ),
        met
    );

    // AHA 2011, class III: likely to shrink.
    let shrinks = [(Finding::Shrinking, Answer::Yes)];
    assert_eq!(
        at(
            muscular,
            &weighing(6.0, 1.9),
            &shrinks,
            "aha2011_likely_to_shrink"
        ),
        met
    );
    assert_eq!(
        at(
            muscular,
            &weighing(6.0, 2.0),
            &shrinks,
            "aha2011_likely_to_shrink"
        ),
        not
    );

    // Consensus from China: over 3 years and 10 kg.
    let old = |weight, age| [("patient.weight", weight), ("patient.age", age)];
    assert_eq!(at(membranous, &old(10.1, 3.1), &[], "age_and_weight"), met);
    assert_eq!(at(membranous, &old(10.0, 3.1), &[], "age_and_weight"), not);
    assert_eq!(at(membranous, &old(10.1, 3.0), &[], "age_and_weight"), not);

    // Resistance: example A, whose Qp is 7.541478, with the pressure that gives it.
    let resisting = |indexed: f64| {
        let mut readings = EXAMPLE.to_vec();
        readings[10].1 = 9.0 + indexed * 7.541_478;
        readings.extend([
            ("pulmonary_artery.systolic", 60.0),
            ("aorta.systolic", 80.0),
        ]);
        readings
    };
    for (indexed, row, wanted) in [
        (3.9, "world_resistance_under_4", met),
        (4.1, "world_resistance_under_4", not),
        (4.1, "world_resistance_4_to_8", met),
        (7.9, "world_resistance_4_to_8", met),
        (8.1, "world_resistance_4_to_8", not),
        (7.9, "world_resistance_over_8", not),
        (8.1, "world_resistance_over_8", met),
        (5.9, "aha_ats2015_beneficial", met),
    ] {
        assert_eq!(
            at(muscular, &resisting(indexed), &[], row),
            wanted,
            "{indexed} {row}"
        );
    }

    // ACC/AHA 2025, adults: 2, 5 and 8 WU of the whole body, Qp:Qs 1.5.
    let adult = |resistance: f64| {
        let mut readings = resisting(resistance * 0.399_999_044_3);
        readings[2].1 = 30.0;
        readings
    };
    let findings = [
        (Finding::DilatedLeftHeart, Answer::Yes),
        (Finding::Cyanosis, Answer::No),
    ];
    for (resistance, row, wanted) in [
        (1.9, "acc2025_close", met),
        (2.1, "acc2025_close", not),
        (2.1, "acc2025_mild_hypertension", met),
        (5.1, "acc2025_mild_hypertension", not),
        (5.1, "acc2025_resistance_5_to_8", met),
        (8.1, "acc2025_resistance_5_to_8", not),
        (2.9, "esc2020_load", met),
        (3.1, "esc2020_load", not),
        (3.1, "esc2020_resistance_3_to_5", met),
        (5.1, "esc2020_resistance_from_5", met),
    ] {
        assert_eq!(
            at(muscular, &adult(resistance), &findings, row),
            wanted,
            "{resistance} {row}"
        );
    }
}
