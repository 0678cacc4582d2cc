//! The sheet for the team, written from the screen.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use crate::desk::Desk;
use crate::played::Played;
use std::fs;
use std::process::Command;
use std::time::{Duration, Instant};

/// A shipped case on the screen, with its whole list.
fn played(desk: &Desk) -> Played {
    let home = desk.path("");
    let mut played = Played::start(&["case.ron"], &[("HOME", &home)], (100, 30));
    played.wait_for(" of 158 sizes");
    played.wait_for_quiet();
    played
}

/// Has the sheet written into a file of this name.
fn write(played: &mut Played, name: &str) {
    ask(played, name);
    played.wait_for(&format!("sheet written: {name}"));
}

/// Asks for the sheet as soon as the list is whole.
fn ask_anywhere(played: &mut Played) {
    const LONG: Duration = Duration::from_mins(1);
    let end = Instant::now() + LONG;
    while !played.text().contains("sheet in the file") {
        assert!(Instant::now() < end, "{}", played.text());
        played.send("E");
        played.wait_for_quiet();
    }
}

/// Asks for the sheet in a file of this name.
fn ask(played: &mut Played, name: &str) {
    ask_anywhere(played);
    played.send("\u{15}");
    played.paste(name);
    played.send("\r");
}

/// Checks that a file holds the sheet that the command line writes.
fn check(desk: &Desk, name: &str, more: &[&str]) {
    let format = match name.rsplit_once('.') {
        Some((_, "txt")) => "text",
        Some((_, ending)) => ending,
        None => "",
    };
    let output = Command::new(env!("CARGO_BIN_EXE_rimwise"))
        .args(["sheet", "case.ron", "--format", format])
        .args(more)
        .current_dir(desk.folder())
        .env("LC_ALL", "C.UTF-8")
        .env("XDG_CONFIG_HOME", "/nowhere")
        .output()
        .expect("the program starts");
    let written = fs::read(desk.path(name)).expect("a sheet");
    assert!(written.len() > 1000, "{name}");
    if format == "text" {
        let [written, of_the_call] =
            [&written, &output.stdout].map(|it| String::from_utf8_lossy(it));
        assert_eq!(written, of_the_call);
    }
    assert!(written == output.stdout, "{name} is another sheet");
}

/// The same list, the same sizes: the same sheet as the command line writes, also where
/// nothing fits, of readings or after trials, and where a list was left out or is bounded.
#[test]
fn the_sheet_of_the_screen_is_that_of_the_command_line() {
    for scenario in [
        "outlet-infant",
        "nothing-fits",
        "nothing-left",
        "pulled-through",
        "malaligned-septum",
        "unmeasured-rim",
    ] {
        let desk = Desk::new(&format!("sheet-{scenario}"));
        desk.scenario(scenario, "");
        let mut played = played(&desk);
        for name in ["sheet.txt", "sheet.pdf"] {
            write(&mut played, name);
            check(&desk, name, &[]);
        }
        played.send("q");
        assert_eq!(played.exit(), 0);
    }
}

#[test]
fn the_sheet_of_the_screen_draws_what_is_pinned() {
    let desk = Desk::demonstration("sheet-pinned");
    let mut played = played(&desk);
    // The next size stands in place of the first, once the list is whole.
    ask_anywhere(&mut played);
    played.send("\u{1b}");
    played.wait_for_quiet();
    played.send(".");
    played.wait_for("narrow 5.5 × 3");
    write(&mut played, "sheet.txt");
    let sizes = ["--size", "even-narrow/5.5x3", "--size", "offset-left/5x3"];
    check(&desk, "sheet.txt", &sizes);
    played.send("q");
    assert_eq!(played.exit(), 0);
}

#[test]
fn a_sheet_is_written_over_what_is_there_where_the_operator_says_so() {
    let desk = Desk::demonstration("sheet-over");
    let mut played = played(&desk);
    // As it is proposed: the name of the case, as a PDF.
    ask_anywhere(&mut played);
    played.send("\r");
    played.wait_for("sheet written");
    check(&desk, "case.pdf", &[]);
    write(&mut played, "case.html");
    check(&desk, "case.html", &[]);
    fs::write(desk.path("case.txt"), "notes").expect("a file");
    ask(&mut played, "case.txt");
    played.wait_for("is there already");
    assert_eq!(fs::read(desk.path("case.txt")).expect("it"), b"notes");
    played.send("o");
    played.wait_for("sheet written: case.txt");
    check(&desk, "case.txt", &[]);
}

#[test]
fn who_asks_for_a_sheet_and_leaves_finds_it_or_is_told() {
    let desk = Desk::demonstration("sheet-left");
    let leaves = |name: &str| {
        let mut played = played(&desk);
        ask_anywhere(&mut played);
        played.send("\u{15}");
        played.paste(name);
        // In one go: the sheet is not yet begun where the program ends.
        played.send("\rq");
        (played.exit(), played.written())
    };
    assert_eq!(leaves("last.pdf").0, 0);
    check(&desk, "last.pdf", &[]);
    fs::write(desk.path("last.pdf"), "of yesterday").expect("a file");
    let (code, says) = leaves("last.pdf");
    assert_eq!(code, 1);
    assert!(
        says.contains("the sheet last.pdf was not written: "),
        "{says}"
    );
}

#[test]
fn what_is_no_place_for_a_sheet_is_refused_with_the_remedy() {
    let desk = Desk::demonstration("sheet-refused");
    let mut played = played(&desk);
    std::os::unix::fs::symlink(desk.case(), desk.path("link.pdf")).expect("a link");
    for (path, why) in [
        ("7.doc", "has to end in .pdf, .html or .txt"),
        ("link.pdf", "not a file that can be saved to"),
        ("no/7.pdf", "its folder does not exist"),
    ] {
        ask(&mut played, path);
        played.wait_for(why);
        played.send("\u{1b}");
        played.wait_for_quiet();
    }
    played.send("q");
    assert_eq!(played.exit(), 0);
}
