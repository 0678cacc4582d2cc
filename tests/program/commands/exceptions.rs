//! A case that excepts rules of the house: what the program makes of it and says.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use serde_json::{Value, json};
use std::process::Command;

const DEMONSTRATION: &str = "outlet-infant";
/// Borderline in the demonstration: its left disc reaches about 0.9 mm past the edge.
const SIZE: (&str, &str) = ("even-narrow", "5.5x2");
const REASON: &str = "thin septum, agreed at rounds";

fn rimwise(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_rimwise"))
        .env("LC_ALL", "C.UTF-8")
        .env("TERM", "xterm")
        .args(arguments)
        // The user's own shapes are another matter.
        .env("XDG_CONFIG_HOME", "/nowhere")
        .output()
        .expect("the program starts");
    assert!(output.status.success(), "{output:?}");
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// The demonstration with exceptions, in a file.
fn with(name: &str, exceptions: &str) -> String {
    let text = files::shipped::scenario(DEMONSTRATION)
        .expect("the demonstration")
        .1;
    let end = text.rfind(')').expect("the end of the case");
    let text = format!("{}    exceptions: [{exceptions}],\n)\n", &text[..end]);
    let path = std::env::temp_dir().join(format!("rimwise-{}-{name}.ron", std::process::id()));
    std::fs::write(&path, text).expect("a file in the temporary folder");
    path.display().to_string()
}

fn hold_left() -> String {
    let rule = "rule: \"rim_overlap_left\", limit: (low: 2), warning: (low: 2.5)";
    with("hold", &format!("({rule}, because: \"{REASON}\")"))
}

fn ranked(case: &str) -> Value {
    let text = rimwise(&["rank", case, "--draws", "64", "--format", "json"]);
    serde_json::from_str(&text).expect("JSON")
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
    let (house, case) = (ranked(DEMONSTRATION), ranked(&hold_left()));
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
    let case = with("sag", &format!("({row}, because: \"cusp seen low\")"));
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
    let case = hold_left();
    let (shape, size) = SIZE;
    for sheet in [
        rimwise(&["rank", &case, "--draws", "64"]),
        rimwise(&[
            "compare",
            &case,
            &format!("{shape}/{size}"),
            "even-wide/5x3",
            "--draws",
            "64",
        ]),
        rimwise(&["fit-map", &case, "--draws", "64"]),
        rimwise(&["fit-map", &case, "--draws", "64", "--format", "json"]),
        rimwise(&["rank", &case, "--draws", "64", "--format", "csv"]),
        rimwise(&["fit-map", &case, "--draws", "64", "--format", "csv"]),
        rimwise(&["workup", &case, "--draws", "64"]),
        rimwise(&["workup", &case, "--draws", "64", "--format", "json"]),
        rimwise(&["--plain", &case]),
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
    let case = with("elsewhere", &format!("({rule}, because: \"x\")"));
    let output = Command::new(env!("CARGO_BIN_EXE_rimwise"))
        .env("LC_ALL", "C.UTF-8")
        .env("TERM", "xterm")
        .args(["rank", &case])
        .output()
        .expect("the program starts");
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).expect("UTF-8");
    assert!(
        said.contains("a rule that your centre has at outlet_muscular"),
        "{said}"
    );
}
