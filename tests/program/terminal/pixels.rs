//! Pictures in pixels, as the terminal gets them: read back by readers that share
//! nothing with the encoders.

#[expect(dead_code, reason = "cells are read back in their own tests")]
#[expect(
    clippy::expect_used,
    clippy::panic,
    reason = "what fails here fails a test"
)]
#[path = "../../../crates/raster/tests/pictures/decoders.rs"]
mod decoders;

use crate::played::Played;
use scene::stroke::colours::colour;
use scene::stroke::{PageGround, Role};
use std::num::NonZeroU16;
use std::ops::Range;

/// The large drawing of the demonstration by a kind of picture.
fn large(kind: &str) -> Played {
    let arguments = ["outlet-infant", "--pictures", kind];
    let variables = [("COLORTERM", "truecolor"), ("SSH_CONNECTION", "")];
    let mut played = Played::start(&arguments, &variables, (80, 24));
    played.wait_for("% ");
    played.send("z");
    played.wait_for("face-on");
    played
}

/// The strings of a kind in what was written, from `begin` to ST.
fn strings<'a>(written: &'a str, begin: &str) -> Vec<&'a str> {
    let ends = |at: usize| {
        let length = written[at..].find("\u{1b}\\")?;
        Some(&written[at..at + length + 2])
    };
    written
        .match_indices(begin)
        .filter_map(|(at, _)| ends(at))
        .collect()
}

/// Waits until so many strings of a kind are whole.
fn wait_for_strings(played: &mut Played, begin: &str, count: usize) {
    let came = (0..100).any(|_| {
        let came = strings(&played.written(), begin).len() >= count;
        if !came {
            played.wait_for_quiet();
        }
        came
    });
    assert!(came, "no {count} of {begin:?} came");
}

#[test]
fn sixels_show_the_picture_and_cells_erase_it() {
    let mut played = large("sixel");
    wait_for_strings(&mut played, "\u{1b}P", 2);
    let written = played.written();
    let pictures = strings(&written, "\u{1b}P");
    let section = decoders::sixel(pictures[0].as_bytes());
    assert_eq!(section.height % 20, 0, "whole cells of 10 by 20 pixels");
    // Top left is past the far wall of the right outflow, top centre muscle.
    let wanted = [
        Role::Muscle,
        Role::Device,
        Role::RightBlood,
        Role::LeftBlood,
    ];
    for role in wanted {
        let wanted = colour(role, PageGround::Dark).channels();
        let near = |one: &Option<scene::stroke::Rgb>| {
            let one = one.expect("every pixel is painted").channels();
            one.iter().zip(wanted).all(|(a, b)| a.abs_diff(b) <= 2)
        };
        let count = section.colours.iter().filter(|one| near(one)).count();
        assert!(count > 1000, "{role:?}: {count} pixels");
    }
    // A string of any kind is no text: the rest of the page stands as it was.
    assert!(played.text().contains("cut to the aortic valve"));
    assert!(!played.text().contains("0;1;0q"), "{}", played.text());
    let before = strings(&played.written(), "\u{1b}P").len();
    played.send("?");
    played.wait_for("All keys");
    played.wait_for_quiet();
    let written = played.written();
    assert_eq!(
        strings(&written, "\u{1b}P").len(),
        before,
        "under a list none"
    );
    played.send("\u{1b}");
    wait_for_strings(&mut played, "\u{1b}P", before + 2);
    played.send("q");
}

#[test]
fn kitty_pictures_are_erased_by_their_numbers() {
    let mut played = large("kitty");
    wait_for_strings(&mut played, "\u{1b}_Ga=T", 2);
    let erased = |played: &Played| strings(&played.written(), "\u{1b}_Ga=d").len();
    assert_eq!(erased(&played), 0);
    let written = played.written();
    let from = written.find("\u{1b}_Ga=T").expect("a picture");
    let behind = written[from..].find("\u{1b}[").expect("the next place");
    let file = decoders::kitty(&written.as_bytes()[from..from + behind]);
    assert!(file.starts_with(b"\x89PNG"), "a PNG file");
    // A list over it, the drawing left, the program left.
    played.send("?");
    played.wait_for("All keys");
    played.wait_for_quiet();
    assert_eq!(erased(&played), 2);
    played.send("\u{1b}");
    wait_for_strings(&mut played, "\u{1b}_Ga=T", 4);
    played.send("z");
    played.wait_for("Ranked");
    played.wait_for_quiet();
    assert_eq!(erased(&played), 4);
    played.send("z");
    wait_for_strings(&mut played, "\u{1b}_Ga=T", 6);
    played.send("q");
    assert_eq!(played.exit(), 0);
    assert_eq!(erased(&played), 6);
}

/// Columns and rows of the cells that lie under a picture of sixels; `None` where no
/// place was written before it.
fn cells_under(written: &str, picture: &str) -> Option<[Range<u16>; 2]> {
    let before = &written[..written.find(picture)?];
    let place = before.rsplit("\u{1b}[").next()?.strip_suffix('H')?;
    let (row, column) = place.split_once(';')?;
    let size = decoders::sixel(picture.as_bytes());
    let range = |start: &str, pixels: usize, cell: usize| {
        let start = start.parse::<u16>().ok()? - 1;
        Some(start..start + u16::try_from(pixels / cell).ok()?)
    };
    Some([range(column, size.width, 10)?, range(row, size.height, 20)?])
}

/// A terminal keeps sixels until something is written where they lie.
#[test]
fn every_cell_under_sixels_is_written_when_they_go() {
    /// Stands wherever nothing was written since.
    const LEFT: char = '\u{E000}';
    let over_it = |played: &mut Played| played.send("?");
    let another_page = |played: &mut Played| played.send("z");
    let resized = |played: &mut Played| played.resize((90, 26));
    for (change, (columns, rows)) in [
        (&over_it as &dyn Fn(&mut Played), (80, 24)),
        (&another_page, (80, 24)),
        (&resized, (90, 26)),
    ] {
        let mut played = large("sixel");
        wait_for_strings(&mut played, "\u{1b}P", 2);
        played.wait_for_quiet();
        let before = played.written();
        let rooms: Vec<_> = strings(&before, "\u{1b}P")
            .into_iter()
            .map(|picture| cells_under(&before, picture).expect("a place"))
            .collect();
        change(&mut played);
        played.wait_for_quiet();
        let [across, down] =
            [columns, rows].map(|count| NonZeroU16::new(count).expect("a terminal has cells"));
        let mut screen = vt100::Parser::new(down, across, 0);
        for row in 1..=rows {
            let line: String = (0..columns).map(|_| LEFT).collect();
            screen.process(format!("\u{1b}[{row};1H{line}").as_bytes());
        }
        assert!(screen.screen().contents().contains(LEFT));
        screen.process(&played.written().as_bytes()[before.len()..]);
        for [across, down] in &rooms {
            assert!(!across.is_empty() && !down.is_empty());
            for (row, column) in down
                .clone()
                .flat_map(|row| across.clone().map(move |at| (row, at)))
            {
                let cell = screen.screen().cell(row, column).expect("on the screen");
                assert!(!cell.contents().contains(LEFT), "{row} {column}");
            }
        }
        // Nor is a letter of the bytes of a picture left on the screen.
        assert!(!played.text().contains("q#") && !played.text().contains("0;1;0q"));
        played.send("q");
    }
}

/// Another size of the screen: pictures of before go by their numbers, and of the new
/// ones no letter is left.
#[test]
fn kitty_pictures_go_when_the_screen_has_another_size() {
    let mut played = large("kitty");
    wait_for_strings(&mut played, "\u{1b}_Ga=T", 2);
    played.wait_for_quiet();
    let before = played.written().len();
    played.resize((100, 30));
    wait_for_strings(&mut played, "\u{1b}_Ga=T", 4);
    played.wait_for_quiet();
    let written = played.written();
    let erased = strings(&written[before..], "\u{1b}_Ga=d");
    assert_eq!(erased.len(), 2);
    let first = written[before..].find("\u{1b}_Ga=d").expect("erased");
    let again = written[before..].find("\u{1b}_Ga=T").expect("drawn again");
    assert!(first < again, "erased before they are drawn again");
    assert!(!played.text().contains("Ga=") && !played.text().contains("iVBOR"));
    played.send("q");
}

#[test]
fn without_proof_no_pixel_is_sent() {
    let variables = [("COLORTERM", "truecolor"), ("KITTY_WINDOW_ID", "1")];
    let mut played = Played::start(&["outlet-infant"], &variables, (80, 24));
    played.wait_for("% ");
    played.send("z");
    played.wait_for("face-on");
    played.send("P");
    played.wait_for_quiet();
    let written = played.written();
    for begin in ["\u{1b}P", "\u{1b}_"] {
        assert_eq!(strings(&written, begin).len(), 0, "{begin:?}");
    }
    played.send("q");
}
