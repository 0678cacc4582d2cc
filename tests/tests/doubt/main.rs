//! Draws, chances and what follows from them.

mod break_even;
mod calibration;
mod edits;
mod engines;
mod fit_map;
mod jcgm101;
mod worth;
