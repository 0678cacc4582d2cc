//! The program as its users call it: arguments in, text and exit code out.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use crate::call::{Call, complaint, json, printed, rimwise};
use crate::desk::Desk;
use unicode_width::UnicodeWidthStr;

/// Few draws: these tests are about form, not about figures.
const DRAWS: [&str; 2] = ["--draws", "64"];

fn scenarios() -> Vec<&'static str> {
    files::shipped::SCENARIOS
        .iter()
        .map(|(name, _)| *name)
        .collect()
}

const DEMONSTRATION: &str = "outlet-infant";

#[test]
fn two_runs_and_one_or_two_threads_give_the_same_bytes() {
    let ask = |threads| {
        rimwise(&[
            "rank",
            DEMONSTRATION,
            "--format",
            "json",
            "--draws",
            "512",
            "--threads",
            threads,
        ])
        .stdout
    };
    let first = ask("1");
    assert!(!first.is_empty());
    assert!(first == ask("1"), "a second run differs");
    assert!(first == ask("2"), "two threads differ");
}

#[test]
fn json_has_the_form_that_programs_rely_on() {
    let report = json(&[
        "rank",
        DEMONSTRATION,
        "--format",
        "json",
        DRAWS[0],
        DRAWS[1],
        "--seed",
        "7",
    ]);
    assert_eq!(report["format"], 2);
    assert_eq!(report["program"], "rimwise 0.2.0");
    assert_eq!(report["seed"], 7);
    assert_eq!(report["draws"], 64);
    assert_eq!(report["inputs_sha256"].as_str().map(str::len), Some(64));
    for list in [
        "excluded",
        "exceptions",
        "disputed",
        "contradictions",
        "unanswered",
        "notes",
        "candidates",
    ] {
        assert!(report[list].is_array(), "{list}");
    }
    let candidates = report["candidates"].as_array().expect("candidates");
    assert!(candidates.len() >= 120, "{} sizes", candidates.len());
    for (index, one) in candidates.iter().enumerate() {
        assert_eq!(one["rank"], index + 1);
        for number in [
            "group",
            "rotation_deg",
            "waist_mm",
            "length_mm",
            "sheath_fr",
            "chance",
            "chance_error",
            "chance_no_warning",
        ] {
            assert!(one[number].is_number(), "{number}");
        }
        for word in ["shape", "size", "verdict"] {
            assert!(one[word].is_string(), "{word}");
        }
        for disc in ["left_disc_mm", "right_disc_mm", "disc_thickness_mm"] {
            assert!(
                one.get(disc)
                    .is_some_and(|it| it.is_number() || it.is_null()),
                "{disc}"
            );
        }
        for check in one["checks"].as_array().expect("checks") {
            for word in ["check", "of", "state", "unit", "says"] {
                assert!(check[word].is_string(), "{word}");
            }
            for band in ["limit", "warning"] {
                assert_eq!(check[band].as_array().map(Vec::len), Some(2), "{band}");
            }
            assert!(check["missing"].is_array());
            let assessed = check["state"] != "not assessed";
            assert_eq!(check["value"].is_number(), assessed, "{check}");
        }
    }
}

#[test]
fn without_draws_chances_are_null_and_nothing_is_said_to_fit() {
    let report = json(&["rank", "mid-muscular", "--format", "json", "--draws", "0"]);
    for one in report["candidates"].as_array().expect("candidates") {
        assert!(one["chance"].is_null() && one["chance_error"].is_null());
        assert_ne!(one["verdict"], "fits");
        for check in one["checks"].as_array().expect("checks") {
            assert!(check["chance"].is_null());
        }
    }
}

#[test]
fn the_digest_covers_case_catalogue_and_rules() {
    let desk = Desk::new("the_digest_covers_case_c");
    let case = desk.file("digest.ron", files::shipped::SCENARIOS[0].1);
    let digest = |extra: &[&str]| {
        let call = [&["rank", &case, "--format", "json", "--draws", "0"], extra].concat();
        json(&call)["inputs_sha256"]
            .as_str()
            .map(str::to_owned)
            .expect("a digest")
    };
    let catalogue = desk.file("one-size.ron", ONE_SIZE);
    let rules = desk.file(
        "rules.ron",
        &format!("// mine\n{}", files::shipped::HOUSE_RULES.1),
    );
    let all = [
        digest(&[]),
        digest(&["--catalog", &catalogue]),
        digest(&["--rules", &rules]),
    ];
    assert!(all[0] != all[1] && all[0] != all[2] && all[1] != all[2]);
    assert_eq!(all[0], digest(&[]));
}

const ONE_SIZE: &str = r#"(format: 2, title: "mine", shapes: [(
    id: "mine", name: "my shape", about: "one size", conformability: 0.5, braid_angle_deg: 40,
    sizes: [(label: "5x3", waist: 5, length: 3, left: (diameter: 7, thickness: 1),
        right: (diameter: 7, thickness: 1), sheath_fr: 5)],
)])"#;

#[test]
fn a_catalogue_of_ones_own_replaces_the_shipped_one() {
    let desk = Desk::new("a_catalogue_of_ones_own");
    let catalogue = desk.file("replaces.ron", ONE_SIZE);
    let report = json(&[
        "rank",
        DEMONSTRATION,
        "--format",
        "json",
        "--draws",
        "0",
        "--catalog",
        &catalogue,
    ]);
    let candidates = report["candidates"].as_array().expect("candidates");
    assert_eq!(candidates.len(), 1);
    assert_eq!(
        (&candidates[0]["shape"], &candidates[0]["left_disc_mm"]),
        (&"mine".into(), &7.0.into())
    );
}

#[test]
fn exit_codes_tell_bad_input_from_nothing_fits() {
    let desk = Desk::new("exit_codes_tell_bad_inpu");
    let bad = desk.file("bad.ron", "(format: 2, title: 3)");
    for (arguments, code) in [
        (vec!["rank", "nothing-fits", "--draws", "64"], 0),
        (vec!["--help"], 0),
        (vec!["--version"], 0),
        (vec!["rank", "no-such-file.ron"], 2),
        (vec!["rank", &bad], 2),
        (vec!["check", &bad], 2),
        (vec!["rank", DEMONSTRATION, "--draws", "1000"], 2),
        (vec!["rank", DEMONSTRATION, "--format", "xml"], 2),
        (vec!["compare", DEMONSTRATION, "even-wide/5x3"], 2),
        (
            vec!["compare", DEMONSTRATION, "even-wide/5x3", "no-shape/1x1"],
            2,
        ),
        (vec!["frobnicate"], 2),
    ] {
        let output = rimwise(&arguments);
        assert_eq!(
            output.status.code(),
            Some(code),
            "{arguments:?}: {}",
            complaint(&output)
        );
        assert_eq!(output.stderr.is_empty(), code == 0, "{arguments:?}");
    }
}

#[test]
fn a_refusal_tells_the_remedy() {
    let desk = Desk::new("a_refusal_tells_the_reme");
    let of = |arguments: &[&str]| complaint(&rimwise(arguments));
    let draws = of(&["rank", DEMONSTRATION, "--draws", "1000"]);
    assert!(draws.contains("512 and 1024"), "{draws}");
    let size = of(&["compare", DEMONSTRATION, "even-wide/5x3", "even-wide/99x9"]);
    assert!(
        size.contains("sizes of even-wide are: ") && size.contains("5x3"),
        "{size}"
    );
    let shape = of(&["compare", DEMONSTRATION, "even-wide/5x3", "wide/5x3"]);
    assert!(
        shape.contains("shapes are: ") && shape.contains("even-narrow"),
        "{shape}"
    );
    let bad = desk.file("remedy.ron", "(\n  format: 2,\n  titel: \"x\",\n)");
    let field = of(&["check", &bad]);
    assert!(field.contains(":3:") && field.contains("title"), "{field}");
}

/// The text of a shipped file, with one text in place of another.
fn shipped_with(path: &str, text: &str, other: &str) -> String {
    let shipped = std::fs::read_to_string(path).expect("a shipped file");
    assert!(shipped.contains(text), "{text}");
    shipped.replacen(text, other, 1)
}

#[test]
fn a_case_is_checked_against_the_rules_of_the_house() {
    let desk = Desk::new("a_case_is_checked_agains");
    let (asked, own) = ("\"cusp_in_defect\"", "\"cusp_in_the_way\"");
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../..");
    let case = format!("{root}/scenarios/outlet-infant.ron");
    let case = desk.file("own-exclusion.ron", &shipped_with(&case, asked, own));
    let output = rimwise(&["check", &case]);
    assert_eq!(output.status.code(), Some(2));
    let told = complaint(&output);
    for word in ["own-exclusion.ron:", "cusp_in_the_way", "cusp_in_defect"] {
        assert!(told.contains(word), "{told}");
    }

    let rules = format!("{root}/catalogs/house_rules.ron");
    let rules = desk.file("own-rules.ron", &shipped_with(&rules, asked, own));
    let output = rimwise(&["check", &case, "--rules", &rules]);
    assert!(output.status.success(), "{}", complaint(&output));
    let output = rimwise(&["check", &case, "--rules", &case]);
    assert_eq!(output.status.code(), Some(2), "a case is no rules");
}

#[test]
fn output_for_people_is_80_columns_wide_and_bears_the_caution() {
    for name in scenarios() {
        // With trials no list is made of so few draws.
        let rank = ["rank", name, DRAWS[0], DRAWS[1], "--before", "--top", "0"];
        let rank = printed(&rimwise(&rank));
        let compare = printed(&rimwise(&[
            "compare",
            name,
            "--before",
            "even-wide/5x3",
            "even-narrow/5x3",
            "offset-left/5x3",
            "plug/5x7",
            DRAWS[0],
            DRAWS[1],
        ]));
        for page in [&rank, &compare] {
            for line in page.lines() {
                assert!(line.width() <= 80, "{name}: {line}");
                assert_eq!(line, line.trim_end(), "{name}: blanks at an end");
            }
            assert!(page.contains("never says whether to close"), "{name}");
        }
    }
    for help in [
        vec!["--help"],
        vec!["rank", "--help"],
        vec!["compare", "--help"],
        vec!["fit-map", "--help"],
        vec!["check", "--help"],
    ] {
        let page = printed(&rimwise(&help));
        assert!(
            page.split_whitespace()
                .collect::<Vec<_>>()
                .join(" ")
                .contains("never says whether to close"),
            "{page}"
        );
        assert!(page.lines().all(|line| line.width() <= 80), "{page}");
    }
}

#[test]
fn comparing_marks_what_differs_and_says_what_is_broken() {
    let page = printed(&rimwise(&[
        "compare",
        DEMONSTRATION,
        "even-wide/5x3",
        "even-narrow/5x3",
        DRAWS[0],
        DRAWS[1],
    ]));
    assert!(
        page.lines()
            .any(|line| line.starts_with("≠ aortic clearance")),
        "{page}"
    );
    assert!(
        page.lines()
            .any(|line| line.starts_with("  waist over defect")),
        "{page}"
    );
    assert!(page.contains("past the aortic hinge"), "{page}");
    // As lists name the sizes.
    let named = printed(&rimwise(&[
        "compare",
        DEMONSTRATION,
        "wide 5 × 3",
        "narrow 5x3",
        DRAWS[0],
        DRAWS[1],
    ]));
    assert_eq!(page, named);
}

#[test]
fn nothing_of_a_file_steers_the_terminal() {
    let desk = Desk::new("nothing_of_a_file_steers");
    let hostile = r"\u{1b}]0;owned\u{7}\u{202e}\u{9b}31m\u{85}";
    let case =
        files::shipped::SCENARIOS[0]
            .1
            .replacen("title: \"", &format!("title: \"{hostile}"), 1);
    let case = desk.file("hostile-case.ron", &case);
    let catalogue = desk.file(
        "hostile-catalogue.ron",
        &ONE_SIZE
            .replace("one size", hostile)
            .replace("my shape", hostile)
            .replace("5x3", &format!("5x3{hostile}")),
    );
    let broken = desk.file(
        "hostile-broken.ron",
        "(format: 2, title: \"\u{1b}[2J\u{202e}\", sites: \u{1b}[31m)",
    );
    let size = "mine/5x3\u{1b}]0;owned\u{7}\u{202e}\u{9b}31m\u{85}";
    for arguments in [
        vec!["rank", &case, "--catalog", &catalogue, "--draws", "64"],
        vec![
            "rank",
            &case,
            "--catalog",
            &catalogue,
            "--draws",
            "64",
            "--format",
            "json",
        ],
        vec![
            "rank",
            &case,
            "--catalog",
            &catalogue,
            "--draws",
            "64",
            "--format",
            "csv",
        ],
        vec![
            "compare",
            &case,
            "--catalog",
            &catalogue,
            "--draws",
            "64",
            size,
            size,
        ],
        vec![
            "compare",
            &case,
            "--catalog",
            &catalogue,
            "--draws",
            "64",
            "mine/\u{1b}[2J",
            "\u{9b}2J/x",
        ],
        vec!["check", &case, &catalogue],
        vec!["check", &broken],
        vec!["check", "/no/such\u{1b}[2J/file"],
        vec!["rank", "\u{1b}[2J"],
    ] {
        let output = rimwise(&arguments);
        for shown in [printed(&output), complaint(&output)] {
            let steering = shown
                .chars()
                .find(|&letter| letter != '\n' && letter.is_control() || letter == '\u{202e}');
            assert_eq!(steering, None, "{arguments:?}: {shown:?}");
        }
    }
}

#[test]
fn the_program_alone_ranks_the_demonstration_and_says_how_to_go_on() {
    let page = Call::of(&[]).text();
    assert!(
        page.starts_with("Perimembranous defect, 14 months"),
        "{page}"
    );
    assert!(
        page.contains("Open it in a terminal") && page.contains("rimwise --help"),
        "{page}"
    );
}

#[test]
fn shipped_files_are_sound() {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../..");
    let mut arguments = vec!["check".to_owned()];
    for folder in ["catalogs", "scenarios", "scenarios/lessons"] {
        let entries = std::fs::read_dir(format!("{root}/{folder}")).expect("a folder");
        let paths = entries.map(|entry| entry.expect("an entry").path());
        let files = paths.filter(|path| path.is_file());
        arguments.extend(files.map(|path| path.display().to_string()));
    }
    let output = rimwise(&arguments.iter().map(String::as_str).collect::<Vec<_>>());
    assert_eq!(output.status.code(), Some(0), "{}", complaint(&output));
}

#[test]
fn plain_pages_hold_nothing_that_is_drawn() {
    let output = rimwise(&["--plain", "outlet-infant"]);
    let text = String::from_utf8(output.stdout).expect("UTF-8");
    for page in ["PLAN", "DOUBT", "FIT MAP", "WORK-UP", "RULES", "STOCK"] {
        assert!(text.contains(&format!("PAGE {page}")), "{page}");
    }
    let is_drawn = |letter: char| {
        matches!(letter, '\u{2500}'..='\u{259f}' | '■' | '\u{2800}'..='\u{28ff}')
            || (letter.is_control() && letter != '\n')
    };
    let drawn = text.lines().find(|line| line.contains(is_drawn));
    assert_eq!(drawn, None);
}
