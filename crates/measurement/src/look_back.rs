//! Look-back: what was foretold against what was seen, over many cases.

mod agreement;
mod answers;
mod censored;
mod difference;
mod of_name;
mod proposal;
mod student;
mod wilson;

pub use agreement::{Agreement, agreement};
pub use answers::{Bin, Foretold, brier, brier_interval, reliability, spiegelhalter_z};
pub use difference::Difference;
pub use of_name::uniform_of_name;
pub use proposal::{Proposed, proposed};
pub use student::student_quantile;
pub use wilson::wilson;
