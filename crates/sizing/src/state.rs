/// How a check came out at the values as read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// No limit is broken.
    Ok,
    /// A caution is broken.
    Caution,
    /// A stop is broken.
    Stop,
    /// A reading is missing.
    NotAssessed,
}

impl State {
    /// The word for it in output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Ok => "ok",
            Self::Caution => "warning",
            Self::Stop => "beyond",
            Self::NotAssessed => "not assessed",
        }
    }
}
