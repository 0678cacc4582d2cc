//! Files in and out: cases, catalogues and house rules in RON.
//!
//! A file is read in three steps: [`Source`] holds its text, serde forms take
//! what `ron` reads, and checks turn a form into the types of the other crates.
//! Of a file that parses, every fault is found at once, each a [`Diagnostic`]
//! with its line, column and field; of one that does not, the first. What is
//! read keeps the place of each value ([`Checked`]), so that one value can be
//! changed without touching the rest.
//!
//! Nothing of a file is shown but through [`visible`].

mod case;
mod catalogue;
mod diagnostic;
mod document;
mod error;
mod faults;
mod form;
mod house_rules;
mod kind;
mod nearest;
mod outline;
pub mod shipped;
mod source;
mod syntax;
mod text;
mod words;

pub use case::{CASE_CAP, CaseFile, parse_case, read_case};
pub use catalogue::{CATALOGUE_CAP, CatalogueFile, parse_catalogue, read_catalogue};
pub use diagnostic::Diagnostic;
pub use document::{Checked, Step};
pub use error::FileError;
pub use house_rules::{HouseRulesFile, RULES_CAP, parse_house_rules, read_house_rules};
pub use kind::FileKind;
pub use source::{Position, Source};
pub use text::{excerpt, visible};
pub use words::Word;

pub(crate) use faults::Faults;
