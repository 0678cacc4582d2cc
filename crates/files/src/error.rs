use crate::Diagnostic;
use crate::text::visible;
use std::io;

/// Why a file was not read.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// The system could not read the file.
    #[error("{file}: {cause}. Give the path of a file that you may read.")]
    Unread {
        /// The name of the file, safe to show.
        file: String,
        /// The error of the system.
        cause: io::Error,
    },
    /// The file is larger than allowed.
    #[error("{file}: larger than {kibibytes} KiB, and not read. Is it the right file?")]
    TooLarge {
        /// The name of the file, safe to show.
        file: String,
        /// The largest size allowed, in bytes.
        kibibytes: u64,
    },
    /// The file is not valid UTF-8.
    #[error("{file}: not UTF-8 from byte {offset} on. Save it as plain text in UTF-8.")]
    NotUtf8 {
        /// The name of the file, safe to show.
        file: String,
        /// Index of the first byte that is not UTF-8.
        offset: usize,
    },
    /// The file has faults, which are listed one a line.
    #[error("{}", lines(.0))]
    Faulty(Vec<Diagnostic>),
}

impl FileError {
    pub(crate) fn unread(name: &str, cause: io::Error) -> Self {
        Self::Unread {
            file: visible(name).into_owned(),
            cause,
        }
    }

    pub(crate) fn too_large(name: &str, cap: u64) -> Self {
        Self::TooLarge {
            file: visible(name).into_owned(),
            kibibytes: cap / 1024,
        }
    }

    pub(crate) fn not_utf8(name: &str, offset: usize) -> Self {
        Self::NotUtf8 {
            file: visible(name).into_owned(),
            offset,
        }
    }
}

impl From<Vec<Diagnostic>> for FileError {
    fn from(faults: Vec<Diagnostic>) -> Self {
        Self::Faulty(faults)
    }
}

fn lines(faults: &[Diagnostic]) -> String {
    faults
        .iter()
        .map(ToString::to_string)
        .collect::<Vec<_>>()
        .join("\n")
}
