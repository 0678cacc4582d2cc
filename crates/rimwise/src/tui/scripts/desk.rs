//! A folder to work in, with a disk that fails where it is told to.

use super::play::Play;
use files::{Disk, Fault, Operation, shipped};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

/// A folder with a case in a file, gone when this is dropped.
pub(super) struct Desk(PathBuf);

impl Desk {
    pub(super) fn new(number: u64) -> Self {
        let folder = std::env::var_os("RIMWISE_DESK").map_or_else(
            || std::env::temp_dir().join(format!("rimwise-scripts-{}", std::process::id())),
            PathBuf::from,
        );
        let desk = Self(folder.join(format!("{number:03}")));
        let _ = fs::remove_dir_all(&desk.0);
        fs::create_dir_all(&desk.0).unwrap();
        let scenarios = shipped::SCENARIOS;
        let index = usize::try_from(number).unwrap() % scenarios.len();
        fs::write(desk.case(), scenarios[index].1).unwrap();
        desk
    }

    /// The folder of another process's, as it is.
    pub(super) fn at(folder: PathBuf) -> Self {
        Self(folder)
    }

    pub(super) fn folder(&self) -> &Path {
        &self.0
    }

    pub(super) fn path(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    /// Holds the files of another in place of its own, but for what says who is here.
    pub(super) fn take_files_of(&self, other: &Self) {
        let _ = fs::remove_dir_all(&self.0);
        fs::create_dir_all(&self.0).unwrap();
        for entry in fs::read_dir(&other.0).unwrap().flatten() {
            let name = entry.file_name().into_string().unwrap();
            if entry.path().is_file() && !name.ends_with("rimwise-open") {
                fs::copy(entry.path(), self.path(&name)).unwrap();
            }
        }
    }

    pub(super) fn case(&self) -> PathBuf {
        self.path("case.ron")
    }
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// Every file of a folder but what says who is here, by its name, or by none where
/// that holds the time.
pub(super) fn files(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut files = Vec::new();
    gather(folder, &mut files);
    files.sort();
    files
}

fn gather(folder: &Path, into: &mut Vec<(String, Vec<u8>)>) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let (path, name) = (entry.path(), entry.file_name().into_string().unwrap());
        if path.is_dir() {
            gather(&path, into);
        } else if !name.ends_with("rimwise-open") {
            let holds_time = name.contains("case-0") || name.contains("rimwise-draft");
            let name = if holds_time { String::new() } else { name };
            into.push((name, fs::read(&path).unwrap()));
        }
    }
}

/// How a program is started.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Start {
    /// With what came with it.
    Shipped,
    /// With a file.
    File,
    /// With a file beside which a journal was left.
    Crashed,
}

impl Start {
    pub(super) const fn of(number: u64) -> Self {
        match number % 8 {
            0 | 3 => Self::Shipped,
            5 => Self::Crashed,
            _ => Self::File,
        }
    }

    /// Leaves behind what a program before left.
    pub(super) fn lay(self, desk: &Desk) {
        if self == Self::Crashed {
            Play::new(Self::File, desk, None).press("enter 7 enter right down right");
        }
    }
}

/// A disk that fails once where it is told to, and always outside a folder: what is
/// typed as a path leads anywhere.
#[derive(Clone)]
pub(super) struct FailingDisk(Arc<Mutex<State>>);

#[derive(Default)]
struct State {
    /// After how many operations the next one fails, and how.
    armed: Option<(usize, Fault)>,
    hits_reading: bool,
    faults: BTreeMap<(Operation, Fault), usize>,
}

impl FailingDisk {
    pub(super) fn new() -> Self {
        Self(Arc::new(Mutex::new(State::default())))
    }

    /// The disk that keeps what it is given within a folder.
    pub(super) fn within(&self, folder: &Desk) -> Disk {
        let (state, folder) = (Arc::clone(&self.0), folder.0.clone());
        Disk::failing(move |operation, path| {
            if !path.starts_with(&folder) {
                return Some(Fault::Broken);
            }
            let mut state = state.lock().unwrap();
            let (rest, fault) = state.armed?;
            // Reading is most of what a disk is asked: a third of the faults may hit it.
            if operation == Operation::Read && !state.hits_reading {
                return None;
            }
            if rest > 0 {
                state.armed = Some((rest - 1, fault));
                return None;
            }
            state.armed = None;
            *state.faults.entry((operation, fault)).or_default() += 1;
            Some(fault)
        })
    }

    pub(super) fn arm(&self, after: usize, fault: Fault) {
        let mut state = self.0.lock().unwrap();
        state.armed = Some((after, fault));
        state.hits_reading = after.is_multiple_of(3);
    }

    pub(super) fn faults(&self) -> BTreeMap<(Operation, Fault), usize> {
        self.0.lock().unwrap().faults.clone()
    }
}
