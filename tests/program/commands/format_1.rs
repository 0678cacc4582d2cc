//! Cases of 0.1 under the rules of 0.1: the same values as before format 2.
//!
//! `old/values.txt` was written from the JSON of the program as it was before format 2,
//! with the old keys and words in place of those that stand here.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use crate::call::json;
use crate::desk::Desk;
use serde_json::Value;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

/// What is compared of a candidate.
const CANDIDATE: [&str; 17] = [
    "shape",
    "size",
    "verdict",
    "rank",
    "group",
    "rotation_deg",
    "waist_mm",
    "length_mm",
    "left_disc_mm",
    "right_disc_mm",
    "disc_thickness_mm",
    "sheath_fr",
    "chance",
    "chance_error",
    "chance_is_bound",
    "chance_no_warning",
    "in_stock",
];

/// What is compared of a check of a candidate.
const CHECK: [&str; 9] = [
    "check",
    "state",
    "value",
    "unit",
    "limit",
    "warning",
    "margin_limit",
    "margin_warning",
    "chance",
];

/// What is compared of a line of the work-up.
const LINE: [&str; 5] = ["value", "unit", "state", "interval", "chance"];

fn said(value: &Value) -> String {
    match value {
        Value::Number(number) => format!("{:.6}", number.as_f64().expect("a number")),
        Value::Array(all) => all.iter().map(said).collect::<Vec<_>>().join(" "),
        Value::String(text) => text.clone(),
        Value::Bool(is_so) => is_so.to_string(),
        Value::Null | Value::Object(_) => "-".to_owned(),
    }
}

fn of(object: &Value, keys: &[&str]) -> String {
    let values = keys.iter().map(|key| said(&object[*key]));
    values.collect::<Vec<_>>().join(" ")
}

fn items<'a>(object: &'a Value, list: &str) -> &'a Vec<Value> {
    object[list].as_array().expect("a list")
}

/// The 64-bit FNV-1a digest of lines.
fn digest(lines: &[String]) -> String {
    let bytes = lines.iter().flat_map(|line| line.bytes().chain([b'\n']));
    let digest = bytes.fold(0xcbf2_9ce4_8422_2325_u64, |digest, byte| {
        (digest ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    });
    format!("{digest:016x}")
}

fn ranked(page: &Value) -> Vec<String> {
    let mut lines = Vec::new();
    for candidate in items(page, "candidates") {
        lines.push(of(candidate, &CANDIDATE));
        lines.extend(items(candidate, "checks").iter().map(|one| of(one, &CHECK)));
    }
    lines
}

fn mapped(page: &Value) -> Vec<String> {
    let mut lines = vec![said(&page["waists_mm"]), said(&page["overhangs_mm"])];
    for rows in ["chances", "chance_errors"] {
        lines.extend(items(page, rows).iter().map(said));
    }
    let form = [
        "length_mm",
        "disc_thickness_mm",
        "conformability",
        "braid_angle_deg",
    ];
    lines.push(of(&page["form"], &form));
    let room = ["chance", "waists_mm", "overhangs_mm", "lengths_mm"];
    lines.push(of(&page["box"], &room));
    let nearest = ["waist_mm", "overhang_mm", "length_mm", "chance"];
    lines.push(of(&page["nearest"], &nearest));
    lines.push(said(&page["limit"]["check"]));
    lines
}

fn worked_up(page: &Value) -> Vec<String> {
    let sections = items(page, "sections").iter();
    let lines = sections.flat_map(|section| items(section, "lines"));
    // A line with a warning was called so before it had the word that every check has.
    let said = lines.map(|line| of(line, &LINE).replace(" warning ", " with care "));
    said.collect()
}

#[test]
fn cases_of_0_1_have_the_values_that_they_had() {
    let old = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/tests/files/old");
    let path = |name: &str| old.join(name).display().to_string();
    let (rules, shapes) = (path("house_rules.ron"), path("shapes.ron"));
    let guidance = path("published_limits.ron");
    // Nothing of 0.1 waited for what the site needs first: so that there are chances.
    let text = fs::read_to_string(&rules).expect("rules");
    let end = text.rfind(')').expect("an end");
    let rated = format!("{}measured_first: [], caps: [],\n)\n", &text[..end]);
    let desk = Desk::new("format-1");
    let rated = desk.file("rules.ron", &rated);
    let json_of = |command, case: &str, rules: &str, more: &[&str]| {
        let call = [command, case, "--rules", rules, "--format", "json"];
        json(&[&call, more].concat())
    };
    let expected = include_str!("../../tests/files/old/values.txt");
    let mut found = String::new();
    for line in expected.lines() {
        let Some((name, _)) = line.split_once(": ").filter(|_| !line.starts_with('#')) else {
            writeln!(found, "{line}").expect("a line");
            continue;
        };
        let case = path(&format!("scenarios/{name}.ron"));
        let shelf = ["--catalog", &shapes, "--draws", "64"];
        let map = [&shelf[..], &["--columns", "12", "--rows", "8"]].concat();
        let limits = ["--guidance", &guidance, "--draws", "64"];
        let values = [
            ranked(&json_of("rank", &case, &rated, &shelf)),
            mapped(&json_of("fit-map", &case, &rated, &map)),
            worked_up(&json_of("workup", &case, &rules, &limits)),
        ];
        let [ranked, mapped, worked_up] = values.map(|lines| digest(&lines));
        writeln!(found, "{name}: {ranked} {mapped} {worked_up}").expect("a line");
    }
    assert!(found == expected, "values changed:\n{found}");
}
