use std::path::{Path, PathBuf};

/// Where a case is kept.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Home {
    /// It came with the program: it is looked at and tried out.
    #[default]
    Shipped,
    /// Nowhere yet: a case from nothing.
    Nowhere,
    /// In a file.
    File(PathBuf),
}

impl Home {
    /// The file it is kept in.
    pub fn file(&self) -> Option<&Path> {
        match self {
            Self::File(path) => Some(path),
            Self::Shipped | Self::Nowhere => None,
        }
    }
}
