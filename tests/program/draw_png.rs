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
fn a_png_is_as_wide_as_asked_and_the_same_twice() {
    let file = draw(&["--pixels", "640"]);
    assert!(file.status.success());
    let [width, height] = size(&file.stdout);
    assert_eq!(width, 640);
    assert!((300..900).contains(&height), "{height}");
    assert_eq!(draw(&["--pixels", "640"]).stdout, file.stdout);
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

#[test]
fn the_ending_of_the_file_says_the_format() {
    let path = std::env::temp_dir().join(format!("rimwise-plate-{}.png", std::process::id()));
    let called = Command::new(env!("CARGO_BIN_EXE_rimwise"))
        .args(&CALL[..5])
        .args(["--pixels", "320", "--out"])
        .arg(&path)
        .output()
        .expect("the program runs");
    let file = std::fs::read(&path);
    // Cleared away before anything can fail.
    let _ = std::fs::remove_file(&path);
    assert!(called.status.success());
    assert_eq!(size(&file.expect("a file"))[0], 320);
}
