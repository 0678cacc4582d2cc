use crate::limits::{MOST_CELLS, MOST_PIXELS, MOST_SIDE};
use thiserror::Error;

/// Why a picture cannot be painted, and what to do about it.
#[derive(Debug, Error)]
pub enum RasterError {
    /// The drawing has no page.
    #[error("the page measures {width} by {height} mm, so nothing can be drawn on it")]
    NoPage {
        /// Width of the page, mm.
        width: f64,
        /// Height of the page, mm.
        height: f64,
    },
    /// The picture would have no pixels.
    #[error("a picture needs at least 1 by 1 pixels; {width} by {height} were asked for")]
    Empty {
        /// Pixels across.
        width: u32,
        /// Pixels down.
        height: u32,
    },
    /// The picture would have too many pixels.
    #[error(
        "{width} by {height} pixels are too many; ask for at most {MOST_SIDE} a side \
         and {MOST_PIXELS} in all"
    )]
    TooManyPixels {
        /// Pixels across.
        width: u64,
        /// Pixels down.
        height: u64,
    },
    /// The picture would have too many cells.
    #[error("{columns} by {rows} cells are too many; ask for at most {MOST_CELLS} a side")]
    TooManyCells {
        /// Cells across.
        columns: u16,
        /// Cells down.
        rows: u16,
    },
    /// The PNG encoder failed.
    #[error("the picture could not be written as PNG: {0}")]
    Png(#[from] png::EncodingError),
}
