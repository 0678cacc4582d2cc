use sizing::HouseRules;
use sizing::look_back::LookBack;
use std::path::PathBuf;
use std::sync::Arc;

/// A look-back that is asked for, over the cases of a folder: read on a thread of its own
/// by [`Keeper::look_back`](crate::Keeper::look_back).
#[derive(Clone, Debug, PartialEq)]
pub struct LookBackOrder {
    /// Which one it is, of all that were asked for.
    pub number: u64,
    /// The folder.
    pub folder: PathBuf,
    /// The rules by whose laws things are seen.
    pub rules: Arc<HouseRules>,
}

/// What came of a look-back.
#[derive(Clone, Debug)]
pub struct LookBackResult {
    /// Which one it is, of all that were asked for.
    pub number: u64,
    /// What the cases say; Err: why the folder was not read.
    pub found: Result<Arc<LookBackFound>, String>,
}

/// What the cases of a folder say together.
#[derive(Clone, Debug, PartialEq)]
pub struct LookBackFound {
    /// What they say.
    pub look_back: LookBack,
    /// How many case files there are, used or not.
    pub files: usize,
    /// What is wrong with each file that is left out.
    pub left_out: Vec<String>,
}
