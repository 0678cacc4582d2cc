//! A ranking written for people, programs and spreadsheets.

pub(super) mod changes;
pub(super) mod criteria;
pub(super) mod csv;
pub(super) mod drawing;
pub(super) mod fit_map;
mod foretold;
pub(super) mod growth;
mod harmless;
mod head_and_foot;
pub(super) mod json;
pub(super) mod look_back;
mod of_cohorts;
pub(super) mod side_by_side;
pub(super) mod table;
pub(super) mod trials;
pub(super) mod trials_json;
pub(super) mod workup_json;
pub(super) mod workup_table;
