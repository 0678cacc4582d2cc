//! Helpers shared by the outside checks.

pub mod random;
pub mod sample;
