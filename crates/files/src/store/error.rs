use super::open::NotPlain;
use crate::text::visible;
use std::io::{self, ErrorKind};
use std::path::Path;

/// Why a file was not written; what was on disk is unchanged.
///
/// File names are already safe to show.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// Another program, or another window, wrote to the file.
    #[error("{file} changed on disk since it was read. Reload it, or save all the same.")]
    Changed {
        /// The file.
        file: String,
    },
    /// The file no longer exists where it was read.
    #[error("{file} is no longer there. Save all the same, or under another name.")]
    Gone {
        /// The file.
        file: String,
    },
    /// A new file was wanted, and one exists.
    #[error("{file} is there already. Choose another name, or save all the same.")]
    Exists {
        /// The file.
        file: String,
    },
    /// No space is left on the disk.
    #[error("no room on the disk for {file}. Make room, or save elsewhere.")]
    Full {
        /// The file.
        file: String,
    },
    /// The folder does not take new files from this user.
    #[error("{file} cannot be saved: its folder may not be written to. Save elsewhere.")]
    Forbidden {
        /// The file.
        file: String,
    },
    /// The file is read-only.
    #[error("{file} may only be read. Save under another name, or allow writing to it.")]
    ReadOnly {
        /// The file.
        file: String,
    },
    /// The folder does not exist.
    #[error("{file} cannot be saved: its folder does not exist. Make it, or save elsewhere.")]
    NoFolder {
        /// The file.
        file: String,
    },
    /// The path is a folder, a device or a pipe.
    #[error("{file} is not a file that can be saved to. Choose another name.")]
    NotAFile {
        /// The file.
        file: String,
    },
    /// A link, or something else, stands at the path of a file of the program's own.
    #[error("{file} is a link or no file of this program. Move it away.")]
    NotOwn {
        /// The file.
        file: String,
    },
    /// The system gave another error.
    #[error("{file} cannot be saved: {cause}. Save elsewhere.")]
    Other {
        /// The file.
        file: String,
        /// The error of the system.
        cause: io::Error,
    },
}

fn shown(path: &Path) -> String {
    visible(&path.display().to_string()).into_owned()
}

impl StoreError {
    /// Converts an error of the system.
    pub(crate) fn of(path: &Path, cause: io::Error) -> Self {
        let file = shown(path);
        let inner = cause.get_ref();
        if inner.is_some_and(<dyn std::error::Error + Send + Sync>::is::<NotPlain>) {
            return Self::NotAFile { file };
        }
        match cause.kind() {
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => Self::Full { file },
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => Self::Forbidden { file },
            ErrorKind::NotFound | ErrorKind::NotADirectory => Self::NoFolder { file },
            ErrorKind::IsADirectory => Self::NotAFile { file },
            _ => Self::Other { file, cause },
        }
    }

    pub(super) fn changed(path: &Path) -> Self {
        Self::Changed { file: shown(path) }
    }

    pub(super) fn gone(path: &Path) -> Self {
        Self::Gone { file: shown(path) }
    }

    pub(super) fn exists(path: &Path) -> Self {
        Self::Exists { file: shown(path) }
    }

    pub(super) fn read_only(path: &Path) -> Self {
        Self::ReadOnly { file: shown(path) }
    }

    pub(crate) fn not_own(path: &Path) -> Self {
        Self::NotOwn { file: shown(path) }
    }

    pub(crate) fn not_a_file(path: &Path) -> Self {
        Self::NotAFile { file: shown(path) }
    }
}
