use super::{Disk, Fault, Operation};
use std::fs::{File, Metadata, TryLockError};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

/// A file on a disk.
#[derive(Debug)]
pub(crate) struct DiskFile {
    pub(super) disk: Disk,
    pub(super) path: PathBuf,
    pub(super) file: File,
}

impl DiskFile {
    /// The same file with another path.
    pub(crate) fn named(mut self, path: &Path) -> Self {
        path.clone_into(&mut self.path);
        self
    }

    /// The metadata of the file.
    pub(crate) fn metadata(&self) -> io::Result<Metadata> {
        self.file.metadata()
    }

    /// Sets the length of the file.
    pub(crate) fn set_len(&self, length: u64) -> io::Result<()> {
        let cut = || self.file.set_len(length);
        self.disk.run(Operation::Cut, &self.path, cut)
    }

    /// Forces the bytes and the length of the file to disk.
    pub(crate) fn sync_data(&self) -> io::Result<()> {
        let sync = || self.file.sync_data();
        self.disk.run(Operation::Sync, &self.path, sync)
    }

    /// Forces the file and its metadata to disk.
    pub(crate) fn sync_all(&self) -> io::Result<()> {
        let sync = || self.file.sync_all();
        self.disk.run(Operation::Sync, &self.path, sync)
    }

    /// Locks the file for as long as it is open, unless another process holds the lock.
    pub(crate) fn try_lock(&self) -> Result<(), TryLockError> {
        let asked = self.disk.run(Operation::Lock, &self.path, || Ok(()));
        asked.map_err(TryLockError::Error)?;
        self.file.try_lock()
    }
}

impl Read for DiskFile {
    fn read(&mut self, bytes: &mut [u8]) -> io::Result<usize> {
        match self.disk.fault(Operation::Read, &self.path) {
            None | Some(Fault::Short) => self.file.read(bytes),
            Some(fault) => Err(fault.error()),
        }
    }
}

impl Write for DiskFile {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match self.disk.fault(Operation::Write, &self.path) {
            None => self.file.write(bytes),
            Some(Fault::Short) => self.file.write(&bytes[..bytes.len().div_ceil(2)]),
            Some(fault) => Err(fault.error()),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        self.file.flush()
    }
}

impl Seek for DiskFile {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        self.file.seek(to)
    }
}
