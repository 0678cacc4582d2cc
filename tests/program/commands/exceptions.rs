//! A case that excepts rules of the house: what the program makes of it and says.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use crate::call::{Call, text};
use crate::desk::Desk;
use serde_json::{Value, json};

const DEMONSTRATION: &str = "outlet-infant";
/// Borderline in the demonstration: its left disc reaches about 0.9 mm past the edge.
const SIZE: (&str, &str) = ("even-narrow", "5.5x2");
const REASON: &str = "thin septum, agreed at rounds";

/// The demonstration with an exception from a rule, in a file.
fn excepting(desk: &Desk, rule: &str, because: &str) -> String {
    let fields = format!("    exceptions: [({rule}, because: \"{because}\")],");
    desk.scenario(DEMONSTRATION, &fields)
}

const OVERLAP: &str = "rule: \"rim_overlap_left\", limit: (low: 2), warning: (low: 2.5)";

fn ranked(case: &str) -> Value {
    let call = Call::of(&["rank", case, "--format", "json"]);
    call.few_draws().json()
}

fn candidate<'a>(report: &'a Value, (shape, size): (&str, &str)) -> &'a Value {
    let candidates = report["candidates"].as_array().expect("candidates").iter();
    let mut found = candidates.filter(|one| one["shape"] == shape && one["size"] == size);
    found.next().expect("the size is ranked")
}

fn check<'a>(candidate: &'a Value, id: &str) -> &'a Value {
    let mut checks = candidate["checks"].as_array().expect("checks").iter();
    checks
        .find(|one| one["check"] == id)
        .expect("the check is asked")
}

#[test]
fn a_limit_raised_over_the_lip_stops_the_size_and_is_said() {
    let desk = Desk::new("excepted-limit");
    let excepted = excepting(&desk, OVERLAP, REASON);
    let (house, case) = (ranked(DEMONSTRATION), ranked(&excepted));
    let before = candidate(&house, SIZE);
    assert_eq!(before["verdict"], "borderline");
    assert_eq!(check(before, "rim_overlap_left")["state"], "warning");
    assert_eq!(house["exceptions"], json!([]));

    let after = candidate(&case, SIZE);
    let hold = check(after, "rim_overlap_left");
    assert_eq!(after["verdict"], "does not fit");
    assert_eq!(
        (&hold["state"], &hold["limit"]),
        (&json!("beyond"), &json!([2.0, null]))
    );
    assert_eq!(hold["value"], check(before, "rim_overlap_left")["value"]);
    assert_eq!(
        check(after, "rim_overlap_right"),
        check(before, "rim_overlap_right")
    );
    assert_eq!(
        case["exceptions"],
        json!([
            "rim overlap left: limit under 2 mm; warning under 2.5 mm. Your centre: limit under \
             0.5 mm; warning under 1 mm (assumption). Because: thin septum, agreed at rounds"
        ])
    );
}

#[test]
fn an_assumed_value_moves_what_stands_on_it() {
    let row = "rule: \"aortic.cusp_depth\", value: 0.5, unit: \"mm\", sd: 0.5";
    let desk = Desk::new("excepted-value");
    let case = excepting(&desk, row, "cusp seen low");
    let clearance = |report: &Value| {
        let checks = candidate(report, SIZE)["checks"]
            .as_array()
            .expect("checks");
        let mut clearances = checks.iter().filter(|one| one["of"] == "aortic valve");
        let clearance = clearances.find(|one| one["check"] == "clearance");
        clearance.expect("clearance")["value"]
            .as_f64()
            .expect("a number")
    };
    let moved = clearance(&ranked(DEMONSTRATION)) - clearance(&ranked(&case));
    assert!((moved - 0.5).abs() < 1e-9, "{moved}");
}

#[test]
fn the_reason_is_printed_on_every_sheet() {
    let desk = Desk::new("excepted-sheets");
    let case = excepting(&desk, OVERLAP, REASON);
    let (shape, size) = SIZE;
    for sheet in [
        text(&["rank", &case, "--draws", "64"]),
        text(&[
            "compare",
            &case,
            &format!("{shape}/{size}"),
            "even-wide/5x3",
            "--draws",
            "64",
        ]),
        text(&["fit-map", &case, "--draws", "64"]),
        text(&["fit-map", &case, "--draws", "64", "--format", "json"]),
        text(&["rank", &case, "--draws", "64", "--format", "csv"]),
        text(&["fit-map", &case, "--draws", "64", "--format", "csv"]),
        text(&["workup", &case, "--draws", "64"]),
        text(&["workup", &case, "--draws", "64", "--format", "json"]),
        text(&["--plain", &case]),
    ] {
        let words: Vec<&str> = sheet.split_whitespace().collect();
        let sheet = words.join(" ");
        assert!(
            sheet.contains(REASON) && sheet.contains("limit under 2 mm"),
            "{sheet}"
        );
    }
}

#[test]
fn an_exception_from_no_rule_at_the_site_is_refused() {
    let rule = "rule: \"waist_fit at inlet_muscular\", limit: (), warning: ()";
    let desk = Desk::new("excepted-elsewhere");
    let case = excepting(&desk, rule, "x");
    let said = Call::of(&["rank", &case]).refused();
    assert!(
        said.contains("a rule that your centre has at outlet_muscular"),
        "{said}"
    );
}
