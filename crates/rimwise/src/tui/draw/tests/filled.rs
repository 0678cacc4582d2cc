//! Filled pictures and the text beside them.

use super::stage::{FEW, after, assessed, drawn, text};
use crate::tui::theme::Theme;
use ratatui::buffer::Buffer;
use ratatui::style::Color;
use session::{Looks, Palette, Pictures};
use std::collections::BTreeSet;

const GROUNDS: [Palette; 3] = [Palette::Dark, Palette::Light, Palette::HighContrast];

fn theme(palette: Palette, has_true_colour: bool) -> Theme {
    Theme::of(Looks {
        palette,
        pictures: Pictures::Quadrants,
        has_true_colour,
        ..Looks::default()
    })
}

/// The colours in which a mark of a state is written: `!` stands before a warning in
/// text and in pictures alike, `✗` before what is over a limit.
fn colours(page: &Buffer, mark: &str) -> BTreeSet<String> {
    let marks = page.content().iter().filter(|cell| cell.symbol() == mark);
    marks.map(|cell| format!("{:?}", cell.fg)).collect()
}

#[test]
fn a_state_has_one_colour_in_text_and_in_pictures() {
    for scenario in ["outlet-infant", "perimembranous-shifted-opening", "bundle"] {
        let session = assessed(scenario, FEW);
        for palette in GROUNDS {
            for has_true_colour in [true, false] {
                for keys in ["", "P", "z"] {
                    let session = after(&session, keys);
                    let page = drawn(&session, theme(palette, has_true_colour), (120, 40));
                    let of = format!("{scenario} {palette:?} {has_true_colour} {keys}");
                    for mark in ["!", "✗"] {
                        let colours = colours(&page, mark);
                        assert!(colours.len() <= 1, "{of} {mark} {colours:?}");
                    }
                }
            }
        }
    }
}

/// The terminal's own ground shows nowhere in a picture: what was bare would be
/// neither blood nor muscle.
#[test]
fn a_filled_picture_fills_its_room_to_every_edge() {
    let session = assessed("outlet-infant", FEW);
    for (width, height) in [(80, 24), (120, 40), (200, 60)] {
        for keys in ["", "P", "z", "tab tab down down"] {
            let session = after(&session, keys);
            let page = drawn(&session, theme(Palette::Light, true), (width, height));
            let filled = |x: u16, y: u16| page[(x, y)].bg != Color::Reset;
            let rows: Vec<Vec<u16>> = (0..height)
                .map(|y| (0..width).filter(|x| filled(*x, y)).collect())
                .filter(|row: &Vec<u16>| !row.is_empty())
                .collect();
            assert!(rows.len() > 5, "{keys}: no picture\n{}", text(&page));
            for row in &rows {
                assert_eq!(*row, rows[0], "{width}x{height} {keys}\n{}", text(&page));
            }
        }
    }
}
