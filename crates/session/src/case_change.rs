use crate::home::Home;
use sizing::Case;
use std::sync::Arc;

/// A change of the case that was made and is not in the journal yet.
#[derive(Clone, Debug)]
pub struct CaseChange {
    /// What it did, in words.
    pub(crate) called: String,
    /// The case after it.
    pub(crate) case: Arc<Case>,
    /// Where that case is kept.
    pub(crate) home: Home,
    /// Whether it goes on with the nudges before and is one change with them.
    pub(crate) goes_on: bool,
}
