//! The page of hazards: each names tests, and those tests exist.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

const PAGE: &str = include_str!("../../../docs/hazards.md");

/// A row of the page: its id, and the tests of its last column.
struct Hazard {
    id: &'static str,
    tests: Vec<&'static str>,
}

/// The rows of the tables, without their heads.
fn hazards() -> Vec<Hazard> {
    PAGE.lines()
        .filter_map(|line| line.strip_prefix("| "))
        .filter(|row| !row.starts_with("id "))
        .map(|row| {
            let cells: Vec<&str> = row.trim_end_matches(" |").split(" | ").collect();
            assert_eq!(cells.len(), 5, "five columns: {row}");
            let names = cells[4].split(", ");
            let tests = names.map(|name| name.trim_matches('`')).collect();
            Hazard {
                id: cells[0],
                tests,
            }
        })
        .collect()
}

/// The names of all functions that are tests, in every Rust file below.
fn tests_below(folder: &Path, names: &mut BTreeSet<String>) {
    for entry in fs::read_dir(folder).expect("a folder").flatten() {
        let path = entry.path();
        if path.is_dir() {
            tests_below(&path, names);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            let text = fs::read_to_string(&path).expect("a text");
            let lines: Vec<&str> = text.lines().map(str::trim).collect();
            for (at, line) in lines.iter().enumerate() {
                let is_marked = lines[at.saturating_sub(4)..at].contains(&"#[test]");
                if let Some(rest) = line.strip_prefix("fn ").filter(|_| is_marked) {
                    let end = rest.find('(').unwrap_or(rest.len());
                    names.insert(rest[..end].to_owned());
                }
            }
        }
    }
}

#[test]
fn every_hazard_names_tests_that_exist() {
    let project = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/.."));
    let mut known = BTreeSet::new();
    for folder in ["crates", "tests"] {
        tests_below(&project.join(folder), &mut known);
    }
    assert!(known.len() > 500, "{} tests were found", known.len());
    let hazards = hazards();
    assert!(hazards.len() >= 30, "{} hazards", hazards.len());
    let mut ids = BTreeSet::new();
    let mut lost = Vec::new();
    for hazard in &hazards {
        assert!(ids.insert(hazard.id), "{} stands twice", hazard.id);
        assert!(!hazard.tests.is_empty(), "{} has no test", hazard.id);
        let unknown = hazard.tests.iter().filter(|name| !known.contains(**name));
        lost.extend(unknown.map(|name| format!("{}: {name}", hazard.id)));
    }
    assert_eq!(lost, [""; 0], "renamed, or gone with what it guarded");
}
