//! The page of formulas: each stands in the file that is named, each test exists, and
//! neither a formula of physiology nor one whose docs name a source is left out.

use crate::named_tests::{PROJECT, every_test};
use std::fs;
use std::path::Path;

const PAGE: &str = include_str!("../../../docs/how-we-know.md");

/// Files of `physiology` that hold no formula.
const NO_FORMULA: [&str; 5] = [
    "lib.rs",
    "flow_time.rs",
    "in_range.rs",
    "z_score.rs",
    "usual_length.rs",
];

/// A row of the page: where its formula stands, and its tests.
struct Formula {
    file: &'static str,
    function: Option<&'static str>,
    tests: Vec<&'static str>,
}

fn formulas() -> Vec<Formula> {
    let rows = PAGE.lines().filter_map(|line| line.strip_prefix("| "));
    let rows = rows.map(|row| row.trim_end_matches(" |").split(" | ").collect());
    let rows = rows.filter(|cells: &Vec<&str>| cells.len() == 5 && cells[0] != "what");
    rows.map(|cells| {
        let place = cells[2].trim_matches('`');
        let (file, function) = match place.split_once("::") {
            Some((file, function)) => (file, Some(function)),
            None => (place, None),
        };
        let tests = cells[4].split(", ").map(|name| name.trim_matches('`'));
        Formula {
            file,
            function,
            tests: tests.collect(),
        }
    })
    .collect()
}

#[test]
fn every_formula_stands_where_it_is_said_and_its_tests_exist() {
    let known = every_test();
    let formulas = formulas();
    assert!(formulas.len() >= 25, "{} formulas", formulas.len());
    for Formula {
        file,
        function,
        tests,
    } in formulas
    {
        let text = fs::read_to_string(Path::new(PROJECT).join(file)).expect(file);
        let stands = |name| text.contains(&format!("fn {name}"));
        assert!(function.is_none_or(stands), "{file}: no {function:?}");
        let mut lost = tests.iter().filter(|name| !known.contains(**name));
        assert_eq!(lost.next(), None, "{file}: no such test");
    }
}

#[test]
fn no_formula_of_the_circulation_is_left_out() {
    let folder = Path::new(PROJECT).join("crates/physiology/src");
    let mut left_out = Vec::new();
    for below in [folder.clone(), folder.join("z_score")] {
        for entry in fs::read_dir(below).expect("a folder").flatten() {
            let name = entry.file_name().into_string().expect("a name");
            let is_file = entry.path().is_file() && !NO_FORMULA.contains(&name.as_str());
            let is_named = formulas()
                .iter()
                .any(|one| one.file.ends_with(&format!("/{name}")));
            if is_file && !is_named {
                left_out.push(name);
            }
        }
    }
    assert_eq!(left_out, [""; 0]);
}

/// Words by which docs name the source of a formula.
const SOURCES: [&str; 4] = ["memory)", "Abramowitz", "JCGM 101:2008, ", "doi 10."];

/// Files whose docs name a source of something that is no formula.
const NO_SOURCED_FORMULA: [&str; 1] = ["crates/sizing/src/worth.rs"];

#[test]
fn no_formula_that_names_its_source_is_left_out() {
    let mut left_out = Vec::new();
    for name in ["geometry", "measurement", "physiology", "sizing", "workup"] {
        let folder = format!("crates/{name}/src");
        sourced_below(&folder, &mut left_out);
    }
    let formulas = formulas();
    left_out.retain(|file| formulas.iter().all(|one| one.file != file));
    assert_eq!(left_out, NO_SOURCED_FORMULA);
}

/// The files below a folder of the project whose docs name a source outside tests.
fn sourced_below(folder: &str, found: &mut Vec<String>) {
    let entries = fs::read_dir(Path::new(PROJECT).join(folder)).expect("a folder");
    for entry in entries.flatten() {
        let name = entry.file_name().into_string().expect("a name");
        let file = format!("{folder}/{name}");
        if entry.path().is_dir() {
            sourced_below(&file, found);
        } else if !name.contains("tests") {
            let text = fs::read_to_string(entry.path()).expect("a text");
            let product = text.split("#[cfg(test)]").next().unwrap_or_default();
            let mut docs = product.lines().map(str::trim_start);
            let names_one = |line: &str| SOURCES.iter().any(|words| line.contains(words));
            if docs.any(|line| line.starts_with("//") && names_one(line)) {
                found.push(file);
            }
        }
    }
}
