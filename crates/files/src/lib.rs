//! Reading and writing of files: cases, catalogues, your centre's rules and guidance in
//! RON, and the journal beside an open case.
//!
//! A file is read in three steps: [`Source`] holds its text, serde forms take
//! what `ron` reads, and checks turn a form into the types of the other crates.
//! Of a file that parses, every fault is found at once, each a [`Diagnostic`]
//! with its line, column and field; of one that does not, the first. What is
//! read keeps the span of each value ([`Checked`]), so that one value can be
//! changed without touching the rest.
//!
//! Text from a file is shown through [`visible`] alone:
//!
//! ```
//! assert_eq!(files::visible("4.6\u{1b}[2J mm"), "4.6␛[2J mm");
//! ```

mod case;
mod case_folder;
mod catalogue;
mod check_shape;
mod diagnostic;
mod digest;
mod document;
mod error;
mod exceptions;
mod facts;
#[cfg(unix)]
#[cfg(test)]
mod failing;
mod faults;
mod fix;
mod form;
mod format_1;
mod guidance;
#[cfg(unix)]
#[cfg(test)]
mod hostile;
mod house_rules;
mod journal;
mod kept_looks;
mod kind;
mod lesson;
mod nearest;
mod new_case;
mod new_catalogue;
mod outline;
mod own_file;
mod parameters;
mod place;
mod planned_on;
mod presence;
mod procedure;
mod proposed_rows;
mod reading_text;
mod recent;
mod ron_text;
mod rows;
mod scores;
#[cfg(unix)]
#[cfg(test)]
mod scratch;
mod setting;
pub mod shipped;
mod size_text;
mod source;
mod source_file;
mod splice;
mod store;
mod syntax;
mod text;
mod unfiled;
mod words;
mod workup_input;

pub use case::{CaseFile, parse_case, read_case};
pub use case_folder::{CaseFolder, FolderError, read_case_folder};
pub use catalogue::{CatalogueFile, parse_catalogue, read_catalogue};
pub use check_shape::check_shape;
pub use diagnostic::Diagnostic;
pub use digest::Digest;
pub use document::{Checked, Step};
pub use error::FileError;
pub use fix::{FixError, fix, in_todays_words};
pub use guidance::{GuidanceFile, parse_guidance, read_guidance};
pub use house_rules::{HouseRulesFile, parse_house_rules, read_house_rules};
pub use journal::{Ground, Journal, JournalError, Recovery};
pub use kept_looks::{KeptLooks, LooksWords};
pub use kind::{CATALOGUE_CAP, FileKind, LESSON_CAP};
pub use lesson::{
    Course, CourseStep, LessonFile, LessonOfCase, StepContent, case_of_lesson, parse_lesson,
    read_lesson,
};
pub use new_case::new_case;
pub use new_catalogue::new_catalogue;
pub use planned_on::planned_on;
pub use presence::{EntryOutcome, Holder, Presence};
pub use proposed_rows::{ProposedRows, proposed_rows};
pub use recent::Recent;
pub use scores::{Score, Scores};
pub use setting::{setting, worked_up};
pub use source::{Position, Source};
pub use splice::SpliceError;
pub use store::{
    Disk, Expect, Fault, Operation, SaveOutcome, StoreError, digest_on_disk, save,
    save_in_own_folder, write_out,
};
pub(crate) use text::excerpt;
pub use text::visible;
pub use unfiled::Unfiled;
pub use words::Word;
pub use workup_input::workup_input;

pub(crate) use faults::Faults;
