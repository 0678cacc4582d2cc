//! Without colour everything is still told: by reverse, by glyph, by word.

use super::stage::{FEW, after, assessed, drawn, has_colour, mark, rows, text};
use crate::tui::theme::Theme;
use ratatui::buffer::Buffer;
use session::Session;

/// The texts of the rows that hold a reversed cell.
fn reversed(page: &Buffer) -> Vec<String> {
    let text = text(page);
    let marked = rows(page).map(|mut cells| cells.any(|cell| mark(cell) == 'r'));
    text.lines()
        .zip(marked)
        .filter(|(_, is)| *is)
        .map(|(row, _)| row.to_owned())
        .collect()
}

fn mono(session: &Session) -> Buffer {
    drawn(session, Theme::MONO, (120, 40))
}

#[test]
fn no_cell_has_a_colour() {
    for scenario in [
        "outlet-infant",
        "nothing-fits",
        "disputed-readings",
        "unmeasured-rim",
    ] {
        let session = assessed(scenario, FEW);
        for keys in [
            "",
            "right",
            "tab",
            "tab tab down",
            "enter x enter",
            "?",
            "z",
            "f9",
        ] {
            let page = mono(&after(&session, keys));
            assert!(!page.content().iter().any(has_colour), "{scenario} {keys}");
        }
    }
}

#[test]
fn colour_tells_nothing_that_the_text_does_not() {
    for scenario in [
        "outlet-infant",
        "nothing-fits",
        "disputed-readings",
        "unmeasured-rim",
    ] {
        let session = assessed(scenario, FEW);
        let coloured = drawn(&session, Theme::COLOUR, (120, 40));
        assert_eq!(text(&coloured), text(&mono(&session)), "{scenario}");
    }
}

#[test]
fn the_selection_of_the_panel_that_takes_keys_is_reversed_and_no_other() {
    let session = assessed("outlet-infant", FEW);
    for (keys, selected) in [
        ("", "long axis"),
        ("down down down down", "short axis"),
        ("tab", "narrow 5.5 × 2"),
        ("tab right", "offset left 5 × 3"),
        ("tab tab down", "◐ borderline"),
    ] {
        let page = mono(&after(&session, keys));
        let rows = reversed(&page);
        assert!(
            matches!(&rows[..], [row] if row.contains(selected)),
            "{keys}: {rows:#?}"
        );
        let heads = text(&page).matches('▌').count();
        assert_eq!(heads, 1, "{keys}: one heading is marked");
    }
    let commands = reversed(&mono(&after(&session, "? down down")));
    assert!(
        matches!(&commands[..], [row] if row.contains("much more")),
        "{commands:#?}"
    );
    let field = reversed(&mono(&after(&session, "enter")));
    assert!(
        matches!(&field[..], [row] if row.starts_with('›')),
        "the cursor: {field:#?}"
    );
}

#[test]
fn every_verdict_and_state_has_a_glyph_and_a_word() {
    let page = |scenario| text(&mono(&assessed(scenario, FEW)));
    // A large page has room for checks that hold beside those that do not.
    let large = |scenario| text(&drawn(&assessed(scenario, FEW), Theme::MONO, (200, 60)));
    let borderline = large("outlet-infant");
    for told in ["◐ borderline", "! rim overlap only", "✓ rim overlap"] {
        assert!(borderline.contains(told), "{told}\n{borderline}");
    }
    let none = page("nothing-fits");
    for told in ["into the aortic valve", "○ does not fit "] {
        assert!(none.contains(told), "{told}\n{none}");
    }
    let missing = large("unmeasured-rim");
    for told in ["? aortic rim", "? aortic clearance"] {
        assert!(missing.contains(told), "{told}\n{missing}");
    }
    let disputed = page("disputed-readings");
    for told in ["≠ In dispute: defect, long axis", "≠ long axis"] {
        assert!(disputed.contains(told), "{told}\n{disputed}");
    }
}
