use super::*;
use crate::shipped;

/// A lesson about `outlet-infant` with these steps.
fn text(steps: &str) -> String {
    format!(
        "(format: 2, title: \"t\", order: 1, case: \"outlet-infant\",\npoints: [nothing_fits],\nsteps: [\n{steps}\n])"
    )
}

fn faults(text: &str) -> Vec<Diagnostic> {
    let file = match parse_lesson("l.ron", text) {
        Ok(file) => file,
        Err(faults) => return faults,
    };
    let case = case_of_lesson(&file, None).unwrap().into_value();
    let shapes = crate::parse_catalogue(shipped::SHAPES.0, shipped::SHAPES.1).unwrap();
    file.faults_against(&case, &[shapes.into_value()])
}

/// Each fault where a mark stands in the text, with what was expected.
#[test]
fn faults_are_told_at_their_place() {
    for (steps, expected) in [
        (
            "(ask: which_first([\"even-wide/5x3\", ¦\"even-wid/5x3\"]))",
            "a size of the catalogue",
        ),
        ("(ask: which_fit(¦[\"even-wide/5x3\"]))", "2 to 8 sizes"),
        (
            "(ask: which_fit([\"even-wide/5x3\", ¦\"even-wide/5x3\"]))",
            "it once",
        ),
        (
            "(ask: value(check: ¦clearence, of: shape, size: \"even-wide/5x3\", within: 1))",
            "the id of a check, such as clearance",
        ),
        (
            "(ask: value(check: clearance, of: ¦heart, size: \"even-wide/5x3\", within: 1))",
            "shape, left, right, aortic_valve, mitral_valve, tricuspid_valve, pulmonary_valve, \
             vein or artery",
        ),
        (
            "(ask: value(check: clearance, of: shape, size: \"even-wide/5x3\", within: ¦-1))",
            "a number from 0 to 1000",
        ),
        (
            "(ask: likely(size: \"even-wide/5x3\", within: ¦300))",
            "a number from 0 to 100 %",
        ),
        (
            "(ask: decides(within_first: ¦99))",
            "a whole number from 1 to 6",
        ),
        (
            "(ask: nudge_until(reading: ¦\"rim\", size: \"even-wide/5x3\", inside: clearance, \
             of: aortic_valve, within: 1))",
            "a reading of the case",
        ),
        (
            "(tell: \"a\",\n show: ¦\"wide\")",
            "a size of the catalogue",
        ),
        (
            "¦(tell: \"a\", ask: stop_or_go_on())",
            "one of ask, tell or change",
        ),
        ("¦(words: \"a\")", "one of ask, tell or change"),
        ("(tell: ¦\" \")", "some text"),
        ("(change: ¦())", "values, without or readings"),
        (
            "(change: (values: {\"no-such\": ¦1.0}))",
            "a reading of the case",
        ),
        (
            "(change: (values: {\"weight\": ¦-3.0}))",
            "a number from 0.4 to 250 kg",
        ),
        (
            "(change: (without: [¦\"no-such\"]))",
            "a reading of the case",
        ),
    ] {
        let marked = text(steps);
        let before = marked.split('¦').next().unwrap();
        let line = 1 + before.matches('\n').count();
        let column = 1 + before.lines().last().map_or(0, |line| line.chars().count());
        let faults = faults(&marked.replace('¦', ""));
        let [fault, ..] = faults.as_slice() else {
            panic!("no fault: {steps}");
        };
        // At the beginning of a line there is nothing before the mark.
        let column = if before.ends_with('\n') { 1 } else { column };
        let at = (fault.at.line, fault.at.column, fault.expected.as_str());
        assert_eq!(at, (line, column, expected), "{steps}: {fault}");
    }
    let none = faults(&text(""));
    assert_eq!(none[0].expected, "1 to 60 steps");
}

/// A reading that a change takes out cannot be moved afterwards.
#[test]
fn a_reading_taken_out_is_gone_for_the_steps_after_it() {
    let steps = "(change: (without: [\"weight\"])),\n(change: (values: {\"weight\": 4.0}))";
    let faults = faults(&text(steps));
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert_eq!(faults[0].at.line, 5);
}

/// A lesson opens what lies beside it and nothing else.
#[test]
fn the_case_of_a_lesson_is_a_name_and_no_path() {
    for case in ["../secret", "/etc/passwd", "a/b.ron", "C:\\x", ""] {
        let text = text("(tell: \"a\")").replace("outlet-infant", &case.replace('\\', "\\\\"));
        let faults = parse_lesson("l.ron", &text).unwrap_err();
        assert_eq!(faults[0].field, "case", "{case}: {faults:?}");
    }
    let text = text("(tell: \"a\")").replace("outlet-infant", "outlet-infand");
    let file = parse_lesson("l.ron", &text).unwrap();
    let error = case_of_lesson(&file, None).unwrap_err().to_string();
    assert!(error.contains("l.ron:1:41: case"), "{error}");
    assert!(error.contains("Did you mean outlet-infant"), "{error}");
}

/// No answer can be written in a lesson: it would go stale.
#[test]
fn there_is_no_field_for_an_answer() {
    for field in ["answer", "right", "solution"] {
        let steps = format!("(ask: stop_or_go_on(), {field}: \"stop\")");
        assert!(parse_lesson("l.ron", &text(&steps)).is_err(), "{field}");
    }
}

#[test]
fn too_many_changes_are_refused() {
    let one = "(change: (values: {\"weight\": 4.0})),";
    let faults = faults(&text(&one.repeat(9)));
    assert_eq!(faults[0].expected, "at most 8 changes of the case");
}
