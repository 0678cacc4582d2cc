//! The README's pictures of pages are what the program draws.

use super::page_svg::svg;
use super::stage::{MANY, assessed, drawn, on_page};
use crate::tui::theme::Theme;
use session::{Looks, Pictures};
use std::path::PathBuf;

/// The variable that has pictures written anew.
const UPDATE: &str = "RIMWISE_PICTURES";

/// The pages of the README, each by its key.
const PAGES: [(&str, &str); 4] = [
    ("plan", "1"),
    ("doubt", "2"),
    ("fit-map", "3"),
    ("work-up", "4"),
];

#[test]
fn the_pictures_of_the_readme_are_what_is_drawn() {
    let folder = PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/pictures"));
    let theme = Theme::of(Looks {
        pictures: Pictures::Quadrants,
        has_true_colour: true,
        ..Looks::default()
    });
    let session = assessed("three-neighbours", MANY);
    for (name, key) in PAGES {
        let page = svg(&drawn(&on_page(&session, key), theme, (120, 40)));
        let path = folder.join(format!("{name}.svg"));
        if std::env::var_os(UPDATE).is_some() {
            std::fs::write(&path, &page).unwrap();
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(
            kept == page,
            "docs/pictures/{name}.svg is not what the page shows: look at it, and write it \
             anew with {UPDATE}=1 cargo test -p rimwise readme"
        );
    }
}
