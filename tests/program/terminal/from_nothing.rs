//! From nothing to a ranked case in a file, key by key as an operator typed it.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use crate::desk::Desk;
use crate::played::Played;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

/// What was typed, with what was seen.
const SCRIPT: &str = include_str!("from_nothing.keys");

/// The same in a small terminal, with slips: months taken for years, a rim mistyped.
const ELEVEN_MONTHS: &str = include_str!("eleven_months.keys");

/// The fewest keys from nothing to a ranked list.
const FEW_KEYS: &str = include_str!("few_keys.keys");

/// A reading found by its name in a report.
const QPQS: &str = include_str!("qpqs.keys");

/// Places of the ranked list that are compared: what the screen shows of it.
const COMPARED: usize = 6;

/// The program without an argument in an empty home, in a terminal of so many columns
/// and rows.
fn open(home: &Desk, size: (u16, u16)) -> Played {
    let home = home.path("");
    let variables = ["HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"].map(|name| (name, &*home));
    Played::start(&[], &variables, size)
}

/// Keys pressed one after the other, and what the screen says then.
struct Group {
    keys: Vec<String>,
    seen: Option<&'static str>,
}

fn groups(script: &'static str) -> Vec<Group> {
    let lines = script
        .lines()
        .filter(|line| !line.starts_with("keystrokes:"));
    let told = lines.map(|line| line.split_once('#').map_or(line, |(told, _)| told));
    told.filter(|told| !told.trim().is_empty())
        .map(|told| {
            let (keys, seen) = told
                .split_once('→')
                .map_or((told, None), |(keys, seen)| (keys, Some(seen.trim())));
            let keys = keys.split_whitespace().flat_map(keys_of).collect();
            Group { keys, seen }
        })
        .collect()
}

/// A key by its name as a terminal sends it, or else a key for each letter.
fn keys_of(word: &str) -> Vec<String> {
    match word {
        "enter" => vec!["\r".to_owned()],
        "right" => vec!["\u{1b}[C".to_owned()],
        "page-up" => vec!["\u{1b}[5~".to_owned()],
        "esc" => vec!["\u{1b}".to_owned()],
        "backspace" => vec!["\u{7f}".to_owned()],
        "space" => vec![" ".to_owned()],
        letters => letters.chars().map(String::from).collect(),
    }
}

/// Presses what a script says and waits for what it saw.
pub(crate) fn play(played: &mut Played, script: &'static str) {
    let groups = groups(script);
    for group in &groups {
        for key in &group.keys {
            played.send(key);
        }
        if let Some(seen) = group.seen {
            played.wait_for(seen);
        }
    }
    let pressed: usize = groups.iter().map(|group| group.keys.len()).sum();
    assert!(
        script.contains(&format!("\nkeystrokes: {pressed}\n")),
        "{pressed} keys were pressed, and the script says otherwise"
    );
}

fn run(arguments: &[&str], case: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_rimwise"))
        .env("LC_ALL", "C.UTF-8")
        .env("TERM", "xterm")
        .args(arguments)
        .arg(case)
        .output()
        .expect("the program runs")
}

/// A size as the screen calls it.
fn device(shape: &str, size: &str) -> String {
    let words = shape.split('-').filter(|word| *word != "even");
    let words: Vec<&str> = words
        .map(|word| if word == "plug" { "barrel" } else { word })
        .collect();
    format!("{} {}", words.join(" "), size.replace('x', " × "))
}

/// The fewest keys: every question that a muscular defect needs, in a small terminal.
#[test]
fn a_muscular_case_is_ranked_from_nothing_in_at_most_fifty_keys() {
    const MOST: usize = 50;
    let home = Desk::new("few-keys");
    let mut played = open(&home, (80, 24));
    played.wait_for("N begins your case");
    play(&mut played, FEW_KEYS);
    let pressed: usize = groups(FEW_KEYS).iter().map(|group| group.keys.len()).sum();
    assert!(pressed <= MOST, "{pressed} keys");
    played.wait_for_row(&["1 ", " %"]);
    played.send("\u{3}");
}

/// A quantity of a report that was not measured is found by its name there, and its
/// value asked for.
#[test]
fn qp_qs_is_found_in_at_most_eight_keys() {
    const MOST: usize = 8;
    let home = Desk::new("qpqs");
    let mut played = open(&home, (80, 24));
    played.wait_for("% ");
    play(&mut played, QPQS);
    let pressed: usize = groups(QPQS).iter().map(|group| group.keys.len()).sum();
    assert!(pressed <= MOST, "{pressed} keys");
    played.send("\u{3}");
}

#[test]
fn a_case_is_asked_for_ranked_and_saved() {
    let home = Desk::new("nothing");
    let mut played = open(&home, (120, 40));
    played.wait_for("N begins your case");
    play(&mut played, SCRIPT);

    let case = home.folder().join("child.ron");
    let checked = run(&["check"], &case);
    assert!(checked.status.success(), "{checked:?}");

    // What the screen has come to is what the command line says of the file.
    let ranked = run(&["rank", "--format", "csv"], &case);
    assert!(ranked.status.success(), "{ranked:?}");
    let ranked = String::from_utf8(ranked.stdout).expect("text");
    let mut rows = ranked
        .lines()
        .map(|line| line.split(',').collect::<Vec<_>>());
    let names = rows.next().expect("names");
    let column = |name: &str| names.iter().position(|it| *it == name).expect("a column");
    let columns = ["shape", "size", "verdict", "chance"].map(column);
    for row in rows.take(COMPARED) {
        let [shape, size, verdict, chance] = columns.map(|column| row[column]);
        let chance: f64 = chance.parse().expect("a chance");
        let percent = format!("{:.0} %", 100.0 * chance);
        played.wait_for_row(&[&device(shape, size), verdict, &percent]);
    }
    played.send("q");
    assert_eq!(played.exit(), 0);
}

#[test]
fn eleven_months_and_a_corrected_rim_are_typed_in_a_small_terminal() {
    let home = Desk::new("months");
    let mut played = open(&home, (80, 24));
    played.wait_for("N begins your case");
    play(&mut played, ELEVEN_MONTHS);
    played.send("q");
    assert_eq!(played.exit(), 0);

    let case = home.folder().join("child.ron");
    let checked = run(&["check"], &case);
    assert!(checked.status.success(), "{checked:?}");
    let text = fs::read_to_string(&case).expect("the case");
    let line = |address: &str| {
        let lines: Vec<&str> = text.lines().filter(|line| line.contains(address)).collect();
        assert_eq!(lines.len(), 1, "{address}: {lines:?}");
        lines[0].to_owned()
    };
    assert!(line("patient.age").contains("value: 0.9167, unit: \"years\""));
    assert!(line("patient.weight").contains("value: 7.2, unit: \"kg\""));
    assert!(line("aortic.rim").contains("value: 2.5, unit: \"mm\""));
    // Nothing of it stands under what does not add up.
    let worked_up = run(&["workup"], &case);
    let worked_up = String::from_utf8(worked_up.stdout).expect("text");
    assert!(
        worked_up.contains("No contradiction was found"),
        "{worked_up}"
    );
}
