//! `rimwise draw --format png`: the plate as a file of pixels.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use std::process::{Command, Output};

const CALL: [&str; 6] = [
    "draw",
    "outlet-infant",
    "even-wide/5x3",
    "--draws",
    "64",
    "--format=png",
];

fn draw(extra: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_rimwise"))
        .args(CALL)
        .args(extra)
        .output()
        .expect("the program runs")
}

/// Width and height by the header that every PNG begins with (RFC 2083, 3.1, 4.1.1).
fn size(file: &[u8]) -> [u32; 2] {
    assert!(file.starts_with(b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR"));
    [16, 20].map(|at| {
        let bytes = file[at..at + 4].try_into().expect("four bytes");
        u32::from_be_bytes(bytes)
    })
}

#[test]
fn a_png_is_as_wide_as_asked_on_the_ground_asked_for() {
    let file = draw(&["--pixels", "640"]);
    assert!(file.status.success());
    let [width, height] = size(&file.stdout);
    assert_eq!(width, 640);
    assert!((300..900).contains(&height), "{height}");
    let dark = draw(&["--pixels", "640", "--ground", "dark"]);
    assert_ne!(dark.stdout, file.stdout);
}

#[test]
fn a_size_that_memory_cannot_hold_is_the_calls_fault() {
    let refused = draw(&["--pixels", "4000000"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(refused.stdout.is_empty());
    let said = String::from_utf8_lossy(&refused.stderr);
    assert!(said.contains("--pixels"), "{said}");
    assert!(said.contains("16384"), "{said}");
}
