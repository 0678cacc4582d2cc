//! Saves texts to disk, whole or not at all.

mod disk;
mod error;
mod open;
mod replace;

pub(crate) use disk::DiskFile;
pub use disk::{Disk, Fault, Operation};
pub use error::StoreError;
pub(crate) use replace::{beside, make_private_folder, real_path, remove, replace, sweep, unlink};

use crate::Digest;
use crate::format_1::is_of_format_1;
use crate::kind::CATALOGUE_CAP;
use std::ffi::OsString;
use std::fs::Metadata;
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

/// The state of the disk that a save expects, so that nobody's work is overwritten.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Expect {
    /// No file of that name.
    NoFile,
    /// The bytes that were read or saved last.
    Same(Digest),
    /// Anything: the user was told and chose to overwrite it.
    Anything,
}

/// The outcome of a save.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SaveOutcome {
    /// The digest of the file now on disk.
    pub digest: Digest,
    /// The copy of the overwritten file of format 1, where there was one.
    pub kept: Option<PathBuf>,
}

/// Saves a text and gives its digest. On an error the file is as it was, or where its
/// name alone was not forced to disk, may be so again after a loss of power.
///
/// The text is written to a new file in the same folder, forced to disk and
/// renamed: at any moment either the old file or the new one is there in full. The
/// mode stays; a symbolic link stays and the file it names is replaced. Hard links,
/// owner, extended attributes and access lists do not follow a rename.
///
/// A file of format 1 over which one of another format is saved is kept beside it,
/// as `NAME.format1`, unless one is kept there already.
pub fn save(
    disk: &Disk,
    path: &Path,
    text: &str,
    expect: Expect,
) -> Result<SaveOutcome, StoreError> {
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
    let mut kept = None;
    let (_, synced) = replace(disk, &path, text.as_bytes(), model.as_ref(), || {
        let found = on_disk(disk, &path)?;
        check(&path, expect, digest, found.as_deref())?;
        let old = found.and_then(|bytes| String::from_utf8(bytes).ok());
        if let Some(old) = old.filter(|old| is_of_format_1(old) && !is_of_format_1(text)) {
            kept = keep_old(disk, &path, &old, model.as_ref())?;
        }
        Ok(())
    })?;
    synced.map_err(|cause| StoreError::of(&path, cause))?;
    Ok(SaveOutcome { digest, kept })
}

/// Writes a file for others, which the program never reads again: whole or not at
/// all, and over one that is there only where the user was told and chose to. Unlike
/// [`save`] it follows no link: what a link, a folder, a pipe or a device stands for
/// is nothing that a sheet is printed into.
pub fn write_out(disk: &Disk, path: &Path, bytes: &[u8], over: bool) -> Result<(), StoreError> {
    let model = ensure_free(path, over)?;
    let (_, synced) = replace(disk, path, bytes, model.as_ref(), || {
        ensure_free(path, over).map(drop)
    })?;
    synced.map_err(|cause| StoreError::of(path, cause))
}

/// What stands at a path where a file is to be written; an error where it may not be
/// written over.
fn ensure_free(path: &Path, over: bool) -> Result<Option<Metadata>, StoreError> {
    let model = match path.symlink_metadata() {
        Ok(model) => model,
        Err(cause) if cause.kind() == ErrorKind::NotFound => return Ok(None),
        Err(cause) => return Err(StoreError::of(path, cause)),
    };
    if !model.is_file() {
        return Err(StoreError::not_a_file(path));
    }
    if model.permissions().readonly() {
        return Err(StoreError::read_only(path));
    }
    if !over {
        return Err(StoreError::exists(path));
    }
    Ok(Some(model))
}

/// Keeps a text of format 1 beside its file; `None` where one is kept already.
fn keep_old(
    disk: &Disk,
    path: &Path,
    old: &str,
    model: Option<&Metadata>,
) -> Result<Option<PathBuf>, StoreError> {
    let mut name = OsString::from(path.file_name().unwrap_or_default());
    name.push(".format1");
    let beside = path.with_file_name(name);
    if beside.symlink_metadata().is_ok() {
        return Ok(None);
    }
    let (_, synced) = replace(disk, &beside, old.as_bytes(), model, || Ok(()))?;
    synced.map_err(|cause| StoreError::of(&beside, cause))?;
    Ok(Some(beside))
}

/// Saves a text in a folder of the program's own, which is made where it is not
/// there: see [`save`].
pub fn save_in_own_folder(
    disk: &Disk,
    path: &Path,
    text: &str,
    expect: Expect,
) -> Result<SaveOutcome, StoreError> {
    if let Some(folder) = path.parent() {
        make_private_folder(disk, folder)?;
    }
    save(disk, path, text, expect)
}

/// The digest of the file on disk; `None` where there is none.
pub fn digest_on_disk(disk: &Disk, path: &Path) -> Result<Option<Digest>, StoreError> {
    Ok(on_disk(disk, path)?.map(|bytes| Digest::of(&bytes)))
}

/// The bytes of the file on disk; `None` where there is none.
fn on_disk(disk: &Disk, path: &Path) -> Result<Option<Vec<u8>>, StoreError> {
    let error = |cause| StoreError::of(path, cause);
    // No file of this program is larger than what it reads; a longer one differs.
    let mut bytes = Vec::new();
    let file = match disk.open_plain(path) {
        Err(cause) if cause.kind() == ErrorKind::NotFound => return Ok(None),
        opened => opened.map_err(error)?,
    };
    file.take(CATALOGUE_CAP + 1)
        .read_to_end(&mut bytes)
        .map_err(error)?;
    Ok(Some(bytes))
}

/// Whether the file on disk may be overwritten with a text.
fn check(
    path: &Path,
    expect: Expect,
    text: Digest,
    found: Option<&[u8]>,
) -> Result<(), StoreError> {
    match (expect, found.map(Digest::of)) {
        // The same text stands there: a save that failed when it was nearly done.
        (_, Some(found)) if found == text => Ok(()),
        (Expect::Anything, _) | (Expect::NoFile, None) => Ok(()),
        (Expect::Same(expected), Some(found)) if expected == found => Ok(()),
        (Expect::Same(_), Some(_)) => Err(StoreError::changed(path)),
        (Expect::Same(_), None) => Err(StoreError::gone(path)),
        (Expect::NoFile, Some(_)) => Err(StoreError::exists(path)),
    }
}

/// The metadata of a file; `None` where there is none.
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
