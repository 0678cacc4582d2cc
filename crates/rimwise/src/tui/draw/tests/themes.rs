//! The page in its themes, with the marks of its styles.

use super::stage::{FEW, MANY, after, assessed, drawn, on_page, styled};
use crate::tui::theme::Theme;
use ratatui::style::Color;
use session::{Looks, Palette, Session};

const SIZES: [(u16, u16); 3] = [(80, 24), (120, 40), (200, 60)];

fn themes() -> [(&'static str, Theme); 4] {
    Palette::ALL.map(|(name, palette)| {
        let looks = Looks {
            palette,
            ..Looks::default()
        };
        (name, Theme::of(looks))
    })
}

/// The plan with the keys on its list, and the page of the shelf.
fn plan() -> Session {
    after(&assessed("outlet-infant", MANY), "tab tab down")
}

#[test]
fn the_plan_in_two_themes_at_three_sizes() {
    for (name, theme) in themes() {
        if name != "dark" && name != "mono" {
            continue;
        }
        for (width, height) in SIZES {
            let page = drawn(&plan(), theme, (width, height));
            insta::assert_snapshot!(format!("theme-{name}-{width}x{height}"), styled(&page));
        }
    }
}

#[test]
fn no_theme_sets_a_ground_and_all_say_the_same() {
    let session = assessed("outlet-infant", FEW);
    for keys in [
        "",
        "2",
        "3",
        "4",
        "5",
        "6 S",
        "P",
        "?",
        "enter x enter",
        "N x enter enter",
    ] {
        let page = on_page(&session, keys);
        let texts = themes().map(|(name, theme)| {
            let page = drawn(&page, theme, (100, 30));
            let grounds = page.content().iter().filter(|cell| cell.bg != Color::Reset);
            assert_eq!(grounds.count(), 0, "{name} {keys}");
            super::stage::text(&page)
        });
        for text in &texts[1..] {
            assert_eq!(text, &texts[0], "{keys}");
        }
    }
}
