//! `rimwise trials`, and `rank` with the trials of a case taken in.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use unicode_width::UnicodeWidthStr;

const SIZE: &str = "even-narrow/5.5x2";

fn rimwise(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_rimwise"))
        .env("LC_ALL", "C.UTF-8")
        .env("TERM", "xterm")
        .args(arguments)
        .env("XDG_CONFIG_HOME", "/nowhere")
        .output()
        .expect("the program starts")
}

fn text(arguments: &[&str]) -> String {
    let output = rimwise(arguments);
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{complaint}");
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn json(arguments: &[&str]) -> serde_json::Value {
    serde_json::from_str(&text(arguments)).expect("JSON")
}

/// The outlet case with a procedure, in a folder of its own.
fn with(name: &str, procedure: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("rimwise-trials-{name}-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let (_, text) = files::shipped::scenario("outlet-infant").expect("a scenario");
    let end = text.rfind(')').expect("an end");
    let path = folder.join("case.ron");
    std::fs::write(&path, format!("{}{procedure}\n)\n", &text[..end])).expect("a file");
    path
}

fn touched() -> String {
    format!(
        "trials: [(id: \"t1\", size: \"{SIZE}\", opened_min: 44, closed_min: 52, seen: [
            (id: \"s1\", what: touches, of: aortic_valve, answer: yes, min: 46),
            (id: \"s2\", what: rhythm, grade: as_before)], came_of_it: recaptured)],"
    )
}

fn said(path: &Path) -> &str {
    path.to_str().expect("UTF-8")
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
    let path = with("shown", &touched());
    let page = text(&["trials", said(&path)]);
    for line in page.lines() {
        assert!(line.width() <= 80, "{line}");
        assert_eq!(line, line.trim_end());
    }
    for part in [
        "Deployment 1: even-narrow/5.5x2, opened at 44 min, recaptured at 52 min",
        "contact, aortic valve: yes",
        "rhythm: as before (says nothing of geometry)",
        "count in effect",
        "If every size lay alike, one more",
        "none in stock is",
        "Repeated crossings",
    ] {
        let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains(part), "{part:?} not in\n{page}");
    }
    assert!(!page.contains("at most, ") && !page.contains("advise"));

    let page = json(&["trials", said(&path), "--format", "json"]);
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
    let path = with("ranked", &touched());
    let rank = |more: &[&str]| {
        let mut all = vec!["rank", said(&path), "--format", "json"];
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
    let few = rimwise(&["rank", said(&path), "--draws", "1024"]);
    assert_eq!(few.status.code(), Some(2));
    let says = String::from_utf8_lossy(&few.stderr).into_owned();
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
