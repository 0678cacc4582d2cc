//! A fit map written for people, programs and spreadsheets.

pub(crate) mod csv;
pub(crate) mod json;
pub(crate) mod table;

use paper::Provenance;
use sizing::Setting;
use sizing::fit_map::{FitMap, Mark, WouldFit};

/// A whole map with all that is said of it.
pub(crate) struct Mapped<'a> {
    pub(crate) setting: &'a Setting,
    pub(crate) map: &'a FitMap,
    pub(crate) marks: &'a [Mark],
    pub(crate) would_fit: &'a WouldFit,
    pub(crate) from: &'a Provenance,
}
