//! Journals of cases that are in no file yet.

use crate::journal::{ENDING, journal_of};
use crate::store::make_private_folder;
use crate::{Disk, StoreError};
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{SystemTime, UNIX_EPOCH};

/// The folder of cases in no file: under each name a [`Journal`](crate::Journal)
/// grows from nothing, and never a file.
#[derive(Clone, Debug)]
pub struct Unfiled {
    disk: Disk,
    folder: PathBuf,
}

/// What a name in the folder begins with; the rest is when it was begun and by
/// which process.
const BEGINNING: &str = "case-";

/// The most names that are read; more are not of this program.
const MOST: usize = 10_000;

impl Unfiled {
    /// The cases of a folder, which need not be there yet.
    pub const fn new(disk: Disk, folder: PathBuf) -> Self {
        Self { disk, folder }
    }

    /// A name for another case; makes the folder, for this user alone.
    pub fn another(&self) -> Result<PathBuf, StoreError> {
        self.another_at(SystemTime::now())
    }

    /// A name later than every one there, whatever the clock says: it may have been
    /// set back, and two cases of one name would be one.
    fn another_at(&self, now: SystemTime) -> Result<PathBuf, StoreError> {
        static LAST: AtomicU64 = AtomicU64::new(0);
        make_private_folder(&self.disk, &self.folder)?;
        let since = now.duration_since(UNIX_EPOCH).unwrap_or_default();
        let since = u64::try_from(since.as_nanos()).unwrap_or(0);
        let newest = self.names().first().and_then(|name| begun(name));
        let least = newest.map_or(0, |newest| newest.saturating_add(1));
        let later = |last: u64| Some(last.saturating_add(1).max(least).max(since));
        let (Ok(last) | Err(last)) = LAST.fetch_update(Ordering::Relaxed, Ordering::Relaxed, later);
        let number = later(last).unwrap_or(since);
        let name = format!("{BEGINNING}{number:020}-{}.ron", std::process::id());
        Ok(self.folder.join(name))
    }

    /// The names under which something was kept, the newest first; a window that
    /// lives may hold some: see [`Presence`](crate::Presence).
    pub fn names(&self) -> Vec<PathBuf> {
        let entries = fs::read_dir(&self.folder).into_iter().flatten().flatten();
        let mut names: Vec<PathBuf> = entries
            .take(MOST)
            .filter_map(|entry| name_of(&entry.file_name()))
            .map(|name| self.folder.join(name))
            .collect();
        names.sort();
        names.reverse();
        names
    }
}

/// When the case of a name was begun, in nanoseconds, by the clock of then.
fn begun(name: &Path) -> Option<u64> {
    let name = name.file_name()?.to_str()?.strip_prefix(BEGINNING)?;
    name.split_once('-')?.0.parse().ok()
}

/// The name whose journal this is.
fn name_of(journal: &OsStr) -> Option<String> {
    let name = journal.to_str()?.strip_prefix('.')?;
    let name = name.strip_suffix(ENDING)?.strip_suffix('.')?;
    let is_journal = journal_of(Path::new(name)).as_os_str() == journal;
    (is_journal && name.starts_with(BEGINNING)).then(|| name.to_owned())
}

#[cfg(unix)]
#[cfg(test)]
mod tests {
    use super::*;
    use crate::scratch::Scratch;
    use crate::{Journal, Recovery};
    use std::os::unix::fs::PermissionsExt;

    #[test]
    fn what_was_kept_is_found_again_the_newest_first() {
        let scratch = Scratch::new("unfiled");
        let unfiled = Unfiled::new(Disk::default(), scratch.path("a/b"));
        assert!(unfiled.names().is_empty());
        let (first, second) = (unfiled.another().unwrap(), unfiled.another().unwrap());
        assert_ne!(first, second);
        for (name, text) in [(&first, "one"), (&second, "two")] {
            Journal::new(&Disk::default(), name, "")
                .record("said", text, false)
                .unwrap();
        }
        fs::write(scratch.path("a/b/.other.rimwise-journal"), "").unwrap();
        fs::write(scratch.path("a/b/case-1.ron"), "").unwrap();
        assert_eq!(unfiled.names(), [second.clone(), first]);
        let found = Recovery::find(&Disk::default(), &second, None)
            .unwrap()
            .unwrap();
        assert_eq!(found.text, "two");
        let mode = fs::metadata(scratch.path("a/b"))
            .unwrap()
            .permissions()
            .mode();
        assert_eq!(mode & 0o777, 0o700);
    }

    #[test]
    fn a_clock_that_jumps_gives_no_name_twice_and_the_newest_stays_first() {
        let scratch = Scratch::new("unfiled-clock");
        let unfiled = Unfiled::new(Disk::default(), scratch.path("a"));
        let now = SystemTime::now();
        let day = std::time::Duration::from_hours(24);
        let clocks = [
            now,
            now + 40_000 * day,
            now - 365 * day,
            UNIX_EPOCH,
            UNIX_EPOCH - day,
            UNIX_EPOCH - day,
            now,
        ];
        let mut given = Vec::new();
        for clock in clocks {
            let name = unfiled.another_at(clock).unwrap();
            assert!(!given.contains(&name), "{} twice", name.display());
            Journal::new(&Disk::default(), &name, "")
                .record("said", "one", false)
                .unwrap();
            given.push(name);
        }
        given.reverse();
        assert_eq!(unfiled.names(), given);
    }

    /// Two that are begun before anything is kept of the first.
    #[test]
    fn a_clock_that_stands_gives_two_names() {
        let scratch = Scratch::new("unfiled-standing");
        let unfiled = Unfiled::new(Disk::default(), scratch.path("a"));
        let names = [(); 2].map(|()| unfiled.another_at(UNIX_EPOCH).unwrap());
        assert_ne!(names[0], names[1]);
    }
}
