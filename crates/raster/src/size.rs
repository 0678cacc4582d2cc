use crate::RasterError;
use crate::limits::{MOST_CELLS, MOST_PIXELS, MOST_SIDE};
use scene::stroke::Drawing;

/// How many pixels a picture has, within the limits of memory.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PixelSize {
    width: u32,
    height: u32,
}

impl PixelSize {
    /// A size of at least 1 by 1 pixels that memory can hold.
    pub fn new(width: u32, height: u32) -> Result<Self, RasterError> {
        let size = Self { width, height };
        if width == 0 || height == 0 {
            return Err(RasterError::Empty { width, height });
        }
        if width.max(height) > MOST_SIDE || size.pixels() > MOST_PIXELS {
            return Err(RasterError::TooManyPixels {
                width: width.into(),
                height: height.into(),
            });
        }
        Ok(size)
    }

    /// The size at which a drawing is as many pixels wide.
    pub fn of_width(drawing: &Drawing, width: u32) -> Result<Self, RasterError> {
        let height = f64::from(width) * drawing.height / drawing.width;
        if !is_page(drawing) || !height.is_finite() {
            return Err(RasterError::NoPage {
                width: drawing.width,
                height: drawing.height,
            });
        }
        let height = height.round().max(1.0);
        if height > f64::from(MOST_SIDE) {
            return Err(RasterError::TooManyPixels {
                width: width.into(),
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "positive and finite; a cast that saturates is shown as such"
                )]
                height: height as u64,
            });
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "1 to MOST_SIDE"
        )]
        Self::new(width, height as u32)
    }

    /// Pixels across.
    pub const fn width(self) -> u32 {
        self.width
    }

    /// Pixels down.
    pub const fn height(self) -> u32 {
        self.height
    }

    /// Pixels in all.
    pub(crate) fn pixels(self) -> u64 {
        u64::from(self.width) * u64::from(self.height)
    }
}

/// Whether a drawing has a page that can be scaled.
pub(crate) fn is_page(drawing: &Drawing) -> bool {
    [drawing.width, drawing.height]
        .iter()
        .all(|length| length.is_finite() && *length > 0.0)
}

/// How many cells a picture has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct CellSize {
    /// Cells across.
    pub columns: u16,
    /// Cells down.
    pub rows: u16,
}

impl CellSize {
    /// The pixels of cells of so many pixels each.
    pub(crate) fn pixels(self, [across, down]: [u16; 2]) -> Result<PixelSize, RasterError> {
        let Self { columns, rows } = self;
        if columns.max(rows) > MOST_CELLS {
            return Err(RasterError::TooManyCells { columns, rows });
        }
        PixelSize::new(
            u32::from(columns) * u32::from(across),
            u32::from(rows) * u32::from(down),
        )
    }

    /// Cells in all.
    pub(crate) fn cells(self) -> usize {
        usize::from(self.columns) * usize::from(self.rows)
    }
}
