//! `rimwise criteria`: release criteria, shown and written.

use crate::call::{Call, json, text};
use crate::desk::Desk;
use unicode_width::UnicodeWidthStr;

const SIZE: &str = "even-narrow/5x2";

#[test]
fn criteria_are_shown_without_a_word_of_advice() {
    let (name, _) = files::shipped::SCENARIOS[0];
    let page = text(&["criteria", name, SIZE]);
    for line in page.lines() {
        assert!(line.width() <= 80, "{line}");
    }
    for word in [
        "jet at the edge",
        "inside at 1.0 mm or less; beyond over 2.0 mm",
        "rhythm",
        "emergency outside",
    ] {
        assert!(page.contains(word), "{word} not in\n{page}");
    }
    assert!(page.contains("common practice, no source") && page.contains("Dodge-Khatami"));
    // The caution names the word once; the criteria bear it in their name alone.
    let without = page.replace("Release criteria", "").to_lowercase();
    let advice = without.split("release").count() - 1;
    assert!(advice <= 1, "{page}");
}

#[test]
fn criteria_are_written_once_and_stay_as_they_are() {
    let desk = Desk::new("criteria-written");
    let path = desk.file("case.ron", files::shipped::SCENARIOS[0].1);
    let before = std::fs::read_to_string(&path).expect("a file");
    text(&["criteria", &path, SIZE]);
    assert_eq!(std::fs::read_to_string(&path).expect("a file"), before);
    text(&["criteria", &path, SIZE, "--write"]);
    let written = std::fs::read_to_string(&path).expect("a file");
    assert!(written.contains("planned_on: \"") && written.contains("row: edge_jet"));
    assert!(
        before.lines().all(|line| written.contains(line)),
        "comments stay"
    );
    text(&["check", &path]);
    // A bound that someone changed by hand before the procedure stays.
    let changed = written.replacen("inside: 1, beyond: 2", "inside: 1, beyond: 1.5", 1);
    assert_ne!(changed, written);
    std::fs::write(&path, &changed).expect("a file");
    text(&["criteria", &path, SIZE, "--write"]);
    assert_eq!(std::fs::read_to_string(&path).expect("a file"), changed);
    let page = text(&["criteria", &path, SIZE]);
    assert!(page.contains("beyond over 1.5 mm") && page.contains("written in the case"));
    assert!(!page.contains("changed since"));
    // A reading that changes afterwards is said above them.
    let moved = changed.replacen("value: 1.5", "value: 1.7", 1);
    assert_ne!(moved, changed);
    std::fs::write(&path, &moved).expect("a file");
    let page = text(&["criteria", &path, SIZE]);
    assert!(page.contains("changed since"), "{page}");
}

#[test]
fn a_trial_stands_against_its_criteria_as_json() {
    let desk = Desk::new("criteria-trial");
    let path = desk.file("case.ron", files::shipped::SCENARIOS[0].1);
    text(&["criteria", &path, SIZE, "--write"]);
    let written = std::fs::read_to_string(&path).expect("a file");
    let trial = format!(
        "trials: [(id: \"t1\", size: \"{SIZE}\", opened_min: 40, seen: [
            (id: \"s1\", what: edge_jet, value: 2.5), (id: \"s2\", what: slips, answer: no)])],\n)"
    );
    let end = written.rfind(')').expect("an end");
    std::fs::write(&path, format!("{}{trial}", &written[..end])).expect("a file");
    let page = json(&["criteria", &path, SIZE, "--format", "json"]);
    let state = |row: &str| {
        let rows = page["criteria"].as_array().expect("rows");
        let found = rows.iter().find(|one| one["row"] == row).expect("a row");
        found["states"][0]["state"]
            .as_str()
            .expect("a state")
            .to_owned()
    };
    assert_eq!(state("edge_jet"), "beyond the limit written before");
    assert_eq!(state("slips"), "inside");
    assert_eq!(state("rhythm"), "not looked at");
    assert_eq!(page["changed_since"], false);
}

#[test]
fn a_size_that_is_not_there_and_a_case_without_a_file_are_refused() {
    let desk = Desk::new("criteria-refused");
    let path = desk.file("case.ron", files::shipped::SCENARIOS[0].1);
    let refused = |arguments: &[&str]| Call::of(arguments).refused();
    assert!(refused(&["criteria", &path, "no/size"]).contains("no size `no/size`"));
    let (name, _) = files::shipped::SCENARIOS[0];
    assert!(refused(&["criteria", name, SIZE, "--write"]).contains("save it under a name"));
    let text = std::fs::read_to_string(&path).expect("a file");
    let end = text.rfind(')').expect("an end");
    let trial = "trials: [(id: \"t1\", size: \"even-narow/5x2\", opened_min: 40)],\n)";
    std::fs::write(&path, format!("{}{trial}", &text[..end])).expect("a file");
    let complaint = refused(&["rank", &path, "--draws", "0"]);
    assert!(
        complaint.contains("Did you mean even-narrow/5x2?"),
        "{complaint}"
    );
}
