use crate::Diagnostic;
use crate::text::visible;
use std::io;

/// Why a file was not taken.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// It could not be read.
    #[error("{file}: {cause}. Give the path of a file that you may read.")]
    Unread {
        /// Its name, made visible.
        file: String,
        /// What the system said.
        cause: io::Error,
    },
    /// It is larger than any such file should be.
    #[error("{file}: larger than {kibibytes} KiB, and not read. Is it the right file?")]
    TooLarge {
        /// Its name, made visible.
        file: String,
        /// The largest size taken.
        kibibytes: u64,
    },
    /// It is not text.
    #[error("{file}: not UTF-8 from byte {offset} on. Save it as plain text in UTF-8.")]
    NotUtf8 {
        /// Its name, made visible.
        file: String,
        /// The first byte that is not UTF-8.
        offset: usize,
    },
    /// It was read and is not right: every fault, one a line.
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
