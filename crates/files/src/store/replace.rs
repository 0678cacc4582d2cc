use super::{Disk, DiskFile, StoreError};
use std::ffi::OsString;
use std::fs::{self, Metadata};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

/// A hidden file of the program's own beside a file.
pub(crate) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = OsString::from(".");
    name.push(path.file_name().unwrap_or_default());
    name.push(".");
    name.push(ending);
    path.with_file_name(name)
}

/// The most symbolic links that are followed one after the other, as in Linux.
const MOST_LINKS: usize = 40;

/// The file that symbolic links lead to, whether it exists or not.
pub(crate) fn real_path(path: &Path) -> PathBuf {
    let mut path = path.to_owned();
    for _ in 0..MOST_LINKS {
        let Ok(target) = fs::read_link(&path) else {
            break;
        };
        // A relative link starts at its own folder; an absolute one replaces it.
        path = path.parent().unwrap_or(Path::new("")).join(target);
    }
    path
}

/// Puts bytes in place of a file's, or into a new one: all or none. The mode is
/// that of the model; what is `allowed` is asked when only the rename is left.
/// Gives the file, open for writing behind them, and whether its name is forced to
/// disk: after an error there a loss of power may bring back what was before.
pub(crate) fn replace(
    disk: &Disk,
    path: &Path,
    bytes: &[u8],
    model: Option<&Metadata>,
    allowed: impl FnOnce() -> Result<(), StoreError>,
) -> Result<(DiskFile, io::Result<()>), StoreError> {
    let error = |cause| StoreError::of(path, cause);
    sweep(path, STALE);
    let (mut file, draft) = Draft::new(disk, path).map_err(error)?;
    // The mode first: what is private is so before it is written.
    if let Some(model) = model {
        disk.protect(&draft.path, model).map_err(error)?;
    }
    file.write_all(bytes).map_err(error)?;
    file.sync_all().map_err(error)?;
    allowed()?;
    disk.rename(&draft.path, path).map_err(error)?;
    let synced = disk.sync_folder(folder_of(path));
    // It is known by its own name from here on.
    Ok((file.named(path), synced))
}

/// Removes a file of the program's own, if it exists, and forces that to disk.
pub(crate) fn remove(disk: &Disk, path: &Path) -> Result<(), StoreError> {
    unlink(disk, path)?;
    let synced = disk.sync_folder(folder_of(path));
    synced.map_err(|cause| StoreError::of(path, cause))
}

/// Removes a file of the program's own, if it is there, without forcing that to
/// disk.
pub(crate) fn unlink(disk: &Disk, path: &Path) -> Result<(), StoreError> {
    match disk.remove(path) {
        Err(cause) if cause.kind() != ErrorKind::NotFound => Err(StoreError::of(path, cause)),
        _ => Ok(()),
    }
}

/// Creates a folder and those above it, for this user alone, unless it exists.
pub(crate) fn make_private_folder(disk: &Disk, folder: &Path) -> Result<(), StoreError> {
    let made = disk.make_private_folder(folder);
    made.map_err(|cause| StoreError::of(folder, cause))
}

/// A draft of a file, removed unless it is renamed into its place.
struct Draft {
    disk: Disk,
    path: PathBuf,
}

const DRAFT: &str = "rimwise-draft-";

impl Draft {
    fn new(disk: &Disk, path: &Path) -> io::Result<(DiskFile, Self)> {
        static NUMBER: AtomicU64 = AtomicU64::new(0);
        loop {
            let number = NUMBER.fetch_add(1, Ordering::Relaxed);
            let path = beside(path, &format!("{DRAFT}{}-{number}", std::process::id()));
            match disk.create(&path) {
                Ok(file) => {
                    let disk = disk.clone();
                    return Ok((file, Self { disk, path }));
                }
                // Left behind by another process that had this number.
                Err(cause) if cause.kind() == ErrorKind::AlreadyExists => {}
                Err(cause) => return Err(cause),
            }
        }
    }
}

impl Drop for Draft {
    fn drop(&mut self) {
        // After the rename there is nothing of this name.
        let _ = self.disk.remove(&self.path);
    }
}

/// The age of a draft that nothing can still be writing: no save lasts nearly as long.
const STALE: Duration = Duration::from_hours(1);

/// Removes drafts of a file that are older than an age: left behind by a process
/// that died.
pub(crate) fn sweep(path: &Path, age: Duration) {
    let start = beside(path, DRAFT);
    let Some(start) = start.file_name().and_then(|name| name.to_str()) else {
        return;
    };
    for entry in fs::read_dir(folder_of(path))
        .into_iter()
        .flatten()
        .flatten()
    {
        let is_draft = entry
            .file_name()
            .to_str()
            .is_some_and(|name| name.starts_with(start));
        let is_stale = || {
            let modified = entry.metadata().and_then(|metadata| metadata.modified());
            modified.is_ok_and(|at| at.elapsed().is_ok_and(|since| since >= age))
        };
        if is_draft && is_stale() {
            let _ = fs::remove_file(entry.path());
        }
    }
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    }
}
