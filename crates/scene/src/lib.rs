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
