//! Z-scores: how far the size of a structure lies from that of healthy children of the
//! same body size, by two published tables.

pub mod lopez_2017;
pub mod pettersen_2008;
mod usual_length;

pub use usual_length::{UsualLength, usual_length};

use crate::in_range::{Outside, Span};
use measurement::Years;

/// The range of a structure's size in healthy children of one body size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NormalRange<T> {
    /// Lower limit.
    pub low: T,
    /// The size at z = 0: the mean, or the median where the logarithm was fitted.
    pub middle: T,
    /// Upper limit.
    pub high: T,
}

static AGES: Span = Span {
    input: "age",
    unit: "years",
    least: 0.0,
    most: 18.0,
    source: "Lopez 2017 and Pettersen 2008",
};

/// Marks an age outside that of the children behind both tables.
pub fn outside_z_score_ages(age: Years) -> Option<Outside> {
    AGES.outside(age.value())
}
