//! Detection of another window that has the same case open.

use crate::journal::journal_of;
use crate::store::{DiskFile, beside, metadata, real_path, sweep};
use crate::{Disk, StoreError};
use std::fmt::Write as _;
use std::fs::{OpenOptions, TryLockError};
use std::io::{Read, Seek, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// The presence of a window at a case, held while the case is open.
///
/// A hidden file beside the case is locked by the system for as long as the
/// process lives; a window that died holds nothing. On drives without locks, and
/// between machines that do not share them, nobody is told.
#[derive(Debug)]
pub struct Presence {
    disk: Disk,
    path: PathBuf,
    /// Locked while it is open.
    _file: DiskFile,
    says: String,
    left_behind: Option<Holder>,
}

/// The window that has a case open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Holder {
    /// The id of its process.
    pub process: u32,
    /// When it opened the case.
    pub since: SystemTime,
}

/// The outcome of entering a case.
#[derive(Debug)]
pub enum EntryOutcome {
    /// No other window has the case open.
    Alone(Presence),
    /// A living window has the case open; which, if that could be read.
    Held(Option<Holder>),
}

/// The ending of the file that is locked.
const ENDING: &str = "rimwise-open";

/// Tries to lock a file that another window may be taking away.
const TRIES: usize = 16;

/// More bytes than such a file ever has.
const CAP: u64 = 256;

impl Presence {
    /// Enters a case. An error means that nobody can tell whether another window
    /// has it open: on a folder that may not be written to, or without locks.
    pub fn enter(disk: &Disk, case: &Path) -> Result<EntryOutcome, StoreError> {
        let case = real_path(case);
        if metadata(&case)?.is_some_and(|it| !it.is_file()) {
            return Err(StoreError::not_a_file(&case));
        }
        let path = beside(&case, ENDING);
        let error = |cause| StoreError::of(&path, cause);
        for _ in 0..TRIES {
            let mut options = OpenOptions::new();
            options.read(true).write(true).create(true).truncate(false);
            let mut file = disk.open_own(&path, &mut options)?;
            // What is longer than any lock is something of the user's.
            if file.metadata().map_err(error)?.len() > CAP {
                return Err(StoreError::not_own(&path));
            }
            match file.try_lock() {
                Ok(()) => {}
                Err(TryLockError::WouldBlock) => {
                    return Ok(EntryOutcome::Held(Holder::read(&mut file)));
                }
                Err(TryLockError::Error(cause)) => return Err(error(cause)),
            }
            let left_behind = Holder::read(&mut file);
            let says = Holder::this().said();
            file.set_len(0)
                .and_then(|()| file.rewind())
                .and_then(|()| file.write_all(says.as_bytes()))
                .map_err(error)?;
            // The file may have been taken away between opening and locking it.
            if is_said(disk, &path, &says) {
                // What is being written, a window that died was writing.
                sweep(&case, Duration::ZERO);
                sweep(&journal_of(&case), Duration::ZERO);
                return Ok(EntryOutcome::Alone(Self {
                    disk: disk.clone(),
                    path,
                    _file: file,
                    says,
                    left_behind,
                }));
            }
        }
        Ok(EntryOutcome::Held(None))
    }

    /// The window that had the case open before and was not closed: it died.
    pub const fn left_behind(&self) -> Option<Holder> {
        self.left_behind
    }
}

/// Whether a lock file says just that.
fn is_said(disk: &Disk, path: &Path, says: &str) -> bool {
    let mut read = String::new();
    disk.open_own(path, OpenOptions::new().read(true))
        .is_ok_and(|file| file.take(CAP + 1).read_to_string(&mut read).is_ok() && read == says)
}

impl Drop for Presence {
    fn drop(&mut self) {
        // Someone may have taken the file away by hand, and another made one.
        if is_said(&self.disk, &self.path, &self.says) {
            let _ = self.disk.remove(&self.path);
        }
    }
}

impl Holder {
    fn this() -> Self {
        Self {
            process: std::process::id(),
            since: SystemTime::now(),
        }
    }

    fn said(self) -> String {
        let since = self.since.duration_since(UNIX_EPOCH).unwrap_or_default();
        let mut said = String::new();
        // Writing to a string does not fail.
        let _ = write!(
            said,
            "process {}\nsince {}\n",
            self.process,
            since.as_nanos()
        );
        said
    }

    fn read(file: &mut DiskFile) -> Option<Self> {
        let mut said = String::new();
        file.rewind().ok()?;
        Read::take(&mut *file, CAP).read_to_string(&mut said).ok()?;
        let (process, rest) = said.strip_prefix("process ")?.split_once('\n')?;
        let since = rest.strip_prefix("since ")?.strip_suffix('\n')?;
        Some(Self {
            process: process.parse().ok()?,
            since: UNIX_EPOCH.checked_add(Duration::from_nanos(since.parse().ok()?))?,
        })
    }
}

#[cfg(unix)]
#[cfg(test)]
mod tests {
    use super::*;
    use crate::scratch::Scratch;
    use std::fs;

    fn alone(case: &Path) -> Presence {
        match Presence::enter(&Disk::default(), case).unwrap() {
            EntryOutcome::Alone(presence) => presence,
            EntryOutcome::Held(holder) => panic!("held by {holder:?}"),
        }
    }

    #[test]
    fn a_second_window_is_told_who_holds_the_case() {
        let scratch = Scratch::new("presence-second");
        let case = scratch.path("case.ron");
        let first = alone(&case);
        assert_eq!(first.left_behind(), None);
        let EntryOutcome::Held(Some(holder)) = Presence::enter(&Disk::default(), &case).unwrap()
        else {
            panic!("not held");
        };
        assert_eq!(holder.process, std::process::id());
        assert!(holder.since.elapsed().unwrap() < Duration::from_mins(1));
        drop(first);
        assert_eq!(scratch.names(), [""; 0]);
        assert_eq!(alone(&case).left_behind(), None);
    }

    #[test]
    fn a_window_that_died_holds_nothing() {
        let scratch = Scratch::new("presence-dead");
        let case = scratch.path("case.ron");
        let lock = beside(&case, ENDING);
        for (left, process) in [
            ("process 77\nsince 5000000000\n", Some(77)),
            ("process 77\nsince ", None),
            ("process 4294967296\nsince 1\n", None),
            ("process 1\nsince 99999999999999999999999999\n", None),
            ("\u{1b}[2J", None),
            ("", None),
        ] {
            fs::write(&lock, left).unwrap();
            let presence = alone(&case);
            assert_eq!(presence.left_behind().map(|holder| holder.process), process);
        }
    }

    #[test]
    fn drafts_of_a_window_that_died_are_swept() {
        let scratch = Scratch::new("presence-drafts");
        let names = [
            ".case.ron.rimwise-draft-1-0",
            "..case.ron.rimwise-journal.rimwise-draft-1-1",
            ".other.ron.rimwise-draft-1-2",
        ];
        for name in names {
            fs::write(scratch.path(name), "half").unwrap();
        }
        drop(alone(&scratch.path("case.ron")));
        assert_eq!(scratch.names(), names[2..]);
    }

    #[test]
    fn a_link_and_its_file_are_one_case() {
        let scratch = Scratch::new("presence-link");
        let (case, link) = (scratch.path("case.ron"), scratch.path("link.ron"));
        std::os::unix::fs::symlink("case.ron", &link).unwrap();
        let _first = alone(&case);
        assert!(matches!(
            Presence::enter(&Disk::default(), &link),
            Ok(EntryOutcome::Held(_))
        ));
    }

    #[test]
    fn of_many_at_once_one_is_alone() {
        let scratch = Scratch::new("presence-many");
        let case = scratch.path("case.ron");
        for _ in 0..20 {
            let entered: Vec<EntryOutcome> = std::thread::scope(|scope| {
                let each: Vec<_> = (0..4)
                    .map(|_| scope.spawn(|| Presence::enter(&Disk::default(), &case).unwrap()))
                    .collect();
                each.into_iter().map(|one| one.join().unwrap()).collect()
            });
            let alone = entered
                .iter()
                .filter(|one| matches!(one, EntryOutcome::Alone(_)));
            assert_eq!(alone.count(), 1);
        }
    }
}
