//! How far a structure of the heart is from that of healthy children of the
//! same size.

pub mod lopez_2017;
pub mod pettersen_2008;
mod usual_length;

pub use usual_length::{UsualLength, usual_length};

use crate::in_range::{Outside, Span};
use measurement::Years;

/// What healthy children of one size have.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NormalRange<T> {
    /// Lower limit.
    pub low: T,
    /// Where z is 0: the mean, or the median where the logarithm was fitted.
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

/// How an age lies outside that of the children behind both tables.
pub fn outside_z_score_ages(age: Years) -> Option<Outside> {
    AGES.outside(age.value())
}
