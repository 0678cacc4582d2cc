//! Pictures in pixels on a screen that changes under them.

use super::*;
use crate::tui::draw::tests::stage::{FEW, after, assessed};
use crate::tui::painter::{Protocol, painted};
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::CellDiffOption;
use ratatui::layout::Size;
use session::{Looks, Pictures};

/// A frame of the program: the bytes that follow it, and where its cells are left to
/// pixels.
fn frame(program: &mut Program, size: Size) -> (String, Vec<(u16, u16)>) {
    let mut terminal = Terminal::new(TestBackend::new(size.width, size.height)).unwrap();
    let (mut bytes, mut left) = (Vec::new(), Vec::new());
    terminal
        .draw(|frame| {
            bytes = program.draw(frame, Instant::now());
            let cells = frame.buffer_mut();
            let area = cells.area;
            let skipped = area.positions().filter(|at| {
                let skipped = CellDiffOption::Skip;
                cells[*at].diff_option == skipped
            });
            left = skipped.map(|at| (at.x, at.y)).collect();
        })
        .unwrap();
    (String::from_utf8_lossy(&bytes).into_owned(), left)
}

/// Frame, painting, frame: as the loop does it, without its thread.
fn shown(program: &mut Program, size: Size) -> (String, Vec<(u16, u16)>) {
    let (before, left) = frame(program, size);
    assert!(left.is_empty(), "cells stay until there are pixels");
    if let Some(order) = program.take_order() {
        let pictures = painted(&order).unwrap();
        for (room, _) in &pictures.pages {
            assert!(room.right() <= size.width && room.bottom() <= size.height);
        }
        program.take(Message::Painted(pictures), Instant::now());
    }
    let (bytes, left) = frame(program, size);
    (before + &bytes, left)
}

#[test]
fn a_screen_of_another_size_shows_no_picture_of_the_old_one() {
    let sizes = [(120, 40), (80, 24), (200, 60), (30, 8), (120, 40)];
    for (pictures, protocol) in [
        (Pictures::Kitty, Protocol::Kitty),
        (Pictures::Sixel, Protocol::Sixel),
    ] {
        let looks = Looks {
            pictures,
            has_true_colour: true,
            is_presented: true,
            ..Looks::default()
        };
        let session = after(&assessed("outlet-infant", FEW), "1").with_looks(looks);
        let mut program = Program::new(session, Keeper::default(), None);
        // The first frame of all waits for no picture.
        let (_, none) = frame(&mut program, Size::new(120, 40));
        assert!(none.is_empty());
        let mut before = 0;
        for (width, height) in sizes {
            let size = Size::new(width, height);
            program.take(Message::Resize(size), Instant::now());
            let (bytes, left) = shown(&mut program, size);
            let (erase, picture) = match protocol {
                Protocol::Kitty => ("\x1b_Ga=d", "\x1b_Ga=T"),
                // Sixels go with the cells that a cleared screen is given.
                Protocol::Sixel => ("", "\x1bP"),
            };
            if before > 0 {
                let erased = bytes.find(erase).expect("the old picture is erased");
                let drawn = bytes.find(picture).unwrap_or(bytes.len());
                assert!(erased <= drawn, "erased before it is drawn anew");
            }
            assert_eq!(
                bytes.contains(picture),
                !left.is_empty(),
                "{width}x{height}"
            );
            assert!(height < 20 || !left.is_empty(), "{width}x{height}");
            before = left.len();
            // It stays as it is, and is written once.
            let (again, same) = frame(&mut program, size);
            assert_eq!((again, same), (String::new(), left));
        }
        let (bytes, left) = {
            program.take(Message::Key("?".parse().unwrap()), Instant::now());
            frame(&mut program, Size::new(120, 40))
        };
        assert!(left.is_empty(), "what lies over a picture is seen");
        assert_eq!(bytes.contains("a=d"), protocol == Protocol::Kitty);
    }
}
