//! Files opened without waiting on a pipe and without following a planted link.

use std::fs::{Metadata, OpenOptions};
use std::io;

/// What stands there is no plain file.
#[derive(Debug, thiserror::Error)]
#[error("not a plain file, but a folder, a pipe or a device")]
pub(crate) struct NotPlain;

/// An error where no plain file stands.
pub(super) fn refuse_other(metadata: &Metadata) -> io::Result<()> {
    if metadata.is_file() {
        Ok(())
    } else {
        Err(io::Error::other(NotPlain))
    }
}

/// A plain file under one name, or under none any more.
#[cfg(unix)]
pub(super) fn is_own(metadata: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    metadata.is_file() && metadata.nlink() <= 1
}

#[cfg(not(unix))]
pub(super) fn is_own(metadata: &Metadata) -> bool {
    metadata.is_file()
}

/// Opening returns at once, whatever stands there.
#[cfg(unix)]
pub(super) fn without_waiting(options: &mut OpenOptions) -> &mut OpenOptions {
    use std::os::unix::fs::OpenOptionsExt;
    options.custom_flags(libc::O_NONBLOCK | libc::O_NOCTTY)
}

#[cfg(not(unix))]
pub(super) fn without_waiting(options: &mut OpenOptions) -> &mut OpenOptions {
    options
}

/// Opening returns at once, and fails where a link stands.
#[cfg(unix)]
pub(super) fn without_following(options: &mut OpenOptions) -> &mut OpenOptions {
    use std::os::unix::fs::OpenOptionsExt;
    options.custom_flags(libc::O_NONBLOCK | libc::O_NOCTTY | libc::O_NOFOLLOW)
}

#[cfg(not(unix))]
pub(super) fn without_following(options: &mut OpenOptions) -> &mut OpenOptions {
    options
}
