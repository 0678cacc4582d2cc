//! Trials: what is seen when a size is opened on its cable, and what that changes.
//!
//! Everything here re-weighs draws that are there already; no engine is asked anew.

mod unions;

pub use unions::{SetWeights, Unions, dominates, unions};
