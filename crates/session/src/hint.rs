/// A key and what it does now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// The key as it is written.
    pub key: String,
    /// What it does, in a word or two.
    pub does: &'static str,
}

/// Hints that are always the same.
pub(crate) fn hints(hints: &[(&str, &'static str)]) -> Vec<Hint> {
    hints
        .iter()
        .map(|&(key, does)| Hint {
            key: key.to_owned(),
            does,
        })
        .collect()
}
