//! The tests of the project by their names, for pages that name them.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// The project's own folder.
pub(crate) const PROJECT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/..");

/// The names of all functions that are tests.
pub(crate) fn every_test() -> BTreeSet<String> {
    let mut known = BTreeSet::new();
    for folder in ["crates", "tests"] {
        tests_below(&Path::new(PROJECT).join(folder), &mut known);
    }
    assert!(known.len() > 500, "{} tests were found", known.len());
    known
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
