//! The work-up against published figures and limits, and over the scenarios.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "what fails here fails a test"
)]

use files::workup_input;
use measurement::Site;
use measurement::{Answer, Finding, Method, Modality, Phase, Quantity, Reading, ReadingId, Side};
use outside::sample::{case, scenario, shipped_limits, shipped_rules};
use sizing::{Case, Setting};
use std::collections::BTreeSet;
use std::sync::Arc;
use workup::{Figure, Indication, Limits, Line, MixedVenous, State, Workup};

/// A reading without doubt to speak of.
fn exact(address: &str, value: f64) -> Reading {
    Reading {
        id: ReadingId(address.to_owned()),
        quantity: Quantity::from_address(address).expect("an address"),
        value,
        sd: Some(1e-9),
        modality: Modality::Catheter,
        side: Side::NoSide,
        phase: Phase::AnyPhase,
        method: Method::Direct,
        image: None,
        set_aside: None,
    }
}

fn of(site: Site, readings: &[(&str, f64)], findings: &[(Finding, Answer)]) -> Case {
    let readings = readings.iter().map(|&(at, value)| exact(at, value));
    let mut case = case(site, readings.collect());
    case.findings = findings.iter().copied().collect();
    case
}

fn page(case: Case, limits: &Limits, draws: usize) -> Workup {
    let setting = Setting::new(Arc::new(case), Arc::new(shipped_rules()));
    Workup::new(&workup_input(&setting), limits, draws, 1).expect("a number of draws")
}

fn line<'a>(page: &'a Workup, section: &str, id: &str) -> Option<&'a Line> {
    let lines = &page.section(section).expect("a section").lines;
    lines.iter().find(|line| line.id == id)
}

fn value(page: &Workup, figure: Figure) -> Option<f64> {
    line(page, "derived", figure.info().id)?
        .amount
        .map(|amount| amount.value)
}

fn state(page: &Workup, row: &str) -> Option<State> {
    line(page, "published", row).map(|line| line.state)
}

/// Worked example A of REFERENCES 3b: Hb 12, uptake 160, surface 0.40 m² (8 kg,
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
/// child whose indexed 3.4 WU·m² is under every child's (REFERENCES 3b and 4).
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
    // 3.4476 and 8.619 of REFERENCES are with (3 SVC + IVC)/4, which changes Qs alone.
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

/// REFERENCES 2a, at 8 kg and 70 cm.
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

/// REFERENCES 3e: 90 − 4 × 4.2² = 19.44 mmHg; refused where outflow or arch is
/// narrow.
#[test]
fn no_pressure_by_the_jet_behind_a_narrow_arch() {
    let jet = [("aorta.systolic", 90.0), ("throat.velocity", 4.2)];
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

/// Rutledge 2010: no assumed uptake under 3 years (REFERENCES 3a).
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
    // LaFarge at 3 years and 110/min: 160.96 and 167.06 mL/min/m² (REFERENCES 3a).
    let child = without(3.0);
    assert_eq!(child.state, State::Refused);
    assert!(
        child.note.contains("161 (girl)") && child.note.contains("167 mL"),
        "{}",
        child.note
    );
}

/// REFERENCES 3, newcomer's error: dissolved oxygen left out on supplemental
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

/// The rows as REFERENCES 4 has them, each at both sides of its limit.
#[test]
fn published_limits_stand_where_they_are_published() {
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
    assert_eq!(
        at(membranous, &old(10.1, 3.1), &[], "china_age_and_weight"),
        met
    );
    assert_eq!(
        at(membranous, &old(10.0, 3.1), &[], "china_age_and_weight"),
        not
    );
    assert_eq!(
        at(membranous, &old(10.1, 3.0), &[], "china_age_and_weight"),
        not
    );

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

/// The two contradictions planted, and what each hangs on.
const PLANTED: [(&str, &str, &str); 2] = [
    ("bundle", "large_heart_small_shunt", "left-ventricle"),
    ("contradiction", "pressure_behind_defect", "defect-jet"),
];

#[test]
fn two_scenarios_do_not_add_up_and_no_other() {
    let limits = shipped_limits();
    let found = |case: Case, draws| -> Vec<String> {
        let page = page(case, &limits, draws);
        let lines = &page.section("contradictions").expect("a section").lines;
        lines.iter().map(|line| line.id.clone()).collect()
    };
    for (name, _) in files::shipped::SCENARIOS {
        let name = name.trim_end_matches(".ron");
        let planted = PLANTED.iter().find(|(scenario, ..)| *scenario == name);
        let wanted: Vec<&str> = planted.map(|(_, id, _)| *id).into_iter().collect();
        for draws in [0, 1024] {
            assert_eq!(
                found(scenario(name), draws),
                wanted,
                "{name} with {draws} draws"
            );
        }
        if let Some((_, _, reading)) = planted {
            let mut case = scenario(name);
            case.readings.retain(|one| one.id.0 != *reading);
            assert_eq!(
                found(case, 1024),
                Vec::<String>::new(),
                "{name} without {reading}"
            );
        }
    }
}

/// Each kind of contradiction in a case that has it, and not in one beside it.
#[test]
fn every_kind_of_contradiction_is_found() {
    let limits = shipped_limits();
    let found = |change: &dyn Fn(&mut Case)| -> Vec<String> {
        let mut case = scenario("mid-muscular");
        change(&mut case);
        let page = page(case, &limits, 1024);
        let lines = &page.section("contradictions").expect("a section").lines;
        lines.iter().map(|line| line.id.clone()).collect()
    };
    let set = |case: &mut Case, id: &str, value: f64| {
        let mut readings = case.readings.iter_mut();
        let reading = readings.find(|one| one.id.0 == id);
        reading.unwrap_or_else(|| panic!("no {id}")).value = value;
    };
    let any = |ids: &[String], id: &str| ids.iter().any(|one| one == id);
    assert!(any(
        &found(&|case| set(case, "major", 2.0)),
        "flow_against_hole"
    ));
    assert!(any(
        &found(&|case| set(case, "qp-qs", 5.0)),
        "ratio_as_read"
    ));
    assert!(any(
        &found(&|case| set(case, "pulmonary-mean", 60.0)),
        "out_of_order.pulmonary_artery.mean"
    ));
    assert!(any(
        &found(&|case| set(case, "saturation-right-atrium", 83.0)),
        "step_before_the_ventricle"
    ));
    assert!(any(
        &found(&|case| set(case, "saturation-aorta", 88.0)),
        "step_down_on_the_left"
    ));
    assert!(any(
        &found(&|case| {
            set(case, "left-ventricle", 26.0);
            set(case, "saturation-pa", 90.0);
        }),
        "large_shunt_usual_heart"
    ));
    let by_echo = |value: f64| {
        found(&|case| {
            let mut other = exact("right_ventricle.systolic", value);
            (other.modality, other.method) = (Modality::TransthoracicEcho, Method::Derived);
            (other.sd, other.phase) = (None, Phase::Systole);
            case.readings.push(other);
        })
    };
    let id = "echo_against_catheter.right_ventricle.systolic";
    assert!(any(&by_echo(75.0), id) && !any(&by_echo(38.0), id));
}

#[test]
fn one_scenario_need_not_be_closed_and_says_so() {
    let limits = shipped_limits();
    for (name, _) in files::shipped::SCENARIOS {
        let name = name.trim_end_matches(".ron");
        let banner = page(scenario(name), &limits, 0).banner;
        let wanted = if name == "small-defect" {
            Indication::No
        } else {
            Indication::Met
        };
        assert_eq!(banner.indication, wanted, "{name}: {banner:?}");
        assert_eq!(banner.says.is_empty(), wanted == Indication::Met, "{name}");
    }
    // What was not read is not a no.
    let mut case = scenario("small-defect");
    case.readings.retain(|one| one.id.0 != "left-ventricle");
    case.findings.clear();
    let banner = page(case, &limits, 0).banner;
    assert_eq!(banner.indication, Indication::NotKnown);
    assert!(banner.reasons[0].contains("left ventricle"), "{banner:?}");
    // Nor is a shunt that speaks for it enough where resistance may speak against.
    let mut case = scenario("nothing-fits");
    case.readings
        .retain(|one| one.id.0 != "left-atrial-pressure");
    assert_eq!(
        page(case, &limits, 0).banner.indication,
        Indication::NotKnown
    );
}

/// Every question of the file is open in a case of which nothing is known, and
/// none in one where all was read and asked.
#[test]
fn what_is_missing_is_named() {
    let limits = shipped_limits();
    let open = |case: Case| {
        page(case, &limits, 0)
            .section("not_measured")
            .expect("one")
            .lines
            .len()
    };
    assert_eq!(
        open(of(Site::OutletMuscular, &[], &[])),
        limits.questions.len()
    );
    assert_eq!(open(scenario("nothing-fits")), 0);
    let infant = page(scenario("outlet-infant"), &limits, 0);
    for id in ["filling_pressure", "arch"] {
        assert!(line(&infant, "not_measured", id).is_some(), "{id}");
    }
}

/// Qp:Qs comes with its interval, and limits with the chance of meeting them.
#[test]
fn figures_carry_their_doubt() {
    let page = page(scenario("slit"), &shipped_limits(), 4096);
    let ratio = line(&page, "indication", "qp_qs").expect("a line");
    let (value, interval) = (
        ratio.amount.expect("a value").value,
        ratio.interval.expect("one"),
    );
    assert!(interval.low < value && value < interval.high);
    let chance = ratio.chance.expect("a chance");
    assert!(0.9 < chance && chance <= 1.0, "{chance}");
    let row = line(&page, "published", "world_resistance_under_4").expect("a row");
    assert!(row.chance.expect("a chance") > 0.9);
}

/// It shows and never decides.
#[test]
fn no_line_of_any_page_orders() {
    let limits = shipped_limits();
    for (name, _) in files::shipped::SCENARIOS {
        let page = page(scenario(name.trim_end_matches(".ron")), &limits, 0);
        for line in page.sections.iter().flat_map(|section| &section.lines) {
            let said = format!("{} {}", line.label, line.note).to_lowercase();
            for order in [
                "close it",
                "do not close",
                "must be closed",
                "should be closed",
            ] {
                assert!(!said.contains(order), "{name}: {said}");
            }
        }
    }
}
