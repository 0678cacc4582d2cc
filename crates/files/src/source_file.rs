//! Reads a text from a file.

use crate::{Disk, FileError, Source};
use std::io::Read;
use std::path::Path;

impl Source {
    /// Reads a plain file of at most `cap` bytes of UTF-8.
    pub fn read(path: &Path, cap: u64) -> Result<Self, FileError> {
        let name = path.display().to_string();
        let mut bytes = Vec::new();
        // One byte over the cap shows that there is more; nothing beyond it is read.
        let read = Disk::default()
            .open_plain(path)
            .and_then(|file| file.take(cap + 1).read_to_end(&mut bytes));
        match read {
            Err(cause) => Err(FileError::unread(&name, cause)),
            Ok(length) if length as u64 > cap => Err(FileError::too_large(&name, cap)),
            Ok(_) => match std::str::from_utf8(&bytes) {
                Ok(text) => Ok(Self::new(&name, text)),
                Err(error) => Err(FileError::not_utf8(&name, error.valid_up_to())),
            },
        }
    }
}
