//! Where the terminal has plain letters alone, nothing else is written for people;
//! what programs read is the same everywhere.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use crate::played::Played;
use std::process::{Command, Output};

/// What says that there are plain letters alone.
const PLAIN: [&[(&str, &str)]; 3] = [
    &[("LC_ALL", "C"), ("TERM", "xterm")],
    &[("LC_ALL", ""), ("LC_CTYPE", "POSIX"), ("TERM", "xterm")],
    &[("LC_ALL", "C.UTF-8"), ("TERM", "dumb")],
];

fn rimwise(arguments: &[&str], variables: &[(&str, &str)]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_rimwise"))
        .args(arguments)
        .env("XDG_CONFIG_HOME", "/nowhere")
        .envs(variables.iter().copied())
        .output()
        .expect("the program starts")
}

#[test]
fn what_people_read_is_in_plain_letters() {
    let calls: [&[&str]; 9] = [
        &["rank", "outlet-infant", "--draws", "64"],
        &[
            "compare",
            "outlet-infant",
            "even-narrow/5x3",
            "offset-left/5x3",
            "--draws",
            "64",
        ],
        &["fit-map", "outlet-infant", "--draws", "64"],
        &["workup", "outlet-infant", "--draws", "64"],
        &["outlet-infant", "--plain"],
        &["--help"],
        &["manual"],
        &["rank", "no such … case"],
        &["rank", "outlet-infant", "--draws", "Ü"],
    ];
    for variables in PLAIN {
        for call in calls {
            let output = rimwise(call, variables);
            for (text, to) in [(&output.stdout, "stdout"), (&output.stderr, "stderr")] {
                assert!(text.is_ascii(), "{call:?} {variables:?}: {to}");
            }
            assert!(output.stdout.len() + output.stderr.len() > 20, "{call:?}");
        }
    }
}

#[test]
fn a_line_says_the_same_in_plain_letters() {
    let calls: [&[&str]; 3] = [
        &["rank", "outlet-infant", "--draws", "64"],
        &["workup", "outlet-infant", "--draws", "64"],
        &["outlet-infant", "--plain"],
    ];
    for call in calls {
        let text = |variables: &[(&str, &str)]| {
            let output = rimwise(call, variables);
            String::from_utf8(output.stdout).expect("UTF-8")
        };
        let full = text(&[("LC_ALL", "C.UTF-8"), ("TERM", "xterm")]);
        let plain = text(PLAIN[0]);
        assert!(!full.is_ascii() && plain.is_ascii(), "{call:?}");
        assert_eq!(full.lines().count(), plain.lines().count(), "{call:?}");
        let asked = |text: &str| text.matches('?').count();
        assert_eq!(asked(&full), asked(&plain), "a sign has no letter: {plain}");
    }
}

#[test]
fn what_programs_read_is_the_same_everywhere() {
    let calls: [&[&str]; 4] = [
        &["rank", "outlet-infant", "--draws", "64", "--format", "json"],
        &["rank", "outlet-infant", "--draws", "64", "--format", "csv"],
        &[
            "fit-map",
            "outlet-infant",
            "--draws",
            "64",
            "--format",
            "csv",
        ],
        &[
            "workup",
            "outlet-infant",
            "--draws",
            "64",
            "--format",
            "json",
        ],
    ];
    for call in calls {
        let usual = rimwise(call, &[("LC_ALL", "C.UTF-8"), ("TERM", "xterm")]);
        for variables in PLAIN {
            let output = rimwise(call, variables);
            assert!(output.stdout == usual.stdout, "{call:?} {variables:?}");
        }
    }
}

#[test]
fn every_page_of_the_screen_is_in_plain_letters() {
    for size in [(80, 24), (120, 40)] {
        let mut played = Played::start(&["outlet-infant"], &[("LC_ALL", "C")], size);
        played.wait_for("% ");
        for page in ["1", "2", "3", "4", "5", "6", "7", "1", "?"] {
            played.send(page);
            played.wait_for_quiet();
        }
        assert!(played.text().contains("All keys"), "{}", played.text());
        played.send("\u{1b}");
        played.wait_for("Ranked");
        played.send("q");
        assert_eq!(played.exit(), 0);
        assert!(played.written().is_ascii());
    }
}

#[test]
fn a_terminal_that_cannot_place_text_gets_the_list() {
    let mut played = Played::start(&["outlet-infant"], &[("TERM", "dumb")], (80, 24));
    assert_eq!(played.exit(), 0);
    let written = played.written();
    assert!(written.contains("rimwise --help"), "{written}");
    assert!(written.is_ascii() && !written.contains('\u{1b}'));
}
