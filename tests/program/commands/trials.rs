//! `rimwise trials`, and `rank` with the trials of a case taken in.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use crate::call::{Call, json, text};
use crate::desk::Desk;
use unicode_width::UnicodeWidthStr;

const SIZE: &str = "even-narrow/5.5x2";

fn touched() -> String {
    format!(
        "trials: [(id: \"t1\", size: \"{SIZE}\", opened_min: 44, closed_min: 52, seen: [
            (id: \"s1\", what: touches, of: aortic_valve, answer: yes, min: 46),
            (id: \"s2\", what: rhythm, grade: as_before)], came_of_it: recaptured)],"
    )
}

/// The chance of a size in a list of candidates.
fn chance(page: &serde_json::Value, of: &str, field: &str) -> f64 {
    let all = page["candidates"].as_array().expect("candidates");
    let found = all.iter().find(|one| {
        format!(
            "{}/{}",
            one["shape"].as_str().expect("a shape"),
            one["size"].as_str().expect("a size")
        ) == of
    });
    found.expect("the size")[field].as_f64().expect("a chance")
}

#[test]
fn a_trial_is_shown_with_what_it_changes() {
    let desk = Desk::new("trials-shown");
    let path = desk.scenario("outlet-infant", &touched());
    let page = text(&["trials", &path]);
    for line in page.lines() {
        assert!(line.width() <= 80, "{line}");
        assert_eq!(line, line.trim_end());
    }
    for part in [
        "Deployment 1: narrow 5.5 × 2, opened at 44 min, recaptured at 52 min",
        "contact, aortic valve: yes",
        "rhythm: as before (says nothing of geometry)",
        "count in effect",
        "If every size lay alike, one more",
        "no size in stock is",
        "Repeated crossings",
    ] {
        let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains(part), "{part:?} not in\n{page}");
    }
    assert!(!page.contains("at most, ") && !page.contains("advise"));

    let page = json(&["trials", &path, "--format", "json"]);
    let before = chance(&page, SIZE, "chance_before");
    let after = chance(&page, SIZE, "chance");
    assert!(before - after > 0.1, "{before} {after}");
    assert!(page["ess"].as_f64().expect("a number") > 2000.0);
    assert_eq!(page["trials"][0]["seen"][0]["counted"], true);
    assert_eq!(page["trials"][0]["seen"][1]["counted"], false);
    let unions = &page["unions"];
    let [one, two, three] =
        ["one", "two", "three"].map(|of| unions[of][1].as_f64().expect("a share"));
    let none = unions["none"].as_f64().expect("a share");
    assert!(one <= two && two <= three && three <= 1.0 - none + 1e-9);
}

#[test]
fn rank_takes_trials_in_unless_they_are_left_out() {
    let desk = Desk::new("trials-ranked");
    let path = desk.scenario("outlet-infant", &touched());
    let rank = |more: &[&str]| {
        let mut all = vec!["rank", &path, "--format", "json"];
        all.extend(more);
        json(&all)
    };
    let (with, without) = (rank(&[]), rank(&["--before"]));
    assert_eq!(with["trials"], 1);
    assert!(with["ess"].as_f64().expect("a number") < 4096.0);
    assert!(without.get("ess").is_none() && without.get("trials").is_none());
    assert!(chance(&without, SIZE, "chance") - chance(&with, SIZE, "chance") > 0.1);
    // Without its trial the case is the shipped one, to the digit.
    let shipped = json(&["rank", "outlet-infant", "--format", "json"]);
    assert_eq!(shipped["candidates"], without["candidates"]);
    // Nominal values alone are as measured.
    let nominal = rank(&["--draws", "0"]);
    let shipped = json(&["rank", "outlet-infant", "--format", "json", "--draws", "0"]);
    assert_eq!(shipped["candidates"], nominal["candidates"]);
    let says = Call::of(&["rank", &path, "--draws", "1024"]).refused();
    assert!(
        says.contains("at least 4096") && says.contains("--before"),
        "{says}"
    );
}

#[test]
fn a_case_without_trials_says_so() {
    let page = text(&["trials", "outlet-infant"]);
    assert!(page.contains("No trial yet."), "{page}");
}

/// What was seen after the procedure, what is worse than at the release and what nobody
/// looked at, for programs and for people.
#[test]
fn follow_up_is_in_the_json_of_trials() {
    let page = json(&["trials", "year-of-follow-up", "--format", "json"]);
    let list = |field: &str| page[field].as_array().expect("a list").clone();
    let days = list("follow_up");
    assert!(days.len() > 1, "{days:?}");
    let seen = days[0]["seen"].as_array().expect("a list");
    assert!(seen[0]["what"].is_string() && seen[0]["id"].is_string());
    let worse = list("worse_than_at_release");
    assert!(!worse.is_empty());
    assert_ne!(worse[0]["seen"], worse[0]["at_release"]);
    let schedule = list("schedule");
    let past: Vec<_> = schedule
        .iter()
        .filter(|day| day["is_past"] == true)
        .collect();
    assert!(past.len() < schedule.len(), "the next day is there");
    let missing = past
        .iter()
        .flat_map(|day| day["not_done"].as_array().expect("a list"));
    assert!(missing.count() > 0);
    let cohorts = list("of_cohorts");
    let says = cohorts[0]["says"].as_str().expect("a sentence");
    assert!(says.contains("10 of 50"), "{says}");

    let page = text(&["trials", "year-of-follow-up"]);
    let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        "Worse than at release",
        "Not done for day",
        "Due next, day",
        "of cohorts and not of this child",
    ] {
        assert!(flat.contains(part), "{part:?} not in\n{page}");
    }
    for line in page.lines() {
        assert!(line.width() <= 80, "{line}");
    }
    let none = json(&["trials", "contact-first", "--format", "json"]);
    assert_eq!(none["schedule"], serde_json::json!([]));
    assert_eq!(none["of_cohorts"], serde_json::json!([]));
}
