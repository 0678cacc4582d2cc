mod edits;
mod layout;

use crate::{CaseFile, parse_case, parse_catalogue, shipped};
use edits::{Edit, any_edit, edited};
use layout::{comments, laid_out};
use measurement::{Prolapse, ReadingId};
use proptest::prelude::*;
use sizing::house_rules::{Band, Exception, Stated};
use sizing::{Answer, Case};

const CASE: &str = r#"// Head.
(
    format: 2,
    title: "A case", // said at rounds
    site: inlet_muscular, edge: soft, access: antegrade,
    readings: [
        // Of the child.
        (id: "w", of: "patient.weight", value: 4, unit: "kg", by: bedside), // in the evening
        (
            id: "t", // the throat
            of: "defect.long_axis", value: 5.0,
            unit: "mm",
            by: angiography,
            method: edge_to_edge,
        ),
        // Last of all.
    ],
    out_of_reach: [aortic_valve, /* none */ mitral_valve],
)
"#;

fn file(text: &str) -> CaseFile {
    parse_case("case.ron", text).unwrap_or_else(|faults| panic!("{} in\n{text}", faults[0]))
}

fn with(text: &str, change: impl FnOnce(&mut Case)) -> String {
    let file = file(text);
    let mut case = file.value().clone();
    change(&mut case);
    file.with(&case).unwrap().source().text().to_owned()
}

/// What stands in place of what, line by line.
fn changed(was: &str, is: &str) -> (Vec<String>, Vec<String>) {
    let (mut was, mut is): (Vec<&str>, Vec<&str>) = (was.lines().collect(), is.lines().collect());
    while was.last() == is.last() && was.pop().is_some() {
        is.pop();
    }
    let same = was.iter().zip(&is).take_while(|(a, b)| a == b).count();
    let rest = |lines: &[&str]| {
        lines[same..]
            .iter()
            .map(|line| line.trim().to_owned())
            .collect()
    };
    (rest(&was), rest(&is))
}

#[test]
fn nothing_changed_is_the_same_text() {
    assert_eq!(with(CASE, |_| {}), CASE);
}

#[test]
fn a_value_alone_is_touched() {
    let text = with(CASE, |case| case.readings[1].value = 5.25);
    assert_eq!(text, CASE.replace("value: 5.0", "value: 5.25"));
    let text = with(CASE, |case| case.title = "An \"odd\" case".into());
    assert_eq!(text, CASE.replace("\"A case\"", r#""An \"odd\" case""#));
}

#[test]
fn a_field_comes_where_it_would_stand_and_as_its_neighbours_do() {
    let text = with(CASE, |case| case.readings[0].sd = Some(0.1));
    assert_eq!(text, CASE.replace("\"kg\", by", "\"kg\", sd: 0.1, by"));
    let text = with(CASE, |case| case.readings[1].sd = Some(0.1));
    assert_eq!(
        text,
        CASE.replace("unit: \"mm\",\n", "unit: \"mm\",\n            sd: 0.1,\n")
    );
    let text = with(CASE, |case| {
        case.readings[1].set_aside = Some("misread".into());
    });
    let line = "method: edge_to_edge,\n";
    assert_eq!(
        text,
        CASE.replace(
            line,
            &format!("{line}            set_aside: \"misread\",\n")
        )
    );
    assert_eq!(with(&text, |case| case.readings[1].set_aside = None), CASE);
}

#[test]
fn a_new_reading_is_laid_out_as_the_one_before_it() {
    let add = |place: usize| {
        with(CASE, |case| {
            let mut reading = case.readings[1].clone();
            reading.id = ReadingId("new".into());
            case.readings.insert(place, reading);
        })
    };
    let row = "        (id: \"new\", of: \"defect.long_axis\", value: 5, unit: \"mm\", \
               by: angiography, method: edge_to_edge),\n";
    let evening = "// in the evening\n";
    assert_eq!(add(1), CASE.replace(evening, &format!("{evening}{row}")));
    let lines = "        (\n            id: \"new\",\n            of: \"defect.long_axis\",\n            \
                 value: 5,\n            unit: \"mm\",\n            by: angiography,\n            \
                 method: edge_to_edge,\n        ),\n";
    let last = "        // Last of all.\n";
    assert_eq!(add(2), CASE.replace(last, &format!("{lines}{last}")));
    let first = with(CASE, |case| {
        case.readings.swap(0, 1);
        case.readings.remove(0);
    });
    assert!(first.contains("// in the evening") && !first.contains("// the throat"));
}

#[test]
fn what_is_taken_out_takes_its_line_along_and_leaves_the_comments() {
    let text = with(CASE, |case| {
        case.readings.remove(0);
    });
    assert!(
        text.contains("// Of the child.\n        // in the evening\n        (\n"),
        "{text}"
    );
    let text = with(CASE, |case| {
        case.readings.remove(1);
    });
    assert!(
        text.contains("// in the evening\n        // Last of all.\n"),
        "{text}"
    );
    let text = with(CASE, |case| case.readings.clear());
    assert_eq!(parse_case("x", &text).unwrap().value().readings, []);
    for comment in ["// Of the child.", "// in the evening", "// Last of all."] {
        assert!(text.contains(comment), "{text}");
    }
}

#[test]
fn groups_that_were_left_out_are_put_in() {
    let text = with(CASE, |case| {
        case.facts.prolapse = Prolapse::None;
        case.exclusions
            .insert("aortic_regurgitation".into(), Answer::No);
        case.exclusions
            .insert("cusp_in_defect".into(), Answer::Unknown);
        case.absent.clear();
        case.lesson = Some("Look.".into());
    });
    assert!(text.contains("    lesson: \"Look.\",\n"), "{text}");
    assert!(
        text.contains("    facts: (\n        prolapse: none,\n    ),\n"),
        "{text}"
    );
    let exclusions = "    exclusions: {\n        \"aortic_regurgitation\": no,\n        \"cusp_in_defect\": unknown,\n    },\n";
    assert!(text.contains(exclusions), "{text}");
    assert!(text.contains("out_of_reach: [/* none */ ]"), "{text}");
}

#[test]
fn an_exception_is_touched_where_it_changed_alone() {
    let text = CASE.replace(
        "    out_of",
        &format!("{}    out_of", EXCEPTIONS.trim_start_matches('\n')),
    );
    let but = |change: fn(&mut Vec<Exception>)| with(&text, |case| change(&mut case.exceptions));
    let written = but(|all| {
        let (stop, caution) = (
            Band {
                low: Some(1.0),
                high: Some(2.5),
            },
            Band::NONE,
        );
        all[0].instead = Stated::Limits { stop, caution };
    });
    let band = "(low: 1, high: /* more */ 2.5)";
    assert_eq!(written, text.replace("(high: /* more */ 3)", band));
    let written = but(|all| all[1].instead = Stated::Value(9.5));
    assert_eq!(written, text.replace("value: 8", "value: 9.5"));
    let written = but(|all| drop(all.remove(0)));
    assert!(written.contains("// Agreed for") && written.contains("// Of the model."));
    assert!(!written.contains("waist_fit"));
    let written = with(CASE, |case| {
        case.exceptions.push(Exception {
            rule: "tie".parse().unwrap(),
            instead: Stated::Value(3.0),
            because: "a small list".into(),
        });
    });
    let row = "    exceptions: [\n        (rule: \"tie\", value: 3, because: \"a small list\"),\n    ],\n)";
    assert!(written.ends_with(&format!("{row}\n")), "{written}");
    assert_eq!(
        with(&written, |case| case.exceptions.clear())
            .matches("\"tie\"")
            .count(),
        0
    );
}

#[test]
fn what_moves_takes_its_words_and_comments_along() {
    let moved = with(CASE, |case| case.readings.swap(0, 1));
    let weight = "(id: \"w\", of: \"patient.weight\", value: 4, unit: \"kg\", by: bedside),";
    let throat = "        (\n            id: \"t\", // the throat\n            of:";
    assert!(moved.contains(throat) && moved.contains(weight), "{moved}");
    assert!(moved.find(throat) < moved.find(weight), "{moved}");
    let excepted = CASE.replace("    out_of", &format!("{EXCEPTIONS}    out_of"));
    let moved = with(&excepted, |case| {
        case.exceptions.swap(0, 1);
        for exception in &mut case.exceptions {
            exception.because = "asked again".into();
        }
    });
    let first =
        "(rule: \"waist_fit\", limit: (high: /* more */ 3), warning: (), because: \"asked again\")";
    let second = "(rule: \"tilt_sd\", value: 8, because: \"asked again\")";
    assert!(moved.find(second) < moved.find(first), "{moved}");
}

#[test]
fn marks_and_line_breaks_of_other_systems_stay() {
    let other = format!("\u{feff}{}", CASE.replace('\n', "\r\n"));
    let file = file(&other);
    let mut case = file.value().clone();
    case.readings[1].sd = Some(0.5);
    let read = file.with(&case).unwrap();
    let written = read.source().original();
    assert!(written.starts_with('\u{feff}'));
    assert_eq!(
        written.matches('\n').count(),
        written.matches("\r\n").count()
    );
    assert!(written.contains("            sd: 0.5,\r\n"));
}

#[test]
fn what_no_file_may_say_is_refused() {
    let file = file(CASE);
    let refused = |change: fn(&mut Case)| {
        let mut case = file.value().clone();
        change(&mut case);
        file.with(&case).unwrap_err().to_string()
    };
    for message in [
        refused(|case| case.readings[0].value = f64::NAN),
        refused(|case| case.readings[0].value = -1.0),
        refused(|case| case.title = " ".into()),
        refused(|case| case.readings[1].id = ReadingId("w".into())),
        refused(|case| case.readings[1].id = ReadingId("a b\n".into())),
    ] {
        assert!(message.contains("case.ron:"), "{message}");
    }
    let large = refused(|case| case.title = "x".repeat(300_000));
    assert!(large.contains("larger than 256 KiB"), "{large}");
}

/// A scenario, laid out as someone else would.
fn any_file() -> impl Strategy<Value = String> {
    (
        0..shipped::SCENARIOS.len(),
        any::<bool>(),
        any::<Option<u64>>(),
    )
        .prop_map(|(index, excepts, shuffle)| {
            let (_, text) = shipped::SCENARIOS[index];
            let mut text = text.to_owned();
            if let (true, Some(end)) = (excepts, text.rfind(')')) {
                text.insert_str(end, EXCEPTIONS);
            }
            shuffle.map_or_else(|| text.clone(), |shuffle| laid_out(&text, shuffle))
        })
}

const EXCEPTIONS: &str = r#"
    // Agreed for this child alone.
    exceptions: [
        (rule: "waist_fit", limit: (high: /* more */ 3), warning: (), because: "a thin wall"),
        // Of the model.
        (rule: "tilt_sd", value: 8, because: "seen to tilt"), // in the room
    ],
"#;

/// That a file says an edited case, and every comment outside what was taken out.
fn check(file: &CaseFile, edits: &[Edit]) -> Result<CaseFile, TestCaseError> {
    let case = edited(file.value(), edits);
    if !may_be_said(&case) {
        return Ok(file.clone());
    }
    let name = file.source().name();
    let spliced = file.with(&case);
    let spliced = spliced.map_err(|error| TestCaseError::fail(format!("{name}: {error}")))?;
    let read = parse_case(name, &spliced.source().original()).unwrap();
    prop_assert_eq!(read.value(), &case);
    let written = comments(spliced.source().text());
    for comment in layout::lasting(file, &case) {
        prop_assert!(written.contains(&comment), "{} is lost", comment);
    }
    Ok(spliced)
}

/// Whether a file may say a case: edits are made at random.
fn may_be_said(case: &Case) -> bool {
    case.absent.iter().all(|absent| {
        case.readings.iter().all(|reading| {
            let structure = reading.quantity.info().structure;
            reading.set_aside.is_some() || sizing::resolve::neighbour_of(structure) != Some(*absent)
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_spliced_text_says_the_edited_case(
        text in any_file(), edits in prop::collection::vec(any_edit(), 1..6),
    ) {
        check(&file(&text), &edits)?;
    }

    #[test]
    fn edit_after_edit_and_all_back_again(
        text in any_file(), edits in prop::collection::vec(any_edit(), 1..12),
    ) {
        let original = file(&text);
        let mut now = original.clone();
        for edit in &edits {
            now = check(&now, std::slice::from_ref(edit))?;
        }
        let back = now.with(original.value());
        prop_assert!(back.is_ok(), "{:?}", back);
    }

    #[test]
    fn a_spliced_catalogue_says_what_is_wanted(
        changes in prop::collection::vec((0..6_u8, 0..9_usize, 0..9_usize, 4..40_u32), 1..6),
        shuffle in any::<Option<u64>>(),
    ) {
        let (name, text) = shipped::SHAPES;
        let text = shuffle.map_or_else(|| text.to_owned(), |shuffle| laid_out(text, shuffle));
        let file = parse_catalogue(name, &text).unwrap();
        let wanted = edits::edited_catalogue(file.value(), &changes);
        let spliced = file.with(&wanted);
        prop_assert!(spliced.is_ok(), "{:?}", spliced.err());
    }
}

#[test]
fn a_size_added_behind_the_rows_leaves_the_series() {
    let (name, text) = shipped::SHAPES;
    let file = parse_catalogue(name, text).unwrap();
    let mut wanted = file.value().clone();
    let mut size = wanted.shapes[0].sizes[3].clone();
    size.label = "mine".into();
    size.sheath.outer_diameter = Some(2.5);
    let rows = file.rows_of(0);
    wanted.shapes[0].sizes.insert(rows, size);
    let spliced = file.with(&wanted).unwrap();
    let (was, is) = changed(text, spliced.source().text());
    assert_eq!(was, [""; 0]);
    assert_eq!(is.len(), 3, "{is:?}");
    assert_eq!(spliced.rows_of(0), rows + 1);
    wanted.shapes[0].sizes[rows].occluder.waist.length = 3.25;
    let again = spliced.with(&wanted).unwrap();
    assert_eq!(
        changed(spliced.source().text(), again.source().text())
            .1
            .len(),
        1
    );
    // A size of a series that is changed makes rows of all.
    let last = wanted.shapes[0].sizes.len() - 1;
    wanted.shapes[0].sizes[last].label = "other".into();
    assert_eq!(again.with(&wanted).unwrap().rows_of(0), last + 1);
}

/// Every scenario of 0.1, in the words of format 1.
fn scenarios_of_0_1() -> Vec<String> {
    let folder = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../tests/tests/files/old/scenarios"
    );
    let mut paths: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    paths
        .iter()
        .map(|path| std::fs::read_to_string(path).unwrap())
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn the_first_edit_of_an_old_file_puts_it_into_todays_words(
        index in 0..16_usize, shuffle in any::<u64>(), edits in prop::collection::vec(any_edit(), 1..4),
    ) {
        let old = laid_out(&scenarios_of_0_1()[index], shuffle);
        let opened = file(&old);
        // Reading changes nothing.
        prop_assert_eq!(opened.source().original(), old.as_str());
        let unchanged = opened.with(opened.value()).unwrap();
        prop_assert_eq!(unchanged.source().original(), old.as_str());
        let saved = opened.saved_with(opened.value()).unwrap();
        prop_assert_eq!(saved.value(), opened.value());
        prop_assert_eq!(comments(saved.source().text()), comments(&old));
        prop_assert!(!crate::format_1::is_of_format_1(saved.source().text()));
        check(&opened, &edits)?;
    }
}
