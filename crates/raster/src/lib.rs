//! The strokes of a drawing as pixels, and pixels as a terminal or a file takes
//! them: cells of block glyphs, dots or letters, PNG, sixel and kitty bytes.
//!
//! Nothing here knows of a terminal: whoever has one says what it can show and
//! writes what comes back. Every stroke is opaque and clipped already, so that
//! painting needs no masks and no blending of layers.
//!
//! Where colours are few (256, 16 or none) a picture is not painted and then
//! reduced: each pixel is given the [`Role`](scene::stroke::Role) of the uppermost
//! stroke there, so that no colour appears which the drawing does not have.
//!
//! # Example
//!
//! A page keeps its shape, whatever its width in pixels:
//!
//! ```
//! use raster::PixelSize;
//! use scene::stroke::Drawing;
//!
//! let drawing = Drawing {
//!     width: 30.0,
//!     height: 18.0,
//!     title: "An empty page".into(),
//!     alternative_text: String::new(),
//!     strokes: Vec::new(),
//! };
//! let size = PixelSize::of_width(&drawing, 640)?;
//! assert_eq!((size.width(), size.height()), (640, 384));
//! # Ok::<(), raster::RasterError>(())
//! ```

mod base64;
mod blocks;
mod brush;
mod cell_words;
mod cells;
mod error;
mod fit;
mod glyphs;
mod kitty;
mod limits;
mod palette;
mod pixels;
mod png;
mod role_map;
mod sixel;
mod size;

pub use self::png::png;
pub use blocks::Blocks;
pub use cells::{Cell, CellColour, Cells, Depth, cells};
pub use error::RasterError;
pub use glyphs::{GlyphCell, GlyphCells, Glyphs, glyph_cells};
pub use kitty::{ImageId, erase_kitty, kitty};
pub use pixels::{Pixels, paint};
pub use sixel::sixel;
pub use size::{CellSize, PixelSize};
