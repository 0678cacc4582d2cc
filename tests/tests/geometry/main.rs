//! The shapes and distances, against definitions, libraries and sums that know nothing of the project.

mod braid;
mod lips;
mod offset_discs;
mod orifice;
mod perimeter;
mod plate_distance;
mod signed_clearance;
mod tract_area;
