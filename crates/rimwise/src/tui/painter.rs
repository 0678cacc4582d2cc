//! Pictures in pixels, painted on a thread of their own: a key never waits for one.

use raster::{CellSize, ImageId, PixelSize, RasterError, erase_kitty, kitty, paint, png, sixel};
use ratatui::layout::Rect;
use scene::stroke::{Drawing, PageGround};
use std::io;
use std::num::NonZeroU32;
use std::sync::mpsc::{Sender, channel};
use std::thread;

/// How pixels reach the terminal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Protocol {
    /// The kitty graphics protocol.
    Kitty,
    /// Sixels.
    Sixel,
}

/// Pictures that are to be painted: where each lies, in cells, and its drawing.
#[derive(Clone, Debug)]
pub(super) struct PixelOrder {
    /// No two orders have the same.
    pub(super) id: u64,
    pub(super) protocol: Protocol,
    pub(super) ground: PageGround,
    /// Width and height of a cell, pixels.
    pub(super) cell: [u16; 2],
    pub(super) pages: Vec<(Rect, Drawing)>,
}

/// Pictures as bytes for the terminal.
#[derive(Clone, Debug)]
pub(super) struct PixelPictures {
    pub(super) id: u64,
    pub(super) protocol: Protocol,
    pub(super) pages: Vec<(Rect, Vec<u8>)>,
}

/// The thread that paints; of orders that wait the latest counts.
pub(super) struct Painter(Sender<PixelOrder>);

/// The kitty number of the first picture of a screen; the others follow. Large, so
/// that it is nobody else's.
const FIRST_IMAGE: u32 = 0x7269_6D00;

/// Over ssh a picture of more bytes than these would come late: cells stay.
const MOST_OVER_SSH: usize = 256 * 1024;

impl Painter {
    /// Starts the thread. What is painted goes to `send`, until that fails.
    pub(super) fn start(
        mut send: impl FnMut(PixelPictures) -> bool + Send + 'static,
    ) -> io::Result<Self> {
        let (sender, orders) = channel::<PixelOrder>();
        thread::Builder::new()
            .name("painter".into())
            .spawn(move || {
                let is_far = std::env::var_os("SSH_CONNECTION").is_some();
                let most = if is_far { MOST_OVER_SSH } else { usize::MAX };
                while let Ok(first) = orders.recv() {
                    let order = orders.try_iter().last().unwrap_or(first);
                    // What cannot be painted stays in cells.
                    let Ok(pictures) = painted(&order) else {
                        continue;
                    };
                    let bytes: usize = pictures.pages.iter().map(|(_, bytes)| bytes.len()).sum();
                    if bytes <= most && !send(pictures) {
                        return;
                    }
                }
            })?;
        Ok(Self(sender))
    }

    /// Orders pictures. Nobody is told where the thread is gone: cells stay.
    pub(super) fn order(&self, order: PixelOrder) {
        let _ = self.0.send(order);
    }
}

/// Paints an order.
pub(super) fn painted(order: &PixelOrder) -> Result<PixelPictures, RasterError> {
    let [across, down] = order.cell.map(u32::from);
    let pages = order.pages.iter().zip(0..).map(|((room, drawing), place)| {
        let size = PixelSize::new(
            u32::from(room.width) * across,
            u32::from(room.height) * down,
        )?;
        let pixels = paint(drawing, size, order.ground)?;
        let bytes = match order.protocol {
            Protocol::Sixel => sixel(&pixels, order.ground),
            Protocol::Kitty => {
                let cells = CellSize {
                    columns: room.width,
                    rows: room.height,
                };
                kitty(&png(&pixels, "", "")?, image(place), cells)
            }
        };
        Ok((*room, bytes))
    });
    Ok(PixelPictures {
        id: order.id,
        protocol: order.protocol,
        pages: pages.collect::<Result<_, RasterError>>()?,
    })
}

/// The bytes that erase so many pictures. Sixels are erased by the cells that are
/// written over them.
pub(super) fn erased(protocol: Protocol, count: usize) -> Vec<u8> {
    match protocol {
        Protocol::Sixel => Vec::new(),
        Protocol::Kitty => (0..)
            .take(count)
            .flat_map(|place| erase_kitty(image(place)))
            .collect(),
    }
}

fn image(place: u32) -> ImageId {
    ImageId(NonZeroU32::MIN.saturating_add(FIRST_IMAGE + place))
}
