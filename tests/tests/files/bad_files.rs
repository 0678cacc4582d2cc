//! Every fault a hand-edited file can have, with the message it gives.
//!
//! The messages stand in the tables of `bad_files/` and are meant to be read:
//! each says where, what stands there, what was expected and, where it helps,
//! what to do.

#![expect(clippy::unwrap_used, reason = "what fails here fails a test")]

use files::{
    Diagnostic, FileError, parse_case, parse_catalogue, parse_guidance, parse_house_rules,
    read_case, shipped, visible,
};
use proptest::prelude::*;
use std::path::{Path, PathBuf};

const CASE: &str = include_str!("bad_files/case.ron");
const SHELF: &str = include_str!("bad_files/shelf.ron");
const GUIDANCE: &str = include_str!("bad_files/guidance.ron");
/// Rules as they were kept once: what ships may change without moving a line here.
const RULES: &str = include_str!("bad_files/rules.ron");

fn said(faults: &[Diagnostic]) -> String {
    faults
        .iter()
        .map(ToString::to_string)
        .collect::<Vec<_>>()
        .join("\n")
}

/// Makes each edit of a table to a text that is right, and compares what is said.
fn check(table: &str, text: &str, parse: impl Fn(&str) -> Result<(), Vec<Diagnostic>>) {
    assert_eq!(parse(text), Ok(()));
    let plain = |written: &str| {
        [
            ("⏎", "\n"),
            ("∅", ""),
            ("␛", "\u{1b}"),
            ("‹U+202E›", "\u{202e}"),
        ]
        .iter()
        .fold(written.to_owned(), |written, (sign, meant)| {
            written.replace(sign, meant)
        })
    };
    for entry in table.split("\n\n").skip(1) {
        let (edit, message) = entry.split_once('\n').unwrap();
        let (from, to) = edit.split_once(" → ").unwrap();
        assert_eq!(text.matches(&plain(from)).count(), 1, "{from}");
        let said = parse(&text.replace(&plain(from), &plain(to)))
            .map_or_else(|faults| said(&faults), |()| "nothing".into());
        let message: Vec<_> = message.lines().map(str::trim_start).collect();
        assert_eq!(said, message.join("\n"), "\n{edit}");
    }
}

#[test]
fn of_a_case() {
    let table = include_str!("bad_files/case.txt");
    check(table, CASE, |text| parse_case("case.ron", text).map(drop));
}

#[test]
fn of_a_catalogue() {
    let table = include_str!("bad_files/shelf.txt");
    check(table, SHELF, |text| {
        parse_catalogue("shelf.ron", text).map(drop)
    });
}

#[test]
fn of_house_rules() {
    let table = include_str!("bad_files/rules.txt");
    check(table, RULES, |text| {
        parse_house_rules("rules.ron", text).map(drop)
    });
}

#[test]
fn of_guidance() {
    let table = include_str!("bad_files/guidance.txt");
    check(table, GUIDANCE, |text| {
        parse_guidance("guidance.ron", text).map(drop)
    });
}

#[test]
fn of_a_text_that_is_no_case_at_all() {
    for (text, message) in [
        ("", "1:1: found the end of the file, expected `( … )`."),
        ("hello", "1:6: found the end of the file, expected `( … )`."),
        (
            "(",
            "1:1: found `(` that is not closed, expected `)` before the end of the file. Add the `)`.",
        ),
        (
            "()",
            "1:1: found no field format, expected it here. Add `format: …`.",
        ),
        ("{\"a\": 1}", "1:1: found `{`, expected `( … )`."),
        (
            "((((",
            "1:2: [0]: found `(`, expected a word of letters, digits and _.",
        ),
        (
            "(format: 2,,)",
            "1:12: found `,`, expected a word of letters, digits and _.",
        ),
        (
            "\u{feff}(format: 3)",
            "1:10: format: found format 3, expected format 1 or 2. \
             This program reads no other format of file.",
        ),
    ] {
        let said = parse_case("x", text).map_or_else(|faults| said(&faults), |_| "nothing".into());
        assert_eq!(said, format!("x:{message}"), "{text}");
    }
}

#[test]
fn all_faults_of_a_file_at_once() {
    let text = CASE
        .replace("soft", "sotf")
        .replace("value: 1.5, unit: \"mm\"", "value: 999, unit: \"cm\"")
        .replace("mitral_valve", "aortic_valve")
        .replace("bedside", "bedsite");
    let faults = parse_case("case.ron", &text).unwrap_err();
    let fields: Vec<_> = faults.iter().map(|fault| fault.field.as_str()).collect();
    assert_eq!(
        fields,
        [
            "edge",
            "readings[0].value",
            "readings[0].unit",
            "readings[1].by",
            "out_of_reach[0]",
        ],
    );
}

#[test]
fn an_exclusion_that_the_house_does_not_ask() {
    let (name, rules) = shipped::HOUSE_RULES;
    let rules = parse_house_rules(name, rules).unwrap().into_value();
    let text = CASE.replace("cusp_in_defect", "cusp_in_the_defect");
    let case = parse_case("case.ron", &text).unwrap();
    assert_eq!(
        said(&case.faults_under(&rules)),
        "case.ron:16:40: exclusions[\"cusp_in_the_defect\"]: found \"cusp_in_the_defect\", \
         expected an exclusion that your centre's rules ask. Did you mean cusp_in_defect?",
    );
    let text = CASE.replace("cusp_in_defect", "full_moon");
    let said = said(&parse_case("case.ron", &text).unwrap().faults_under(&rules));
    assert!(
        said.contains("They ask malaligned_outlet_septum, "),
        "{said}"
    );
}

#[test]
fn an_exception_that_the_house_does_not_have_at_the_site() {
    let (name, rules) = shipped::HOUSE_RULES;
    let rules = parse_house_rules(name, rules).unwrap().into_value();
    let said = |exception: &str| {
        let end = format!("{{\"cusp_in_defect\": no}}, exceptions: [{exception}]");
        let text = CASE.replace("{\"cusp_in_defect\": no}", &end);
        said(&parse_case("case.ron", &text).unwrap().faults_under(&rules))
    };
    assert_eq!(
        said(
            "(rule: \"waist_fit\", limit: (), warning: (), because: \"x\"), \
             (rule: \"rim_overlap_left\", limit: (), warning: (), because: \"x\")"
        ),
        "case.ron:16:61: exceptions[0].rule: found \"waist_fit\", expected a rule that \
         your centre has at outlet_muscular. Of waist_fit it has: waist_fit.perimembranous_and_outlet; \
         waist_fit.prolapse.",
    );
    assert_eq!(
        said("(rule: \"aortic.rim\", value: 2, unit: \"mm\", sd: 1, because: \"x\")"),
        "case.ron:16:61: exceptions[0].rule: found \"aortic.rim\", expected a rule that \
         your centre has at outlet_muscular. It says nothing of aortic.rim there.",
    );
    assert_eq!(
        said("(rule: \"chance_fits\", value: 0.3, because: \"x\")"),
        "case.ron:16:53: exceptions: found chances that cross, expected chance_does_not_fit at \
         most chance_fits.",
    );
}

#[test]
fn every_shipped_file_is_right() {
    let (name, text) = shipped::HOUSE_RULES;
    let rules = parse_house_rules(name, text)
        .map_err(|faults| said(&faults))
        .unwrap()
        .into_value();
    let (name, text) = shipped::SHAPES;
    let shapes = parse_catalogue(name, text)
        .map_err(|faults| said(&faults))
        .unwrap()
        .into_value();
    let sizes: usize = shapes.shapes.iter().map(|shape| shape.sizes.len()).sum();
    assert!(
        shapes.shapes.len() >= 9 && (120..=200).contains(&sizes),
        "{sizes}"
    );
    let (name, text) = shipped::GUIDANCE;
    let limits = parse_guidance(name, text).map_err(|faults| said(&faults));
    assert!(limits.is_ok_and(|file| !file.value().adults.is_empty()));
    for (name, text) in shipped::SCENARIOS {
        let case = parse_case(name, text)
            .map_err(|faults| said(&faults))
            .unwrap();
        assert_eq!(case.faults_under(&rules), [], "{name}");
    }
}

#[test]
fn a_size_too_many() {
    let waists = "waists: (from: 1, to: 60, step: 0.05)";
    let lengths = vec!["3"; 17].join(", ");
    let text = SHELF
        .replace("waists: (from: 6, to: 8, step: 0.5)", waists)
        .replace("lengths: [3, 4]", &format!("lengths: [{lengths}]"));
    let said = said(&parse_catalogue("shelf.ron", &text).unwrap_err());
    assert_eq!(
        said,
        "shelf.ron:17:13: shapes[0].series[0]: found 20077 more where 19999 are left, \
         expected at most 20000 sizes in all.",
    );
}

/// A file of its own in the folder for temporary files, gone after the test.
struct Scratch(PathBuf);

impl Scratch {
    fn new(name: &str, bytes: &[u8]) -> Self {
        let path = std::env::temp_dir().join(format!("rimwise-{}-{name}", std::process::id()));
        std::fs::write(&path, bytes).unwrap();
        Self(path)
    }

    /// What is said of it, its folder left out.
    fn said(&self) -> String {
        let folder = format!(
            "{}/rimwise-{}-",
            std::env::temp_dir().display(),
            std::process::id()
        );
        read_case(&self.0)
            .map_or_else(|error| error.to_string(), |_| "nothing".into())
            .replace(&folder, "")
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0);
    }
}

#[test]
fn of_files_that_are_no_text() {
    let message = |error: FileError| error.to_string();
    assert_eq!(
        read_case(Path::new("/no/such\u{1b}file.ron"))
            .map_err(message)
            .unwrap_err(),
        "/no/such␛file.ron: No such file or directory (os error 2). \
         Give the path of a file that you may read.",
    );
    assert_eq!(
        read_case(Path::new("/")).map_err(message).unwrap_err(),
        "/: not a plain file, but a folder, a pipe or a device. Give the path of a file that you \
         may read.",
    );
    assert_eq!(
        Scratch::new("latin-1.ron", b"(title: \"M\xfcller\")").said(),
        "latin-1.ron: not UTF-8 from byte 10 on. Save it as plain text in UTF-8.",
    );
    assert_eq!(
        Scratch::new("large.ron", &vec![b' '; 256 * 1024 + 1]).said(),
        "large.ron: larger than 256 KiB, and not read. Is it the right file?",
    );
    let full = format!("{CASE}{}", " ".repeat(256 * 1024 - CASE.len()));
    assert_eq!(Scratch::new("full.ron", full.as_bytes()).said(), "nothing");
    let marked = format!("\u{feff}{}", CASE.replace("soft", "sotf"));
    assert_eq!(
        Scratch::new("marked.ron", marked.as_bytes()).said(),
        "marked.ron:5:11: edge: found sotf, expected soft or stiff. Did you mean soft?",
    );
}

/// A text with a few places overwritten.
fn overwritten(text: &str) -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        prop::sample::select(vec![
            "", "(", ")", "[", "]", "{", "}", ",", ":", "\"", "\\", "'", "r#\"", "//", "/*", "*/",
            "-", ".", "8,5", "8mm", "NaN", "1e999", "Some(", "None", "#", "\u{1b}", "\u{202e}",
            "ä", "\n", " ",
        ])
        .prop_map(str::to_owned),
        any::<String>(),
    ];
    let places: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
    let edit = (prop::sample::select(places), 0_usize..12, piece);
    let text = text.to_owned();
    prop::collection::vec(edit, 1..4).prop_map(move |edits| {
        let mut text = text.clone();
        for (at, length, piece) in edits {
            let end = at + length;
            if text.is_char_boundary(at) && text.is_char_boundary(end) {
                text.replace_range(at..end, &piece);
            }
        }
        text
    })
}

/// What is said of a text is safe to show.
fn is_clean(faults: &[Diagnostic]) -> bool {
    faults.iter().all(|fault| {
        let said = fault.to_string();
        visible(&said) == said
    })
}

proptest! {
    #[test]
    fn any_bytes_are_a_case_or_give_messages(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let file = Scratch::new("any.ron", &bytes);
        match read_case(&file.0) {
            Ok(_) => {}
            Err(FileError::Faulty(faults)) => prop_assert!(!faults.is_empty() && is_clean(&faults)),
            Err(error) => {
                let is_not_text = matches!(error, FileError::NotUtf8 { .. });
                prop_assert!(is_not_text, "{}", error);
            }
        }
    }

    #[test]
    fn any_text_gives_clean_messages(text in any::<String>()) {
        prop_assert!(parse_case(&text, &text).map_or_else(|faults| is_clean(&faults), |_| true));
        prop_assert!(parse_catalogue(&text, &text).map_or_else(|faults| is_clean(&faults), |_| true));
        prop_assert!(parse_house_rules(&text, &text).map_or_else(|faults| is_clean(&faults), |_| true));
        prop_assert!(parse_guidance(&text, &text).map_or_else(|faults| is_clean(&faults), |_| true));
    }

    #[test]
    fn any_slip_in_a_case_gives_clean_messages(text in overwritten(CASE)) {
        prop_assert!(parse_case("case.ron", &text).map_or_else(|faults| is_clean(&faults), |_| true));
    }

    #[test]
    fn any_slip_in_a_catalogue_gives_clean_messages(text in overwritten(SHELF)) {
        prop_assert!(parse_catalogue("x", &text).map_or_else(|faults| is_clean(&faults), |_| true));
    }

    #[test]
    fn any_slip_in_guidance_gives_clean_messages(text in overwritten(GUIDANCE)) {
        prop_assert!(parse_guidance("x", &text).map_or_else(|faults| is_clean(&faults), |_| true));
    }

    #[test]
    fn any_slip_in_house_rules_gives_clean_messages(text in overwritten(RULES)) {
        prop_assert!(parse_house_rules("x", &text).map_or_else(|faults| is_clean(&faults), |_| true));
    }
}
