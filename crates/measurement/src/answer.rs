use std::fmt;

/// An answer to a question of fact: yes, no or unknown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Answer {
    /// The fact holds.
    Yes,
    /// The fact does not hold.
    No,
    /// Nobody knows, or nobody was asked.
    #[default]
    Unknown,
}

impl Answer {
    /// Whether the fact may hold: the answer is yes or unknown.
    pub const fn may_be(self) -> bool {
        !matches!(self, Self::No)
    }
}

impl fmt::Display for Answer {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(match self {
            Self::Yes => "yes",
            Self::No => "no",
            Self::Unknown => "unknown",
        })
    }
}
