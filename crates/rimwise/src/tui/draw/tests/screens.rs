//! Whole pages, looked at by people before they are accepted.

use super::stage::{
    FEW, MANY, after, assess, assessed, drawn, fail, kept, on_page, opened, press, styled, text,
};
use crate::tui::theme::Theme;
use session::{Event, Session};

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
    let mut session = after(&assessed(DEMONSTRATION, MANY), "right");
    let small = (80, 24);
    let unnoticed = text(&drawn(&session, Theme::COLOUR, small));
    assert!(!unnoticed.contains("last change"), "{unnoticed}");
    session.update(Event::Working(true));
    insta::assert_snapshot!("stale", styled(&drawn(&session, Theme::COLOUR, small)));
    let presented = after(&session, "P");
    assert!(presented.says_it_works(), "until the new result is there");
    insta::assert_snapshot!(
        "stale-presented",
        styled(&drawn(&presented, Theme::COLOUR, small))
    );
    assess(&mut session, MANY);
    let new = text(&drawn(&session, Theme::COLOUR, small));
    assert!(!new.contains("last change"), "{new}");
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

fn on_each_size(name: &str, session: &Session) {
    for (width, height) in [(80, 24), (120, 40)] {
        shot(
            &format!("{name}-{width}x{height}"),
            session,
            (width, height),
        );
    }
}

#[test]
fn doubt() {
    let disputed = assessed("disputed-readings", MANY);
    let mut set_aside = after(&disputed, "2 s o b l i q u e enter");
    assess(&mut set_aside, MANY);
    on_each_size("doubt-disputed", &on_page(&disputed, "2"));
    shot("doubt-set-aside", &set_aside, (80, 24));
}

#[test]
fn trials() {
    // What a key has is drawn; the weights are the worker's and tried there.
    let ready = assessed(DEMONSTRATION, MANY);
    let opened = after(
        &ready,
        "7 F F enter enter down right right right enter right enter",
    );
    let opened = on_page(&opened, "right");
    on_each_size("trials-open", &opened);
    on_each_size("trials-before", &on_page(&after(&ready, "7 F"), "tab tab"));
    let released = after(&ready, "7 F F enter enter end left enter");
    let later = "tab down right enter right enter end enter 7 . 2 space 6 7 enter home";
    on_each_size("trials-follow-up", &on_page(&released, later));
}

#[test]
fn fit_map() {
    on_each_size(
        "fit-map-nothing-fits",
        &on_page(&assessed("nothing-fits", MANY), "3"),
    );
}

#[test]
fn the_shelf() {
    let session = after(&assessed(DEMONSTRATION, MANY), "6 down down S");
    let form = after(&session, "e down down down");
    shot("shelf-form", &form, (80, 24));
    let mut plan = after(&session, "home S 1");
    assess(&mut plan, MANY);
    shot("put-aside", &plan, (80, 24));
}

/// What is typed over the limits of how far the left disc holds.
const EXCEPTION: &str = "5 down down down down down enter \
    2 down down 2 . 5 down down t h i n space s e p t u m";

#[test]
fn an_exception_from_a_rule() {
    let session = assessed(DEMONSTRATION, MANY);
    on_each_size("exception-form", &after(&session, EXCEPTION));
    let mut excepted = after(&session, &format!("{EXCEPTION} enter"));
    assess(&mut excepted, MANY);
    on_each_size("rules-exception", &excepted);
}

#[test]
fn a_new_case() {
    let session = assessed(DEMONSTRATION, MANY);
    shot("new-case", &after(&session, "N x down"), (80, 24));
    let mut begun = after(&session, "N x enter right right enter esc m");
    assess(&mut begun, MANY);
    shot("new-case-begun", &begun, (80, 24));
}

#[test]
fn the_guide() {
    let session = assessed(DEMONSTRATION, MANY);
    let mut begun = after(&session, "N x enter enter 4 . 6 enter 5 enter");
    assess(&mut begun, MANY);
    on_each_size("guide", &begun);
    shot("guide-small", &begun, (50, 12));
    let rim = after(&begun, "3 , 4 enter 2");
    on_each_size("guide-neighbour", &rim);
    shot("guide-reading", &after(&rim, "esc e 2 down"), (80, 24));
    on_each_size(
        "guide-age",
        &after(
            &rim,
            "esc page-down down down down 6 . 4 enter 1 1 space m o",
        ),
    );
    let asked_back = "esc page-down down down down 6 . 4 enter 1 1 enter";
    on_each_size("guide-asks-back", &after(&rim, asked_back));
    let excluded = after(&begun, "page-down page-down page-down page-down y");
    on_each_size("guide-excluded", &excluded);
    let mut asked = after(&session, "A n n");
    assess(&mut asked, MANY);
    on_each_size("guide-list", &asked);
}

#[test]
fn in_plain_characters() {
    let session = after(&assessed(DEMONSTRATION, MANY), "C C C D D D");
    let theme = Theme::of(session.view().looks);
    let drawing = drawn(&after(&session, "z"), theme, (80, 24));
    insta::assert_snapshot!("drawing-ascii", styled(&drawing));
    let map = drawn(&on_page(&session, "3"), theme, (80, 24));
    insta::assert_snapshot!("fit-map-ascii", text(&map));
}

#[test]
fn the_form_of_a_reading() {
    let session = assessed(DEMONSTRATION, MANY);
    shot(
        "reading-form",
        &after(&session, "e down down right"),
        (80, 24),
    );
    // A slip by ten is asked back, in the form and in the field of the value alone.
    for (name, keys) in [
        ("reading-form-asks", "e 3 6 enter"),
        ("value-asks", "enter 4 0 enter"),
    ] {
        shot(name, &after(&session, keys), (80, 24));
    }
}

#[test]
fn a_small_terminal() {
    shot("small-50x12", &assessed(DEMONSTRATION, MANY), (50, 12));
}

#[test]
fn a_silly_terminal() {
    shot("silly-15x3", &assessed(DEMONSTRATION, MANY), (15, 3));
}

#[test]
fn the_test_card() {
    on_each_size("test-card", &after(&assessed(DEMONSTRATION, FEW), "K"));
}

#[test]
fn the_cases_that_can_be_opened() {
    let mut session = assessed("outlet-infant", FEW);
    kept(&mut session, "O");
    press(&mut session, "c o n");
    shot("open-a-case", &session, (80, 24));
}

#[test]
fn leaving_with_something_to_save() {
    shot(
        "leave-unsaved",
        &after(&assessed(DEMONSTRATION, MANY), "N x enter enter esc q"),
        (80, 24),
    );
}
