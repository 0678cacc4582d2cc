use std::path::PathBuf;

/// Where your centre's rules are kept.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum RulesHome {
    /// In this file, which was read.
    File(PathBuf),
    /// In no file yet: those that came with the program are in use, and a copy with what
    /// is changed would be written here.
    New(PathBuf),
    /// Nowhere.
    #[default]
    Nowhere,
}
