//! Which pictures in pixels lie on the screen.

use super::painter::{PixelOrder, PixelPictures, Protocol, erased};
use ratatui::buffer::{Buffer, CellDiffOption};

/// The pictures in pixels on the screen, over the same pictures in cells.
///
/// The cells are painted in the frame, so that picture and values never differ; the
/// pixels follow when they are painted, and the cells under them are then left alone.
/// As soon as the picture is another one the cells are written again, which erases
/// sixels; kitty pictures are erased by their numbers.
#[derive(Default)]
pub(super) struct PixelScreen {
    ordered: Option<u64>,
    painted: Option<PixelPictures>,
    shown: Option<(u64, Protocol, usize)>,
    /// Whether something wrote over the screen since the last frame.
    is_disturbed: bool,
}

impl PixelScreen {
    /// Takes what was painted; an order that was made since comes later.
    pub(super) fn take(&mut self, painted: PixelPictures) {
        self.painted = Some(painted);
    }

    /// Holds nothing for shown any more: the screen has another size, or something
    /// wrote over it. What may be left of the pictures is erased with the next frame.
    pub(super) const fn disturb(&mut self) {
        self.is_disturbed = true;
    }

    /// Fits a frame to the pictures that are wanted in it: the bytes to be written
    /// behind the frame, and what is to be painted.
    pub(super) fn frame(
        &mut self,
        wanted: Option<&PixelOrder>,
        cells: &mut Buffer,
    ) -> (Vec<u8>, Option<PixelOrder>) {
        let is_ready = |painted: &&PixelPictures| wanted.is_some_and(|it| it.id == painted.id);
        let mut bytes = if std::mem::take(&mut self.is_disturbed) {
            self.erase()
        } else {
            Vec::new()
        };
        let Some(painted) = self.painted.as_ref().filter(is_ready) else {
            bytes.extend(self.erase());
            let order = wanted.filter(|it| self.ordered != Some(it.id)).cloned();
            if let Some(order) = &order {
                self.ordered = Some(order.id);
                self.painted = None;
            }
            return (bytes, order);
        };
        let now = (painted.id, painted.protocol, painted.pages.len());
        if self.shown != Some(now) {
            for (room, picture) in &painted.pages {
                let at = format!("\x1b[{};{}H", room.y + 1, room.x + 1);
                bytes.extend_from_slice(at.as_bytes());
                bytes.extend_from_slice(picture);
            }
            self.shown = Some(now);
        }
        for (room, _) in &painted.pages {
            for at in room.intersection(cells.area).positions() {
                cells[at].set_diff_option(CellDiffOption::Skip);
            }
        }
        (bytes, None)
    }

    /// The bytes that erase what lies on the screen.
    pub(super) fn erase(&mut self) -> Vec<u8> {
        let shown = self.shown.take();
        shown.map_or_else(Vec::new, |(_, protocol, count)| erased(protocol, count))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use ratatui::layout::Rect;

    fn order(id: u64) -> PixelOrder {
        PixelOrder {
            id,
            protocol: Protocol::Kitty,
            ground: scene::stroke::PageGround::Dark,
            cell: [10, 20],
            pages: Vec::new(),
        }
    }

    fn pictures(id: u64) -> PixelPictures {
        PixelPictures {
            id,
            protocol: Protocol::Kitty,
            pages: vec![(Rect::new(1, 2, 3, 1), b"<picture>".to_vec())],
        }
    }

    fn skipped(cells: &Buffer) -> usize {
        let skipped = cells.content().iter();
        skipped
            .filter(|cell| cell.diff_option == CellDiffOption::Skip)
            .count()
    }

    #[test]
    fn cells_first_then_pixels_then_cells_again() {
        let mut screen = PixelScreen::default();
        let frame = |screen: &mut PixelScreen, id: Option<u64>| {
            let mut cells = Buffer::empty(Rect::new(0, 0, 10, 5));
            let wanted = id.map(order);
            let (bytes, order) = screen.frame(wanted.as_ref(), &mut cells);
            let text = String::from_utf8(bytes).unwrap();
            (text, order.map(|order| order.id), skipped(&cells))
        };
        let nothing = String::new;
        assert_eq!(frame(&mut screen, None), (nothing(), None, 0));
        assert_eq!(frame(&mut screen, Some(1)), (nothing(), Some(1), 0));
        assert_eq!(
            frame(&mut screen, Some(1)),
            (nothing(), None, 0),
            "ordered once"
        );
        screen.take(pictures(1));
        let drawn = "\x1b[3;2H<picture>".to_owned();
        assert_eq!(frame(&mut screen, Some(1)), (drawn.clone(), None, 3));
        assert_eq!(
            frame(&mut screen, Some(1)),
            (nothing(), None, 3),
            "it is there"
        );
        // A nudge: the old picture goes at once.
        let (bytes, order, skipped) = frame(&mut screen, Some(2));
        assert!(bytes.contains("a=d"), "{bytes:?}");
        assert_eq!((order, skipped), (Some(2), 0));
        // What was painted of before is not shown.
        screen.take(pictures(1));
        assert_eq!(frame(&mut screen, Some(2)), (nothing(), None, 0));
        screen.take(pictures(2));
        assert_eq!(frame(&mut screen, Some(2)), (drawn.clone(), None, 3));
        // The screen has another size: what is left of it goes, and it is drawn again.
        screen.disturb();
        let (bytes, order, skipped) = frame(&mut screen, Some(2));
        let erased = bytes.strip_suffix(&drawn).expect("it is drawn again");
        assert!(erased.contains("a=d"), "{bytes:?}");
        assert_eq!((order, skipped), (None, 3));
        assert_eq!(frame(&mut screen, Some(2)), (nothing(), None, 3));
        // The same where no picture is wanted at the new size.
        screen.disturb();
        let (bytes, _, skipped) = frame(&mut screen, None);
        assert!(bytes.contains("a=d") && skipped == 0, "{bytes:?}");
        assert_eq!(frame(&mut screen, Some(2)), (drawn, None, 3));
        // Something lies over it.
        let (bytes, order, skipped) = frame(&mut screen, None);
        assert!(bytes.contains("a=d"), "{bytes:?}");
        assert_eq!((order, skipped), (None, 0));
        assert_eq!(frame(&mut screen, None), (nothing(), None, 0));
    }
}
