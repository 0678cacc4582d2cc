use crate::text::{excerpt, visible};
use crate::{Position, Source};
use std::fmt;

/// One fault of a file: its position, what was found and expected, and what to do.
///
/// Every text in it is already safe to show.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Diagnostic {
    /// The name of the file.
    pub file: String,
    /// The position at which the fault begins.
    pub at: Position,
    /// The field: `readings[3].value`; empty for the file as a whole.
    pub field: String,
    /// The text that was found there.
    pub found: String,
    /// What was expected instead.
    pub expected: String,
    /// The remedy in a sentence; may be empty.
    pub remedy: String,
}

impl Diagnostic {
    /// A fault at a byte of a source. Any part may hold text of the file as it
    /// is: it is made visible here, and what was found is cut short.
    pub(crate) fn new(
        source: &Source,
        offset: usize,
        field: &str,
        found: &str,
        expected: &str,
        remedy: &str,
    ) -> Self {
        Self {
            file: visible(source.name()).into_owned(),
            at: source.position(offset),
            field: visible(field).into_owned(),
            found: excerpt(found),
            expected: visible(expected).into_owned(),
            remedy: visible(remedy).into_owned(),
        }
    }
}

impl fmt::Display for Diagnostic {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            file,
            at,
            field,
            found,
            expected,
            remedy,
        } = self;
        write!(formatter, "{file}:{}:{}: ", at.line, at.column)?;
        if !field.is_empty() {
            write!(formatter, "{field}: ")?;
        }
        write!(formatter, "found {found}, expected {expected}.")?;
        if !remedy.is_empty() {
            write!(formatter, " {remedy}")?;
        }
        Ok(())
    }
}
