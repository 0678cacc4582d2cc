//! `rimwise workup` and the banner above a ranking, as their users call them.

use crate::call::{Call, json, text};
use crate::desk::Desk;
use unicode_width::UnicodeWidthStr;

/// The sections, in the order in which a page is read.
const SECTIONS: [&str; 7] = [
    "published",
    "indication",
    "not_measured",
    "contradictions",
    "other_ways",
    "derived",
    "inputs",
];

#[test]
fn a_page_is_80_columns_wide_and_bears_the_caution() {
    for (name, _) in files::shipped::SCENARIOS {
        let page = text(&["workup", name, "--draws", "64"]);
        for line in page.lines() {
            assert!(line.width() <= 80, "{name}: {line}");
            assert_eq!(line, line.trim_end(), "{name}: blanks at an end");
        }
        assert!(page.contains("never says whether to close"), "{name}");
        for title in [
            "PUBLISHED GUIDANCE",
            "SHOULD IT BE CLOSED AT ALL",
            "OTHER WAYS",
        ] {
            assert!(page.contains(title), "{name}: {title}");
        }
    }
    let help = text(&["workup", "--help"]);
    assert!(help.contains("--guidance") && help.contains("never says whether to close"));
}

#[test]
fn json_has_the_form_that_programs_rely_on() {
    let ask = ["workup", "outlet-infant", "--format", "json", "--seed", "7"];
    let page = json(&ask);
    assert_eq!(
        (page["format"].as_u64(), page["seed"].as_u64()),
        (Some(2), Some(7))
    );
    assert_eq!(page["indication"]["state"], "met");
    let sections = page["sections"].as_array().expect("a list");
    let names: Vec<&str> = sections
        .iter()
        .filter_map(|section| section["section"].as_str())
        .collect();
    assert_eq!(names, SECTIONS);
    let lines = sections[5]["lines"].as_array().expect("a list");
    let ratio = lines
        .iter()
        .find(|line| line["id"] == "qp_qs")
        .expect("a line");
    let low = ratio["interval"][0].as_f64().expect("a number");
    let value = ratio["value"].as_f64().expect("a number");
    assert!(1.5 < low && low < value, "{ratio}");
    assert_eq!(text(&ask), text(&ask), "a second run differs");

    let bare = json(&["workup", "slit", "--format", "json", "--draws", "0"]);
    let none = |line: &serde_json::Value| line["chance"].is_null();
    let published = bare["sections"][0]["lines"].as_array().expect("a list");
    assert!(!published.is_empty() && published.iter().all(none));
}

#[test]
fn guidance_against_closing_stands_first_and_holds_every_size() {
    let page = text(&["rank", "small-defect", "--draws", "64"]);
    let place = |of: &str| page.find(of).expect(of);
    let banner = place("!! Published guidance speaks against closing");
    let list = place("waist × length, mm");
    assert!(banner < list, "{page}");
    let list = &page[list..];
    assert!(
        list.contains(" borderline ") && !list.contains(" fits "),
        "{page}"
    );
    let page = text(&["rank", "mid-muscular", "--draws", "64"]);
    assert!(!page.contains("!! "), "{page}");
}

#[test]
fn limits_of_ones_own_serve_and_their_faults_are_told() {
    let desk = Desk::new("own-guidance");
    let (_, shipped) = files::shipped::GUIDANCE;
    let own = desk.file(
        "own.ron",
        &shipped.replace("says: \"heart failure", "says: \"MINE heart failure"),
    );
    let page = text(&["workup", "outlet-infant", "--limits", &own, "--draws", "64"]);
    assert!(page.contains("MINE heart failure"));
    assert!(text(&["check", &own]).contains("sound guidance"));

    let bad = desk.file(
        "bad.ron",
        &shipped.replacen("figure: resistance_indexed", "figure: resistance", 1),
    );
    let complaint = Call::of(&["workup", "outlet-infant", "--limits", &bad]).refused();
    assert!(complaint.contains("they do not compare"), "{complaint}");

    let complaint = Call::of(&["workup", "outlet-infant", "--draws", "100"]).refused();
    assert!(complaint.contains("nearest: 64 and 128"), "{complaint}");
}
