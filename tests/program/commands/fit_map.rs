//! `rimwise fit-map` and what `rank` says where nothing fits, as their users call
//! them.

use crate::call::{printed, rimwise};
use std::process::Output;
use unicode_width::UnicodeWidthStr;

/// Few draws: these tests are about form, not about figures.
const DRAWS: [&str; 2] = ["--draws", "64"];

const DEMONSTRATION: &str = "outlet-infant";

/// A small map: these tests are about form.
fn map(extra: &[&str]) -> Output {
    let call = [
        "fit-map",
        DEMONSTRATION,
        "--columns",
        "12",
        "--rows",
        "8",
        DRAWS[0],
        DRAWS[1],
    ];
    rimwise(&[&call, extra].concat())
}

#[test]
fn the_readme_shows_what_is_printed() {
    let printed = [
        printed(&rimwise(&["fit-map", DEMONSTRATION])),
        printed(&rimwise(&[
            "compare",
            DEMONSTRATION,
            "even-wide/5x3",
            "even-narrow/5.5x2",
        ])),
    ];
    let readme = include_str!("../../../README.md");
    let samples = readme.split("```text\n").skip(1);
    let samples: Vec<&str> = samples
        .filter_map(|rest| rest.split("```").next())
        .filter(|sample| sample.starts_with("What would fit") || sample.starts_with('≠'))
        .collect();
    assert_eq!(samples.len(), 2);
    for line in samples.iter().flat_map(|sample| sample.lines()) {
        let is_printed = printed
            .iter()
            .any(|text| text.lines().any(|one| one == line));
        assert!(is_printed, "not printed: {line}");
    }
}

#[test]
fn a_map_is_the_same_bytes_in_every_run_and_on_any_threads() {
    for format in ["table", "json", "csv"] {
        let ask = |threads| map(&["--format", format, "--threads", threads]).stdout;
        let first = ask("1");
        assert!(!first.is_empty());
        assert!(first == ask("1") && first == ask("2"), "{format}");
    }
}

#[test]
fn a_map_has_the_form_that_programs_rely_on() {
    let report: serde_json::Value =
        serde_json::from_slice(&map(&["--format", "json", "--length", "3"]).stdout).expect("JSON");
    assert_eq!(report["format"], 2);
    assert_eq!(report["form"]["length_mm"], 3.0);
    assert_eq!(report["inputs_sha256"].as_str().map(str::len), Some(64));
    let columns = report["chances"].as_array().expect("chances");
    assert_eq!(columns.len(), 12);
    assert!(
        columns
            .iter()
            .all(|column| column.as_array().map(Vec::len) == Some(8))
    );
    assert!(report["box"].is_object() || report["box"].is_null());
    assert_eq!(report["lines"].as_array().map(Vec::len), Some(2));
    assert!(report["sentence"].is_string() && report["marks"].is_array());
    let csv = printed(&map(&["--format", "csv"]));
    assert_eq!(csv.lines().count(), 1 + 12 * 8);
}

#[test]
fn a_map_for_people_is_80_columns_wide_and_bears_the_caution() {
    let wide = ["--columns", "150", "--rows", "50", "--draws", "8"];
    let wide = rimwise(&[&["fit-map", "nothing-fits"][..], &wide].concat());
    for page in [printed(&map(&[])), printed(&wide)] {
        assert!(page.contains("never says whether to close"), "{page}");
        assert!(page.contains("What would fit: "), "{page}");
        for line in page.lines() {
            assert!(line.width() <= 80 && line == line.trim_end(), "{line}");
        }
    }
}

#[test]
fn a_map_refuses_what_it_cannot_draw() {
    for extra in [
        ["--size", "no/such"],
        ["--length", "-3"],
        ["--conformability", "1.5"],
        ["--draws", "0"],
        ["--columns", "1"],
    ] {
        let output = rimwise(&[&["fit-map", DEMONSTRATION][..], &extra].concat());
        assert_eq!(output.status.code(), Some(2), "{extra:?}");
        assert!(!output.stderr.is_empty() && output.stdout.is_empty());
    }
}

#[test]
fn where_nothing_fits_it_is_said_what_would_and_which_reading_decides() {
    let page = printed(&rimwise(&["rank", "nothing-fits", DRAWS[0], DRAWS[1]]));
    assert!(page.contains("What would fit: "), "{page}");
    assert!(page.contains("Which reading: "), "{page}");
    let page = printed(&rimwise(&["rank", DEMONSTRATION, DRAWS[0], DRAWS[1]]));
    assert!(!page.contains("What would fit: "), "{page}");
}
