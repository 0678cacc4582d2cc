//! What someone plants in the way, and a world that goes away: the program neither
//! waits nor follows nor fails.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use crate::desk::Desk;
use crate::played::Played;
use std::fmt::Write as _;
use std::fs;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

#[test]
fn opening_a_pipe_or_a_device_is_refused_at_once() {
    let desk = Desk::demonstration("pipe");
    let pipe = desk.path("pipe.ron");
    assert!(
        Command::new("mkfifo")
            .arg(&pipe)
            .status()
            .expect("mkfifo")
            .success()
    );
    let mut played = Played::start(&["outlet-infant"], &[], (80, 24));
    played.wait_for("% ");
    for path in [pipe.as_str(), "/dev/zero"] {
        played.send("O");
        played.wait_for("Open a case");
        played.paste(path);
        played.send("\r");
        played.wait_for("not a plain file");
        played.send("\u{1b}");
        played.wait_for("Ranked");
    }
    played.signal("TERM");
    played.exit();
}

#[test]
fn every_file_of_a_call_may_be_a_pipe_and_none_is_waited_for() {
    let desk = Desk::demonstration("pipes");
    let pipe = desk.path("pipe.ron");
    assert!(
        Command::new("mkfifo")
            .arg(&pipe)
            .status()
            .expect("mkfifo")
            .success()
    );
    let calls: [&[&str]; 5] = [
        &["rank", &pipe],
        &["rank", "outlet-infant", "--catalog", &pipe],
        &["rank", "outlet-infant", "--rules", &pipe],
        &["workup", "outlet-infant", "--limits", &pipe],
        &["check", &pipe],
    ];
    for call in calls {
        let start = Instant::now();
        let output = Command::new("timeout")
            .args(["10", env!("CARGO_BIN_EXE_rimwise")])
            .args(call)
            .output()
            .expect("it runs");
        let says = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{call:?}: {says}");
        assert!(says.contains("not a plain file"), "{call:?}: {says}");
        assert!(start.elapsed() < Duration::from_secs(10));
    }
    let mut played = Played::start(&["--keys", &pipe], &[], (120, 24));
    assert_eq!(played.exit(), 2);
    assert!(
        played.text().contains("not a plain file"),
        "{}",
        played.text()
    );
}

/// A journal beside a case, of so many changes of its first reading, to 4.7 mm in the end.
fn long_journal(desk: &Desk, changes: usize) {
    let case = desk.case();
    let text = fs::read_to_string(&case).expect("the case");
    let [even, odd] = ["4.7", "4.8"].map(|to| text.replacen("4.6", to, 1));
    let mut journal = files::Journal::new(&files::Disk::default(), &case, &text);
    for change in 0..changes {
        let text = if change % 2 == 0 { &even } else { &odd };
        let mut called = String::new();
        let _ = write!(called, "change number {change}");
        journal.record(&called, text, false).expect("a record");
    }
}

/// The most memory the program had, in kibibytes.
fn most_memory(played: &Played) -> u64 {
    let status = format!("/proc/{}/status", played.process());
    let status = fs::read_to_string(status).expect("a process");
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let most = most.and_then(|most| most.split_whitespace().next());
    most.and_then(|most| most.parse().ok()).expect("a number")
}

#[test]
#[cfg(target_os = "linux")]
fn a_long_journal_costs_no_more_than_its_length() {
    let desk = Desk::demonstration("long-journal");
    let start = || Played::start(&[&desk.path("case.ron")], &[], (120, 40));
    let mut without = start();
    without.wait_for("% ");
    let usual = most_memory(&without);
    without.send("q");
    without.exit();

    long_journal(&desk, 100_001);
    let length = fs::metadata(desk.path(".case.ron.rimwise-journal")).expect("a journal");
    assert!(length.len() > 9_000_000, "{}", length.len());
    let mut played = start();
    played.wait_for("100001 changes were made and not saved");
    let more = most_memory(&played).saturating_sub(usual);
    assert!(
        more * 1024 < 8 * length.len(),
        "{more} KiB for a journal of {} bytes",
        length.len()
    );
    played.send("r");
    played.wait_for_row(&["TTE ED", "4.7"]);
    played.signal("KILL");
    played.exit();
}

/// Without it the program would read the terminal's end again and again, for ever.
#[test]
fn a_terminal_that_hangs_up_without_a_signal_is_left() {
    let desk = Desk::demonstration("hung-up");
    let mut played = Played::start_without_signals(&[&desk.path("case.ron")], (120, 40));
    played.wait_for("opened ");
    assert_eq!(played.close(), 0);
}

#[test]
fn to_close_the_terminal_is_a_way_to_leave() {
    let desk = Desk::demonstration("closed");
    let before = desk.text();
    let mut played = Played::start(&[&desk.path("case.ron")], &[], (120, 40));
    played.wait_for("opened ");
    played.send("\u{1b}[C");
    played.wait_for("→ 4.7 mm");
    assert_eq!(played.close(), 0);
    assert_eq!(desk.text(), before);
    let mut played = Played::start(&[&desk.path("case.ron")], &[], (120, 40));
    played.wait_for("defect, long axis 4.6 → 4.7 mm");
    played.signal("KILL");
    played.exit();
}

#[test]
fn without_a_home_it_is_said_once_that_nothing_is_kept() {
    let none = ["HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME", "USERPROFILE"].map(|it| (it, ""));
    let mut played = Played::start(&["outlet-infant"], &none, (80, 24));
    played.wait_for("HOME names no folder");
    played.wait_for("% ");
    played.send("6");
    played.wait_for("[6 stock]");
    played.send("\u{1b}[B");
    played.wait_for("changes last until the program ends");
    played.send("S");
    played.wait_for("not on disk: HOME names no folder");
    assert!(!played.text().contains('✓'), "{}", played.text());
    played.send("q");
    assert_eq!(played.exit(), 0);
}

#[test]
fn a_pipe_closed_early_is_no_error() {
    let calls: [&[&str]; 10] = [
        &["rank", "outlet-infant", "--format", "json", "--draws", "0"],
        &["rank", "outlet-infant", "--format", "csv", "--draws", "0"],
        &["rank", "outlet-infant", "--draws", "0"],
        &[
            "fit-map",
            "outlet-infant",
            "--format",
            "json",
            "--draws",
            "64",
        ],
        &[
            "fit-map",
            "outlet-infant",
            "--format",
            "csv",
            "--draws",
            "64",
        ],
        &["fit-map", "outlet-infant", "--draws", "64"],
        &[
            "workup",
            "outlet-infant",
            "--format",
            "json",
            "--draws",
            "0",
        ],
        &["workup", "outlet-infant", "--draws", "0"],
        &["manual"],
        &["--help"],
    ];
    for (call, locale) in calls.into_iter().zip(["C.UTF-8", "C"].into_iter().cycle()) {
        let mut child = Command::new(env!("CARGO_BIN_EXE_rimwise"))
            .env("LC_ALL", locale)
            .env("TERM", "xterm")
            .args(call)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program starts");
        // Gone before the first byte, as `true` is.
        drop(child.stdout.take());
        let output = child.wait_with_output().expect("the program ends");
        assert_eq!(
            output.status.code(),
            Some(0),
            "{call:?}: {}",
            String::from_utf8_lossy(&output.stderr)
        );
        assert!(
            output.stderr.is_empty(),
            "{call:?}: {}",
            String::from_utf8_lossy(&output.stderr)
        );
    }
}
