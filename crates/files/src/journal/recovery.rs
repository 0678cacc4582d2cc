use super::{CAP, Forced, Journal, JournalError, journal_of, record};
use crate::store::{real_path, remove};
use crate::text::visible;
use crate::{Disk, StoreError};
use std::fs::OpenOptions;
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

/// The changes that a journal holds and the file on disk does not.
#[derive(Debug)]
pub struct Recovery {
    /// The names of the changes, the oldest first, safe to show.
    pub changes: Vec<String>,
    /// The text with all changes, its byte-order mark included.
    pub text: String,
    /// How the file on disk relates to the changes.
    pub ground: Ground,
    /// Bytes behind the last whole change: one that was not yet confirmed when the
    /// program ended, or damage to the disk.
    pub torn: u64,
    disk: Disk,
    case: PathBuf,
    path: PathBuf,
    whole: u64,
    sum: crate::Digest,
    work: u64,
}

/// How the file on disk relates to the changes of a journal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ground {
    /// The file has the text that the changes build on, so restoring loses nothing.
    Theirs,
    /// The file has another text, or is gone. Restoring and saving would undo what something
    /// else did to it.
    Other,
}

impl Recovery {
    /// Looks for changes that were confirmed and not saved; `None` where there are
    /// none. `on_disk` is the file's text as it is, with its byte-order mark, or
    /// `None` where there is no file: a case that was never saved has a journal
    /// from nothing on.
    ///
    /// It changes nothing on disk. Only a window that is alone with the file may
    /// ask: see [`Presence`](crate::Presence).
    pub fn find(
        disk: &Disk,
        case: &Path,
        on_disk: Option<&str>,
    ) -> Result<Option<Self>, JournalError> {
        let case = real_path(case);
        let path = journal_of(&case);
        let Some(bytes) = bytes(disk, &path).map_err(JournalError::Unread)? else {
            return Ok(None);
        };
        let Some(mut whole) = record::read(&bytes, on_disk.unwrap_or_default()) else {
            return Err(JournalError::Broken {
                file: visible(&path.display().to_string()).into_owned(),
            });
        };
        // A crash after a save and before the journal was dropped: what is in the
        // file already is not told again.
        let changes = whole.called.split_off(whole.on_disk.unwrap_or(0));
        if changes.is_empty() {
            return Ok(None);
        }
        let length = whole.length as u64;
        Ok(Some(Self {
            changes: changes
                .iter()
                .map(|called| visible(called).into_owned())
                .collect(),
            text: whole.text,
            ground: if whole.on_disk.is_some() {
                Ground::Theirs
            } else {
                Ground::Other
            },
            torn: bytes.len() as u64 - length,
            disk: disk.clone(),
            case,
            path,
            whole: length,
            sum: whole.sum,
            work: whole.work,
        }))
    }

    /// Continues the journal from the restored text, so that the changes stay recorded until
    /// they are saved.
    pub fn restore(self) -> Result<Journal, JournalError> {
        let error = |cause| JournalError::NotWritten(StoreError::of(&self.path, cause));
        let file = self
            .disk
            .open_own(&self.path, OpenOptions::new().write(true))
            .map_err(JournalError::NotWritten)?;
        file.set_len(self.whole).map_err(error)?;
        Ok(Journal {
            disk: self.disk,
            case: self.case,
            path: self.path,
            text: self.text,
            sum: self.sum,
            file: Some((file, self.whole)),
            work: self.work,
            may_go_on: false,
            forced: Forced::All,
        })
    }

    /// Discards the changes for good.
    pub fn discard(self) -> Result<(), JournalError> {
        remove(&self.disk, &self.path).map_err(JournalError::NotDropped)
    }
}

/// The bytes of a journal, up to the most it may have; `None` where there is no journal.
fn bytes(disk: &Disk, path: &Path) -> Result<Option<Vec<u8>>, StoreError> {
    // Asked first: where there is none, nothing is to be opened.
    match path.symlink_metadata() {
        Err(cause) if cause.kind() == ErrorKind::NotFound => return Ok(None),
        Err(cause) => return Err(StoreError::of(path, cause)),
        Ok(_) => {}
    }
    let file = disk.open_own(path, OpenOptions::new().read(true))?;
    let mut bytes = Vec::new();
    file.take(CAP)
        .read_to_end(&mut bytes)
        .map_err(|cause| StoreError::of(path, cause))?;
    Ok(Some(bytes))
}
