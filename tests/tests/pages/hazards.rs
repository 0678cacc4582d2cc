//! The page of hazards: each names tests, and those tests exist.

use crate::named_tests::every_test;
use std::collections::BTreeSet;

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

#[test]
fn every_hazard_names_tests_that_exist() {
    let known = every_test();
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
