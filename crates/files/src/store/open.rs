//! Files opened without waiting on a pipe and without following a planted link.

use super::StoreError;
use std::fs::{File, Metadata, OpenOptions};
use std::io;
use std::path::Path;

/// What stands there is no plain file.
#[derive(Debug, thiserror::Error)]
#[error("not a plain file, but a folder, a pipe or a device")]
pub(crate) struct NotPlain;

/// Opens a plain file to read it. A folder, a pipe or a device is an error: nothing
/// waits for who writes to it, however it got there.
pub(crate) fn open_plain(path: &Path) -> io::Result<File> {
    // Before opening, which a device may take for more than it is.
    refuse_other(&path.metadata()?)?;
    let mut options = OpenOptions::new();
    let file = without_waiting(options.read(true)).open(path)?;
    // And after it: by then something else may stand there.
    refuse_other(&file.metadata()?)?;
    Ok(file)
}

/// Opens one of the program's own files, which stands beside a user's: never a
/// link, and never a file that has another name as well.
pub(crate) fn open_own(path: &Path, options: &mut OpenOptions) -> Result<File, StoreError> {
    let opened = without_following(options).open(path);
    let is_link = || {
        path.symlink_metadata()
            .is_ok_and(|metadata| !is_own(&metadata))
    };
    let file = opened.map_err(|cause| {
        if is_link() {
            StoreError::not_own(path)
        } else {
            StoreError::of(path, cause)
        }
    })?;
    let metadata = file
        .metadata()
        .map_err(|cause| StoreError::of(path, cause))?;
    if is_own(&metadata) {
        Ok(file)
    } else {
        Err(StoreError::not_own(path))
    }
}

fn refuse_other(metadata: &Metadata) -> io::Result<()> {
    if metadata.is_file() {
        Ok(())
    } else {
        Err(io::Error::other(NotPlain))
    }
}

/// A plain file under one name, or under none any more.
#[cfg(unix)]
fn is_own(metadata: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    metadata.is_file() && metadata.nlink() <= 1
}

#[cfg(not(unix))]
fn is_own(metadata: &Metadata) -> bool {
    metadata.is_file()
}

/// Opening returns at once, whatever stands there.
#[cfg(unix)]
fn without_waiting(options: &mut OpenOptions) -> &mut OpenOptions {
    use std::os::unix::fs::OpenOptionsExt;
    options.custom_flags(libc::O_NONBLOCK | libc::O_NOCTTY)
}

#[cfg(not(unix))]
fn without_waiting(options: &mut OpenOptions) -> &mut OpenOptions {
    options
}

/// Opening returns at once, and fails where a link stands.
#[cfg(unix)]
fn without_following(options: &mut OpenOptions) -> &mut OpenOptions {
    use std::os::unix::fs::OpenOptionsExt;
    options.custom_flags(libc::O_NONBLOCK | libc::O_NOCTTY | libc::O_NOFOLLOW)
}

#[cfg(not(unix))]
fn without_following(options: &mut OpenOptions) -> &mut OpenOptions {
    options
}
