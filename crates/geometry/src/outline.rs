//! Outlines for pictures, in millimetres: closed lines through points of the
//! engine's own geometry, with straight chords between them.
//!
//! Every point lies on the true outline, and no chord strays from it by more
//! than the accuracy asked for. A picture needs about 0.01 mm, not the accuracy
//! of a check: the points grow as its inverse square root.

mod chords;
mod face_on;
mod section;
mod section_point;

pub use face_on::{disc_rim, opening_edge, waist_ring};
pub use section::SectionPlane;
pub use section_point::SectionPoint;
