//! `rimwise lookback`: many cases of a folder together.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use crate::call::{Call, complaint, printed};
use crate::desk::Desk;
use unicode_width::UnicodeWidthStr;

/// A folder of cases with a forecast each, of which every third was a yes.
fn folder(name: &str, cases: usize) -> Desk {
    let desk = Desk::new(name);
    let (_, text) = files::shipped::scenario("outlet-infant").expect("a scenario");
    let end = text.rfind(')').expect("the end of the case");
    for case in 0..cases {
        let answer = if case % 3 == 0 { "yes" } else { "no" };
        let fields = format!(
            "case_id: \"case-{case:03}\", trials: [(id: \"t1\", size: \"even-narrow/5.5x2\", \
             opened_min: 44, closed_min: 52, seen: [(id: \"s1\", what: touches, \
             of: aortic_valve, answer: {answer}, min: 46)], came_of_it: released, forecast: \
             (opened: (ess: 4096, inside: 0.6, seen: [(what: touches, of: aortic_valve, \
             yes: 0.3)])))]"
        );
        let text = format!("{}{fields}\n)\n", &text[..end]);
        desk.file(&format!("case-{case:03}.ron"), &text);
    }
    desk
}

fn look_back(desk: &Desk, format: &str) -> Call {
    let folder = desk.folder().display().to_string();
    Call::of(&["lookback", &folder, "--format", format])
}

#[test]
fn a_folder_is_looked_back_over() {
    let desk = folder("look-back", 45);
    let page = look_back(&desk, "text").text();
    for line in page.lines() {
        assert!(line.width() <= 80, "{line}");
        assert_eq!(line, line.trim_end());
    }
    for part in [
        "We expected a yes in 30 of 100; we saw one in 33 of 100",
        "45 cases, 45 deployments, 45 released",
        "contact, aortic valve",
        "33 % (21 % to 48 %)",
    ] {
        let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains(part), "{part:?} not in\n{page}");
    }
    let page = look_back(&desk, "json").json();
    let row = &page["answers"][0];
    assert_eq!(
        (&row["pairs"]["pairs"], &row["pairs"]["seen"]),
        (&45.into(), &15.into())
    );
    assert_eq!(row["judged"], true);
    let table = look_back(&desk, "csv").text();
    assert!(
        table.contains("answer,touches,aortic_valve,,45,0.3,15,"),
        "{table}"
    );
    let picture = look_back(&desk, "svg").text();
    assert!(picture.starts_with("<svg ") && picture.contains("45 answers: too few"));
}

#[test]
fn few_answers_are_not_judged() {
    let desk = folder("look-back-few", 29);
    let page = look_back(&desk, "text").text();
    assert!(page.contains("too few to judge (under 30)"), "{page}");
    assert!(page.contains("There are too few answers to judge the chances."));
    let page = look_back(&desk, "json").json();
    assert_eq!(page["answers"][0]["judged"], false);
    assert!(page["answers"][0]["brier"].is_null() && page["answers"][0]["z"].is_null());
}

/// A bad file is named, and so is a case that stands there twice; the rest is counted.
#[test]
fn a_bad_file_is_named_and_the_rest_counted() {
    let desk = folder("look-back-bad", 31);
    desk.file("broken.ron", "(format: 2, title: ");
    let again = std::fs::read_to_string(desk.folder().join("case-004.ron")).expect("a case");
    desk.file("copy-of-4.ron", &again);
    desk.file("notes.txt", "no case");
    let output = look_back(&desk, "text").output();
    assert_eq!(output.status.code(), Some(2));
    assert!(printed(&output).contains("31 cases, 31 deployments"));
    let says = complaint(&output);
    assert!(says.contains("broken.ron"), "{says}");
    assert!(says.contains("copy-of-4.ron: the case of"), "{says}");
    assert!(says.contains("2 of 33 cases left out"), "{says}");
    let empty = Desk::new("look-back-empty");
    let says = look_back(&empty, "text").refused();
    assert!(says.contains("no case file"), "{says}");
    let says = Call::of(&["lookback", "/nowhere/at/all"]).refused();
    assert!(says.contains("name a folder of case files"), "{says}");
}

/// Figures do not depend on how many threads read.
#[test]
fn threads_change_nothing() {
    let desk = folder("look-back-threads", 32);
    let one = look_back(&desk, "json").and(&["--threads", "1"]).text();
    let four = look_back(&desk, "json").and(&["--threads", "4"]).text();
    assert_eq!(one, four);
}
