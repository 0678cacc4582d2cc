//! Whole pages, looked at by people before they are accepted.

use super::stage::{MANY, after, assess, assessed, drawn, fail, opened, styled, text};
use crate::tui::theme::Theme;
use session::Session;

/// The sizes at which each arrangement of the panels is shown.
const SIZES: [(u16, u16); 3] = [(80, 24), (120, 40), (200, 60)];

const DEMONSTRATION: &str = "outlet-infant";

fn shot(name: &str, session: &Session, size: (u16, u16)) {
    insta::assert_snapshot!(name, text(&drawn(session, Theme::COLOUR, size)));
}

fn at_every_size(scenario: &str) {
    let session = assessed(scenario, MANY);
    for (width, height) in SIZES {
        shot(
            &format!("{scenario}-{width}x{height}"),
            &session,
            (width, height),
        );
    }
}

#[test]
fn demonstration() {
    at_every_size(DEMONSTRATION);
}

#[test]
fn an_opening_beside_its_throat() {
    at_every_size("perimembranous-shifted-opening");
}

#[test]
fn nothing_fits() {
    at_every_size("nothing-fits");
}

#[test]
fn readings_in_dispute() {
    at_every_size("disputed-readings");
}

#[test]
fn without_colour() {
    let session = after(&assessed("unmeasured-rim", MANY), "tab tab down down");
    let page = drawn(&session, Theme::MONO, (120, 40));
    insta::assert_snapshot!("unmeasured-rim-mono-120x40", styled(&page));
}

#[test]
fn before_the_first_result() {
    shot("before-the-first-result", &opened(DEMONSTRATION), (80, 24));
}

#[test]
fn a_failed_assessment() {
    let mut session = opened(DEMONSTRATION);
    fail(&mut session, "a fault of the program");
    shot("failed", &session, (80, 24));
}

#[test]
fn a_result_of_before_the_last_change() {
    let session = after(&assessed(DEMONSTRATION, MANY), "right");
    insta::assert_snapshot!("stale", styled(&drawn(&session, Theme::COLOUR, (80, 24))));
}

#[test]
fn every_key() {
    shot(
        "every-key",
        &after(&assessed(DEMONSTRATION, MANY), "?"),
        (80, 24),
    );
}

#[test]
fn a_field_with_an_error() {
    let session = after(&assessed(DEMONSTRATION, MANY), "enter x enter");
    insta::assert_snapshot!("field", styled(&drawn(&session, Theme::COLOUR, (80, 24))));
}

#[test]
fn the_drawing_alone() {
    let session = assessed(DEMONSTRATION, MANY);
    shot("drawing-80x24", &after(&session, "z"), (80, 24));
    shot("drawing-120x40", &after(&session, "z"), (120, 40));
}

#[test]
fn a_shape_turned_by_hand() {
    let mut session = after(&assessed("perimembranous-shifted-opening", MANY), "tab t t");
    assess(&mut session, MANY);
    shot("turned-by-hand", &session, (120, 40));
}

#[test]
fn a_small_terminal() {
    shot("small-50x12", &assessed(DEMONSTRATION, MANY), (50, 12));
}

#[test]
fn a_silly_terminal() {
    shot("silly-15x3", &assessed(DEMONSTRATION, MANY), (15, 3));
}
