//! Look-back over many cases: scores of foretold chances, and agreement of readings with
//! what was seen.

mod agreement;
mod answers;
mod censored;
mod difference;
mod of_name;
mod proposal;
mod student;
mod wilson;

pub use agreement::{Agreement, agreement};
pub use answers::{Bin, ForetoldPair, brier, brier_interval, reliability, spiegelhalter_z};
pub use difference::Difference;
pub use of_name::uniform_of_name;
pub use proposal::{BiasProposal, propose_bias};
pub use student::student_quantile;
pub use wilson::wilson;
