//! `rimwise draw --format png`: the plate as a file of pixels.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use crate::call::Call;

fn call() -> Call {
    Call::of(&["draw", "outlet-infant", "even-wide/5x3", "--format=png"]).few_draws()
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
    let file = call().and(&["--pixels", "640"]).output();
    assert!(file.status.success());
    let [width, height] = size(&file.stdout);
    assert_eq!(width, 640);
    assert!((300..900).contains(&height), "{height}");
    let dark = call()
        .and(&["--pixels", "640", "--ground", "dark"])
        .output();
    assert_ne!(dark.stdout, file.stdout);
}

#[test]
fn a_size_that_memory_cannot_hold_is_the_calls_fault() {
    let said = call().and(&["--pixels", "4000000"]).refused();
    assert!(said.contains("--pixels"), "{said}");
    assert!(said.contains("16384"), "{said}");
}
