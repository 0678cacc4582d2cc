//! Texts saved to disk, whole or not at all.

mod disk;
mod error;
mod open;
mod replace;

pub(crate) use disk::DiskFile;
pub use disk::{Disk, Fault, Operation};
pub use error::StoreError;
pub(crate) use replace::{beside, make_private_folder, real_path, remove, replace, sweep, unlink};

use crate::Digest;
use std::fs::Metadata;
use std::io::{ErrorKind, Read};
use std::path::Path;

/// What a save expects to find on disk, so that nobody's work is written over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Expect {
    /// No file of that name.
    NoFile,
    /// The bytes that were read or saved last.
    Same(Digest),
    /// Anything: the user was told and chose to write over it.
    Anything,
}

/// Saves a text and gives its digest. On an error the file is as it was, or where its
/// name alone was not forced to disk, may be so again after a loss of power.
///
/// The text is written to a new file in the same folder, forced to disk and
/// renamed: at any moment either the old file or the new one is there in full. The
/// mode stays; a symbolic link stays and the file it names is replaced. Hard links,
/// owner, extended attributes and access lists do not follow a rename.
pub fn save(disk: &Disk, path: &Path, text: &str, expect: Expect) -> Result<Digest, StoreError> {
    let path = real_path(path);
    let model = metadata(&path)?;
    if let Some(model) = &model {
        if !model.is_file() {
            return Err(StoreError::not_a_file(&path));
        }
        if model.permissions().readonly() {
            return Err(StoreError::read_only(&path));
        }
    }
    // Looked at last of all, when only the rename is left to do.
    let digest = Digest::of(text.as_bytes());
    let (_, synced) = replace(disk, &path, text.as_bytes(), model.as_ref(), || {
        check(disk, &path, expect, digest)
    })?;
    synced.map_err(|cause| StoreError::of(&path, cause))?;
    Ok(digest)
}

/// Saves a text in a folder of the program's own, which is made where it is not
/// there: see [`save`].
pub fn save_in_own_folder(
    disk: &Disk,
    path: &Path,
    text: &str,
    expect: Expect,
) -> Result<Digest, StoreError> {
    if let Some(folder) = path.parent() {
        make_private_folder(disk, folder)?;
    }
    save(disk, path, text, expect)
}

/// The digest of the file on disk; `None` where there is none.
pub fn digest_on_disk(disk: &Disk, path: &Path) -> Result<Option<Digest>, StoreError> {
    let error = |cause| StoreError::of(path, cause);
    // No file of this program is larger than what it reads; a longer one differs.
    let mut bytes = Vec::new();
    let file = match disk.open_plain(path) {
        Err(cause) if cause.kind() == ErrorKind::NotFound => return Ok(None),
        opened => opened.map_err(error)?,
    };
    file.take(crate::CATALOGUE_CAP + 1)
        .read_to_end(&mut bytes)
        .map_err(error)?;
    Ok(Some(Digest::of(&bytes)))
}

/// Whether what is on disk may be written over with a text.
fn check(disk: &Disk, path: &Path, expect: Expect, text: Digest) -> Result<(), StoreError> {
    match (expect, digest_on_disk(disk, path)?) {
        // The same text stands there: a save that failed when it was nearly done.
        (_, Some(found)) if found == text => Ok(()),
        (Expect::Anything, _) | (Expect::NoFile, None) => Ok(()),
        (Expect::Same(expected), Some(found)) if expected == found => Ok(()),
        (Expect::Same(_), Some(_)) => Err(StoreError::changed(path)),
        (Expect::Same(_), None) => Err(StoreError::gone(path)),
        (Expect::NoFile, Some(_)) => Err(StoreError::exists(path)),
    }
}

/// What is known of a file; `None` where there is none.
pub(crate) fn metadata(path: &Path) -> Result<Option<Metadata>, StoreError> {
    match path.metadata() {
        Ok(metadata) => Ok(Some(metadata)),
        Err(cause) if cause.kind() == ErrorKind::NotFound => Ok(None),
        Err(cause) => Err(StoreError::of(path, cause)),
    }
}

#[cfg(unix)]
#[cfg(test)]
mod tests;
