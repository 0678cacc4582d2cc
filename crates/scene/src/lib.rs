//! What is drawn of one size of one shape in the anatomy as read, in
//! millimetres: a screen today and a sheet tomorrow draw the same.
//!
//! A [`plate::Plate`] is a page of strokes ([`stroke`]), filled and lettered, which
//! file, screen and sheet draw alike; a [`plate::Bay`] is one picture of it, thinned for
//! a few cells of a screen. A stroke says what it is ([`Part`]) and what role it plays,
//! never how it looks.
//!
//! Every point and number comes from the engine's own geometry. In the heart
//! x runs to the right and y upward; on a page y runs downward.
//!
//! # Example
//!
//! A drawing is its strokes, and a file is written from them alone:
//!
//! ```
//! use scene::stroke::{Drawing, Ink, PageGround, Path, Role, Stroke};
//! use scene::{Part, Point};
//!
//! let corners = [(0.0, 0.0), (6.0, 0.0), (6.0, 5.0), (0.0, 5.0)];
//! let waist = Stroke {
//!     part: Part::Waist,
//!     role: Role::Device,
//!     ink: Ink::Fill(Path::polygon(corners.map(|(x, y)| Point::new(x, y)))),
//! };
//! let drawing = Drawing {
//!     width: 6.0,
//!     height: 5.0,
//!     title: "A waist".into(),
//!     alternative_text: "A waist of 5 mm.".into(),
//!     strokes: vec![waist],
//! };
//! assert!(scene::svg::svg(&drawing, PageGround::Light).contains("<title>A waist</title>"));
//! ```

mod clip;
mod extent;
pub mod look_back;
mod nearest;
mod part;
pub mod plate;
mod precision;
mod rim_overlap;
mod section;
pub mod stroke;
pub mod svg;
mod view;
mod words;
mod worst_place;

#[cfg(test)]
mod sample;

pub use extent::{Extent, Point};
pub use nearest::{LeastRimOverlap, NearestToValve};
pub use part::Part;
pub(crate) use section::nearest_valve;
pub use view::View;
