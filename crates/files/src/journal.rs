//! The journal: confirmed changes that are not saved yet, kept in a file beside the case.
//!
//! The journal begins with the text on disk and holds one record for every
//! confirmed change: its name, and the one span in which it changes the text. A record is
//! written before the change is shown, so that a crash of the program does not lose it,
//! and forced to disk before the next key is taken, so that a loss of power does not.
//! Each record has its length and a checksum over itself and all before it, so that
//! damaged last bytes are recognised and never read back as a change.

mod patch;
mod record;
mod recovery;

pub use recovery::{Ground, Recovery};

use crate::store::{DiskFile, beside, metadata, real_path, remove, replace, unlink};
use crate::{Digest, Disk, StoreError};
use patch::Patch;
use std::fs::OpenOptions;
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

/// The ending of a journal's name.
pub(crate) const ENDING: &str = "rimwise-journal";

/// The largest journal, in bytes: some hundred thousand changes.
const CAP: u64 = 16 * 1024 * 1024;

/// Most bytes of text that the changes of a journal lead through, one after the
/// other: reading it back takes time in proportion.
const WORK: u64 = 1 << 30;

/// The journal of one open file. Nothing stands on disk before the first change.
///
/// One window writes it: hold the file's [`Presence`](crate::Presence).
#[derive(Debug)]
pub struct Journal {
    disk: Disk,
    case: PathBuf,
    path: PathBuf,
    /// The text after all that is recorded, and the checksum of the last record.
    text: String,
    sum: Digest,
    /// The journal on disk, and how much of it is whole.
    file: Option<(DiskFile, u64)>,
    /// Bytes of text that its changes lead through, of at most `WORK`.
    work: u64,
    /// Whether the last record is of the change that was asked for last, so that
    /// what goes on with that one may take its place.
    may_go_on: bool,
    forced: Forced,
}

/// How much of a journal is forced to disk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Forced {
    /// All records.
    All,
    /// All records but the last.
    Before,
    /// Unknown, since forcing failed: the system may take what it still holds for forced.
    Unknown,
}

/// Why a change is not safe in the journal, or a journal not readable.
#[derive(Debug, thiserror::Error)]
pub enum JournalError {
    /// The system did not write the record.
    #[error("the change is not safe from a crash, save it: {0}")]
    NotWritten(StoreError),
    /// The journal could not be removed.
    #[error("what is saved or dropped here may be offered again at the next start: {0}")]
    NotDropped(StoreError),
    /// The journal has become too long.
    #[error("the journal of unsaved changes is full. Save the case: it starts anew then.")]
    Full,
    /// The journal could not be read.
    #[error("the journal of unsaved changes was not read: {0}")]
    Unread(StoreError),
    /// The file does not begin like a journal.
    #[error(
        "{file} holds no unsaved changes that can be read. Move it away; nothing was restored."
    )]
    Broken {
        /// The path of the journal, safe to show.
        file: String,
    },
}

impl Journal {
    /// An empty journal of a file with this text on disk, its byte-order mark included; the
    /// text is empty where there is no file yet.
    pub fn new(disk: &Disk, case: &Path, text: &str) -> Self {
        let case = real_path(case);
        Self {
            disk: disk.clone(),
            path: journal_of(&case),
            case,
            text: text.to_owned(),
            sum: Digest::of(text.as_bytes()),
            file: None,
            work: 0,
            may_go_on: false,
            forced: Forced::All,
        }
    }

    /// Records a confirmed change by what it is called and the text after it; a text
    /// that is recorded already needs no record. It is the system's when this
    /// returns, and on disk after [`force`](Self::force); after an error the journal
    /// is as it was.
    ///
    /// One that `goes_on` with the change before is one change with it, called by
    /// the later name, or none any more where that is empty: a row of nudges.
    pub fn record(&mut self, called: &str, text: &str, goes_on: bool) -> Result<(), JournalError> {
        let goes_on = goes_on && self.may_go_on;
        self.may_go_on = goes_on;
        if text == self.text {
            return Ok(());
        }
        self.append(called, text, goes_on)?;
        self.may_go_on = true;
        Ok(())
    }

    fn append(&mut self, called: &str, text: &str, goes_on: bool) -> Result<(), JournalError> {
        let patch = Patch::between(&self.text, text);
        let (bytes, sum) = record::change(called, &patch, goes_on, &self.sum);
        let work = self.work + record::work_of(text);
        if work > WORK {
            return Err(JournalError::Full);
        }
        match self.file.as_mut() {
            Some((file, whole)) => {
                let length = bytes.len() as u64;
                if *whole + length > CAP {
                    return Err(JournalError::Full);
                }
                write_behind(file, *whole, &bytes)
                    .map_err(|cause| not_written(&self.path, cause))?;
                *whole += length;
                if self.forced == Forced::All {
                    self.forced = Forced::Before;
                }
            }
            None => self.begin(&bytes)?,
        }
        text.clone_into(&mut self.text);
        self.sum = sum;
        self.work = work;
        Ok(())
    }

    /// Forces to disk what was recorded; after an error it is not known to be there,
    /// and is tried again when this is called again.
    pub fn force(&mut self) -> Result<(), JournalError> {
        let Some((file, whole)) = &self.file else {
            return Ok(());
        };
        if self.forced == Forced::Before && file.sync_data().is_err() {
            self.forced = Forced::Unknown;
        }
        if self.forced == Forced::Unknown {
            let whole = *whole;
            let (file, synced) = self.written_anew(whole)?;
            self.file = Some((file, whole));
            synced.map_err(|cause| not_written(&self.path, cause))?;
        }
        self.forced = Forced::All;
        Ok(())
    }

    /// The journal in a new file, forced to disk and put in the place of the one
    /// that could not be.
    fn written_anew(&self, whole: u64) -> Result<(DiskFile, io::Result<()>), JournalError> {
        let mut bytes = Vec::new();
        let file = self
            .disk
            .open_own(&self.path, OpenOptions::new().read(true));
        let file = file.map_err(JournalError::NotWritten)?;
        let read = file.take(whole).read_to_end(&mut bytes);
        read.map_err(|cause| not_written(&self.path, cause))?;
        self.put(&bytes)
    }

    /// Nothing that is recorded is of use any more: the journal is gone for the
    /// system, and on disk after [`saved`](Self::saved).
    pub fn forget(&mut self) -> Result<(), JournalError> {
        self.begin_anew();
        unlink(&self.disk, &self.path).map_err(JournalError::NotDropped)
    }

    /// The text was saved, with or without the changes in the journal: they are
    /// dropped, and later ones build on it.
    pub fn saved(&mut self, text: &str) -> Result<(), JournalError> {
        self.begin_anew();
        text.clone_into(&mut self.text);
        self.sum = Digest::of(text.as_bytes());
        remove(&self.disk, &self.path).map_err(JournalError::NotDropped)
    }

    /// Starts a new journal on disk with the next change.
    fn begin_anew(&mut self) {
        (self.file, self.forced) = (None, Forced::All);
        (self.work, self.may_go_on) = (0, false);
    }

    /// The text after all that is recorded.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Writes a new journal with its first change to disk, whole or not at all.
    fn begin(&mut self, change: &[u8]) -> Result<(), JournalError> {
        let mut bytes = record::beginning(&self.text);
        bytes.extend(change);
        let length = bytes.len() as u64;
        if length > CAP {
            return Err(JournalError::Full);
        }
        let (file, synced) = self.put(&bytes)?;
        self.file = Some((file, length));
        if synced.is_err() {
            self.forced = Forced::Unknown;
        }
        Ok(())
    }

    /// Replaces the journal on disk by some bytes, whole or not at all.
    fn put(&self, bytes: &[u8]) -> Result<(DiskFile, io::Result<()>), JournalError> {
        // As private as the file itself.
        let model = metadata(&self.case).map_err(JournalError::NotWritten)?;
        let file = replace(&self.disk, &self.path, bytes, model.as_ref(), || Ok(()));
        file.map_err(JournalError::NotWritten)
    }
}

/// The path of a file's journal, with links followed.
pub(crate) fn journal_of(case: &Path) -> PathBuf {
    beside(case, ENDING)
}

/// Writes behind the complete records.
fn write_behind(file: &mut DiskFile, whole: u64, bytes: &[u8]) -> io::Result<()> {
    let written = file
        .seek(SeekFrom::Start(whole))
        .and_then(|_| file.write_all(bytes));
    if written.is_err() {
        // What is left of it is known by its checksum, should this fail too.
        let _ = file.set_len(whole);
    }
    written
}

fn not_written(path: &Path, cause: io::Error) -> JournalError {
    JournalError::NotWritten(StoreError::of(path, cause))
}

#[cfg(unix)]
#[cfg(test)]
mod tests;
