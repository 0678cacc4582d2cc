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
