//! What a terminal answers by itself is no key: control strings (ECMA-48, 5.6) are
//! swallowed on every page, whole or cut anywhere, and keys work behind them.

use crate::played::Played;
use std::thread::sleep;
use std::time::{Duration, Instant};

/// Between two pieces of one string: long enough for each to be read by itself.
const GAP: Duration = Duration::from_millis(4);

/// Pieces further apart than this are two things, not one.
const SILENCE: Duration = Duration::from_millis(50);

/// Every kind of control string with text that would do something as keys, in both
/// ways it is ended.
const STRINGS: [&str; 8] = [
    // A graphics reply: APC, ended by ST.
    "\u{1b}_Gi=3?OK\u{1b}\\",
    "\u{1b}_Nq\u{7}",
    // The reply to a request for a setting: DCS.
    "\u{1b}P1$r?q\u{1b}\\",
    "\u{1b}P\rd\u{7}",
    // The background colour: OSC.
    "\u{1b}]11;rgb:0?\u{1b}\\",
    "\u{1b}]4;N\r\u{7}",
    // PM and SOS.
    "\u{1b}^q?\u{1b}\\",
    "\u{1b}XOq\u{1b}\\",
];

/// The keys that open the pages.
const PAGES: [&str; 7] = ["1", "2", "3", "4", "5", "6", "7"];

/// The demonstration on a page, with a frame that stays as it is.
fn opened(page: &str) -> (Played, String) {
    let mut played = Played::start(&["outlet-infant"], &[], (100, 30));
    played.wait_for("% ");
    played.send(page);
    let is_at_work = |text: &str| {
        text.contains("still rough")
            || text.contains("any change starts it again")
            || text.contains("ranking with")
    };
    played.wait_for_quiet();
    while is_at_work(&played.text()) {
        played.wait_for_quiet();
    }
    key_works(&mut played);
    let page = played.text();
    (played, page)
}

/// A real key is answered: the list of keys comes and goes.
#[track_caller]
fn key_works(played: &mut Played) {
    played.send("?");
    played.wait_for("All keys");
    played.send("\u{1b}");
    played.wait_until("the page", |screen| !screen.contents().contains("All keys"));
    played.wait_for_quiet();
}

/// Sends pieces of a string one after the other; whether no two were further apart
/// than the pieces of one string are.
fn send(played: &mut Played, pieces: &[&str]) -> bool {
    let mut is_one = true;
    let mut last = Instant::now();
    for (number, piece) in pieces.iter().enumerate() {
        if number > 0 {
            sleep(GAP);
        }
        let before = Instant::now();
        played.send(piece);
        is_one &= number == 0 || last.elapsed() < SILENCE;
        last = before;
    }
    is_one
}

/// A string whole, in two pieces cut at every byte, and byte after byte; `false`
/// where the machine let a piece wait too long, which proves nothing.
fn send_cut_anywhere(played: &mut Played, string: &str) -> bool {
    let cuts = (1..string.len()).map(|at| vec![&string[..at], &string[at..]]);
    let bytes = (0..string.len()).map(|at| &string[at..=at]).collect();
    let mut each = std::iter::once(vec![string])
        .chain(cuts)
        .chain(std::iter::once(bytes));
    each.all(|pieces| send(played, &pieces))
}

#[test]
fn a_reply_of_the_terminal_does_nothing_on_any_page_and_keys_work_behind_it() {
    for page in PAGES {
        let (mut played, mut seen) = opened(page);
        for string in STRINGS {
            while !send_cut_anywhere(&mut played, string) {
                (played, seen) = opened(page);
            }
            key_works(&mut played);
            assert_eq!(played.text(), seen, "page {page}: {string:?} did something");
        }
        played.send("q");
        assert_eq!(played.exit(), 0);
    }
}

#[test]
fn a_string_without_an_end_ends_with_silence() {
    let (mut played, seen) = opened("1");
    for string in STRINGS {
        let unended = string.trim_end_matches(['\u{7}', '\\', '\u{1b}']);
        played.send(unended);
        sleep(4 * SILENCE);
        key_works(&mut played);
        assert_eq!(played.text(), seen, "{unended:?} did something");
    }
    played.send("q");
    assert_eq!(played.exit(), 0);
}

/// The readings with the first of them chosen: one key up shows them, and the next
/// finds nothing above.
fn at_the_first_reading() -> (Played, String) {
    let (mut played, _) = opened("1");
    played.send("\u{1b}[A");
    played.wait_for("Readings");
    key_works(&mut played);
    let page = played.text();
    (played, page)
}

#[test]
fn a_key_that_was_cut_is_not_taken_for_others() {
    let (mut played, mut seen) = at_the_first_reading();
    // Arrows in both forms, a page key and a paste, each with its ESC read alone.
    // A machine with much to do lets the program read them whole: here they do
    // nothing then either.
    for rest in ["[A", "OA", "[5~", "[200~q?O\u{1b}[201~"] {
        while !send(&mut played, &["\u{1b}", rest]) {
            (played, seen) = at_the_first_reading();
        }
        sleep(4 * SILENCE);
        key_works(&mut played);
        assert_eq!(played.text(), seen, "{rest:?} did something else");
    }
    played.send("q");
    assert_eq!(played.exit(), 0);
}
