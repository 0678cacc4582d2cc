use std::fmt;

/// An answer to a question of fact: not knowing is an answer of its own.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Answer {
    /// It is so.
    Yes,
    /// It is not so.
    No,
    /// Nobody knows, or nobody was asked.
    #[default]
    Unknown,
}

impl Answer {
    /// Whether it may be so: yes, or not known.
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
