use std::fmt;

/// Why something was not done, in words for the operator.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused(String);

impl Refused {
    pub(crate) fn new(why: impl Into<String>) -> Self {
        Self(why.into())
    }
}

impl fmt::Display for Refused {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.0)
    }
}

impl std::error::Error for Refused {}
