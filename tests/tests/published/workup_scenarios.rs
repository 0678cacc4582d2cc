//! The work-up over the scenarios: what is planted is found, and nothing else.

use measurement::{Method, Modality, Phase, Site};
use outside::page::{exact, line, of, page};
use outside::sample::{scenario, shipped_limits};
use sizing::Case;
use workup::Indication;

/// The two contradictions planted for the work-up, and what each hangs on. What the
/// ranking says above its list stands on the page as well.
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
        let above: &[&str] = match name {
            "contradiction" => &["juxta_arterial_rim"],
            _ => &[],
        };
        let mut wanted = above.to_vec();
        wanted.extend(planted.map(|(_, id, _)| *id));
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
            assert_eq!(found(case, 1024), above, "{name} without {reading}");
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
    // A valve said to be out of reach has a rim that a disc reaches, or one that none
    // does.
    let beside_valve = |rim: f64| found(&|case| case.readings.push(exact("aortic.rim", rim)));
    assert!(any(&beside_valve(4.0), "near_out_of_reach"));
    assert!(!any(&beside_valve(20.0), "near_out_of_reach"));
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
