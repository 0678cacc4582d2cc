//! The disk, as a type of its own so that tests can make any operation fail.

mod file;

pub(crate) use file::DiskFile;

use super::StoreError;
use super::open::{is_own, refuse_other, without_following, without_waiting};
use std::fmt;
use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, ErrorKind};
use std::path::Path;
use std::sync::Arc;

/// The disk: the system's, or one on which a test says what fails.
///
/// Everything that the store writes goes through one, so that every operation of it
/// can be made to fail and be counted.
#[derive(Clone, Default)]
pub struct Disk {
    judge: Option<Arc<Judge>>,
}

/// Decides how an operation on a path fails; `None` lets it be done.
type Judge = dyn Fn(Operation, &Path) -> Option<Fault> + Send + Sync;

/// An operation on a disk.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Operation {
    /// A file is opened to be read, or to be written where it stands.
    Open,
    /// A file is made.
    Create,
    /// Bytes are read.
    Read,
    /// Bytes are written.
    Write,
    /// A file is given a length.
    Cut,
    /// A file is forced to disk.
    Sync,
    /// A file is given a mode.
    Protect,
    /// A file is put in the place of another.
    Rename,
    /// A file is removed.
    Remove,
    /// The names of a folder are forced to disk.
    SyncFolder,
    /// A folder is made.
    MakeFolder,
    /// A file is locked.
    Lock,
}

impl Operation {
    /// Every operation.
    pub const ALL: [Self; 12] = [
        Self::Open,
        Self::Create,
        Self::Read,
        Self::Write,
        Self::Cut,
        Self::Sync,
        Self::Protect,
        Self::Rename,
        Self::Remove,
        Self::SyncFolder,
        Self::MakeFolder,
        Self::Lock,
    ];
}

/// The way in which an operation fails.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fault {
    /// Fewer bytes are written than were given; an operation without bytes is done.
    Short,
    /// A signal interrupts it (EINTR), and it is tried again.
    Interrupted,
    /// No space is left (ENOSPC).
    NoRoom,
    /// The drive does not answer (EIO).
    Broken,
}

impl Fault {
    /// Every way to fail.
    pub const ALL: [Self; 4] = [Self::Short, Self::Interrupted, Self::NoRoom, Self::Broken];

    fn error(self) -> io::Error {
        match self {
            Self::Interrupted => ErrorKind::Interrupted.into(),
            Self::NoRoom => ErrorKind::StorageFull.into(),
            Self::Short | Self::Broken => io::Error::other("input/output error"),
        }
    }
}

impl fmt::Debug for Disk {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let kind = if self.judge.is_some() {
            "failing"
        } else {
            "real"
        };
        write!(formatter, "Disk({kind})")
    }
}

impl Disk {
    /// The system's disk, but for what fails: the judge is asked of every operation
    /// before it is done, and sees every one.
    pub fn failing(
        judge: impl Fn(Operation, &Path) -> Option<Fault> + Send + Sync + 'static,
    ) -> Self {
        Self {
            judge: Some(Arc::new(judge)),
        }
    }

    fn fault(&self, operation: Operation, path: &Path) -> Option<Fault> {
        self.judge.as_ref().and_then(|judge| judge(operation, path))
    }

    /// Does an operation unless it fails; an interrupted one is tried again, as the standard
    /// library does.
    fn run<T>(
        &self,
        operation: Operation,
        path: &Path,
        run: impl FnOnce() -> io::Result<T>,
    ) -> io::Result<T> {
        loop {
            match self.fault(operation, path) {
                Some(Fault::Interrupted) => {}
                Some(fault @ (Fault::NoRoom | Fault::Broken)) => return Err(fault.error()),
                Some(Fault::Short) | None => return run(),
            }
        }
    }

    /// Opens a plain file to read it. A folder, a pipe or a device is an error:
    /// nothing waits for who writes to it, however it got there.
    pub(crate) fn open_plain(&self, path: &Path) -> io::Result<DiskFile> {
        let file = self.run(Operation::Open, path, || {
            // Before opening, which a device may take for more than it is.
            refuse_other(&path.metadata()?)?;
            let mut options = OpenOptions::new();
            let file = without_waiting(options.read(true)).open(path)?;
            // And after it: by then something else may stand there.
            refuse_other(&file.metadata()?)?;
            Ok(file)
        })?;
        Ok(self.file(path, file))
    }

    /// Opens one of the program's own files, which stands beside a user's: never a
    /// link, and never a file that has another name as well.
    pub(crate) fn open_own(
        &self,
        path: &Path,
        options: &mut OpenOptions,
    ) -> Result<DiskFile, StoreError> {
        let error = |cause| StoreError::of(path, cause);
        let open = || without_following(options).open(path);
        let is_other = || path.symlink_metadata().is_ok_and(|it| !is_own(&it));
        let file = self.run(Operation::Open, path, open).map_err(|cause| {
            if is_other() {
                StoreError::not_own(path)
            } else {
                error(cause)
            }
        })?;
        if is_own(&file.metadata().map_err(error)?) {
            Ok(self.file(path, file))
        } else {
            Err(StoreError::not_own(path))
        }
    }

    /// Creates a file that does not exist yet.
    pub(super) fn create(&self, path: &Path) -> io::Result<DiskFile> {
        let create = || OpenOptions::new().write(true).create_new(true).open(path);
        let file = self.run(Operation::Create, path, create)?;
        Ok(self.file(path, file))
    }

    /// Gives a file the mode of another.
    pub(super) fn protect(&self, path: &Path, model: &Metadata) -> io::Result<()> {
        self.run(Operation::Protect, path, || {
            fs::set_permissions(path, model.permissions())
        })
    }

    /// Renames a file over another, whole or not at all.
    pub(super) fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.run(Operation::Rename, to, || fs::rename(from, to))
    }

    /// Removes a file.
    pub(crate) fn remove(&self, path: &Path) -> io::Result<()> {
        self.run(Operation::Remove, path, || fs::remove_file(path))
    }

    /// Forces the entries of a folder to disk, where its file system can.
    pub(super) fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        let sync = || File::open(folder).and_then(|folder| folder.sync_all());
        match self.run(Operation::SyncFolder, folder, sync) {
            Err(cause)
                if matches!(
                    cause.kind(),
                    ErrorKind::Unsupported | ErrorKind::InvalidInput | ErrorKind::PermissionDenied
                ) =>
            {
                Ok(())
            }
            synced => synced,
        }
    }

    /// Creates a folder and those above it, for this user alone, unless it exists.
    pub(super) fn make_private_folder(&self, folder: &Path) -> io::Result<()> {
        let mut builder = fs::DirBuilder::new();
        builder.recursive(true);
        #[cfg(unix)]
        std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
        self.run(Operation::MakeFolder, folder, || builder.create(folder))
    }

    pub(crate) fn file(&self, path: &Path, file: File) -> DiskFile {
        DiskFile {
            disk: self.clone(),
            path: path.to_owned(),
            file,
        }
    }
}
