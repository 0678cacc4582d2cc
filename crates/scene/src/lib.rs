//! What is drawn of one size of one shape in the anatomy as read, in
//! millimetres: a screen today and a sheet tomorrow draw the same.
//!
//! A [`Scene`] is a list of figures. Each figure says what it is ([`Part`]) and
//! how it lies in the picture ([`Form`]), never how it looks: glyphs, colours and
//! line styles are a back end's, chosen by part alone. A [`plate::Plate`] goes
//! further: a page of strokes ([`stroke`]), filled and lettered, which file, screen
//! and sheet draw alike.
//!
//! Every point and number comes from the engine's own geometry. In a scene x runs
//! to the right and y upward; on a page y runs downward.

mod clip;
mod extent;
mod face_on;
mod figure;
pub mod layout;
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
pub use face_on::face_on;
pub use figure::{Figure, Form, Home, Importance, Label, Lean, Scene};
pub use nearest::{LeastRimOverlap, NearestToValve};
pub use part::Part;
pub use section::{nearest_valve, section};
pub use view::View;
