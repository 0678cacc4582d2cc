//! The program as its users see it: the real binary in a pseudo-terminal, keys
//! in, screen out.

use crate::played::Played;
use std::time::Duration;

const DEMONSTRATION: &str = "outlet-infant";

/// Shows the cursor, as a terminal reads it.
const SHOW_CURSOR: &str = "\u{1b}[?25h";
/// Leaves the alternate screen.
const MAIN_SCREEN: &str = "\u{1b}[?1049l";
/// Ends telling pastes from keys.
const PASTE_OFF: &str = "\u{1b}[?2004l";

/// The demonstration, opened, with its result.
fn opened() -> Played {
    let mut played = Played::start(&[DEMONSTRATION], &[], (120, 40));
    played.wait_for("% ");
    played
}

/// The terminal is as it was: on its main screen, cursor shown, pastes plain, and
/// lines read as they are typed.
#[track_caller]
fn assert_given_back(played: &Played) {
    let written = played.written();
    for off in [SHOW_CURSOR, MAIN_SCREEN, PASTE_OFF] {
        let on = off.replace(['h', 'l'], if off.ends_with('h') { "l" } else { "h" });
        let last = |sequence: &str| written.rfind(sequence);
        assert!(
            last(off).is_some() && last(off) > last(&on),
            "{off:?} is not the last said"
        );
    }
    assert!(!played.screen().alternate_screen());
    assert!(!played.screen().hide_cursor());
    assert!(!played.screen().bracketed_paste());
    assert!(played.is_line_by_line(), "raw mode was left on");
}

#[test]
fn it_opens_with_the_caution_and_gives_the_terminal_back_at_q() {
    let mut played = Played::start(&[], &[], (80, 24));
    played.wait_for("local rules come first");
    assert!(played.screen().alternate_screen() && played.screen().bracketed_paste());
    assert!(
        played.text().contains("Perimembranous defect, 14 months"),
        "{}",
        played.text()
    );
    played.wait_for("% ");
    assert!(!played.is_line_by_line());
    played.send("q");
    assert_eq!(played.exit(), 0);
    assert_given_back(&played);
    assert!(
        played.text().trim().is_empty(),
        "nothing is left behind:\n{}",
        played.text()
    );
}

#[test]
fn a_reading_is_nudged_and_the_nudge_taken_back() {
    let mut played = opened();
    played.wait_for_row(&["TTE ED", "4.6"]);
    played.send("\u{1b}[C");
    played.wait_for("✓ defect, long axis 4.6 → 4.7 mm");
    played.wait_for_row(&["TTE ED", "4.7"]);
    played.send("u");
    played.wait_for("↶ undone: defect, long axis 4.6 → 4.7 mm");
    played.wait_for_row(&["TTE ED", "4.6"]);
    played.send("\r7");
    played.wait_for("› 7");
    played.send(".5\r");
    played.wait_for_row(&["TTE ED", "7.5"]);
    played.send("q");
    // What was tried on the demonstration is somebody's work too.
    played.wait_for("Leave?");
    played.send("d");
    assert_eq!(played.exit(), 0);
}

#[test]
fn a_storm_of_sizes_is_lived_through() {
    let mut played = opened();
    let odd = [
        (1, 1),
        (5, 3),
        (250, 80),
        (1, 80),
        (250, 1),
        (60, 15),
        (59, 14),
    ];
    for turn in 0..60_u16 {
        let size = odd.get(usize::from(turn)).copied();
        played.resize(size.unwrap_or((1 + turn * 37 % 250, 1 + turn * 23 % 80)));
        std::thread::sleep(Duration::from_millis(3));
    }
    played.resize((100, 30));
    played.wait_for("all keys");
    played.send("?");
    played.wait_for("All keys");
    played.send("\u{3}");
    assert_eq!(played.exit(), 0);
    assert_given_back(&played);
}

#[test]
fn a_key_beside_a_change_of_size_is_answered_at_once() {
    let mut played = opened();
    let layers = [("?", "All keys"), ("\u{1b}", "Ranked")];
    for (width, (key, seen)) in (80..120).zip(layers.into_iter().cycle()) {
        played.resize((width, 24));
        played.send(key);
        played.wait_for(seen);
    }
    played.send("q");
    assert_eq!(played.exit(), 0);
}

#[test]
fn being_asked_to_end_gives_the_terminal_back() {
    for signal in ["TERM", "HUP"] {
        let mut played = opened();
        played.signal(signal);
        played.exit();
        assert_given_back(&played);
    }
}

#[test]
fn stopped_by_a_key_or_a_signal_it_gives_the_terminal_back_and_takes_it_again() {
    let mut played = opened();
    played.send("\u{1b}[C");
    played.wait_for_row(&["TTE ED", "4.7"]);
    for stop in [None, Some("TSTP")] {
        match stop {
            None => played.send("Z"),
            Some(signal) => played.signal(signal),
        }
        played.wait_until("the main screen", |screen| !screen.alternate_screen());
        // Going on before it has stopped would be lost.
        played.wait_for_stop();
        assert_given_back(&played);
        played.signal("CONT");
        played.wait_until("the page", vt100::Screen::alternate_screen);
        played.wait_for_row(&["TTE ED", "4.7"]);
        assert!(!played.is_line_by_line());
    }
    played.send("u");
    played.wait_for_row(&["TTE ED", "4.6"]);
    played.send("q");
    assert_eq!(played.exit(), 0);
}

#[test]
fn no_colour_is_written_where_none_is_wanted() {
    let walk = |variables: &[(&str, &str)]| {
        let mut played = Played::start(&[DEMONSTRATION], variables, (120, 40));
        played.wait_for("% ");
        for (keys, seen) in [
            ("?", "All keys"),
            ("\u{1b}", "Ranked"),
            ("\t", "▌Checks"),
            ("\t", "▌Ranked"),
        ] {
            played.send(keys);
            played.wait_for(seen);
        }
        played.send("q");
        assert_eq!(played.exit(), 0);
        played.colours()
    };
    assert_eq!(walk(&[("NO_COLOR", "1")]), Vec::<String>::new());
    assert_ne!(
        walk(&[("NO_COLOR", "")]),
        Vec::<String>::new(),
        "an empty one asks for nothing"
    );
    assert_ne!(walk(&[]), Vec::<String>::new(), "otherwise there is colour");
}

#[test]
fn a_paste_is_text_in_a_field_and_nothing_elsewhere() {
    let mut played = opened();
    let page = "q\ru?\u{7}7.5\nquit\n".repeat(40);
    played.paste(&page);
    // The next key is answered, so the paste was taken before it.
    played.send("\t");
    played.wait_for("▌Checks of");
    played.wait_for_row(&["TTE ED", "4.6"]);
    // The list takes the filter where it is seen.
    played.send("\t");
    played.wait_for("▌Ranked");
    played.send("/");
    played.wait_for("show shapes with");
    played.paste("offset\nleft q");
    played.wait_for("› offset left q");
    played.send("\u{15}");
    played.paste("offset-left");
    played.wait_for("› offset-left");
    played.send("\r");
    played.wait_for("Ranked: “offset-left”");
    played.send("q");
    assert_eq!(played.exit(), 0);
}
