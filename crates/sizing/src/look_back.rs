//! Look-back over many cases: what was foretold when a size was opened, against what was
//! seen. The geometry chance is never scored: nobody sees whether a limit holds.

mod page;
mod pairs;
mod record;
mod report;
mod words;

pub use pairs::ReadBy;
pub use record::CaseRecord;
pub(crate) use report::FEWEST_VALUES;
pub use report::{AnswerRow, FEWEST_ANSWERS, LookBack, ReadingRow, Score, ValueRow};
pub use words::HOW_IT_COUNTS;
