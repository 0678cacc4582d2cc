use crate::text::visible;
use crate::{FileError, read_case};
use sizing::HouseRules;
use sizing::look_back::CaseRecord;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

/// What the cases of a folder give to a look-back.
#[derive(Debug)]
pub struct CaseFolder {
    /// The records of the cases that can be used, in the order of their files' names.
    pub records: Vec<CaseRecord>,
    /// What is wrong with each of the others, safe to show.
    pub left_out: Vec<String>,
}

impl CaseFolder {
    /// How many case files there are, used or not.
    pub const fn cases(&self) -> usize {
        self.records.len() + self.left_out.len()
    }
}

/// Why a folder of cases was not read.
#[derive(Debug, thiserror::Error)]
pub enum FolderError {
    /// The system could not list the folder.
    #[error("{folder}: {cause}; name a folder of case files")]
    Unread {
        /// The folder, safe to show.
        folder: String,
        /// The error of the system.
        cause: io::Error,
    },
    /// The folder holds no case file.
    #[error("{0}: no case file (*.ron) in it")]
    Empty(String),
}

/// Reads every case of a folder, none below it, on so many threads; `rules` say by which
/// law something is seen. A case that cannot be used, or that stands there twice by its
/// `case_id`, is left out and named. One case is held whole at a time on each thread.
pub fn read_case_folder(
    folder: &Path,
    rules: &HouseRules,
    threads: usize,
) -> Result<CaseFolder, FolderError> {
    let paths = cases(folder)?;
    let next = AtomicUsize::new(0);
    let worker = || {
        let mut mine = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(path) = paths.get(index) else {
                return mine;
            };
            mine.push((index, read(path, rules)));
        }
    };
    let mut read: Vec<(usize, Read)> = std::thread::scope(|scope| {
        let others: Vec<_> = (1..threads.min(paths.len()))
            .map(|_| scope.spawn(worker))
            .collect();
        let mut all = worker();
        for other in others {
            let part = other.join();
            all.extend(part.unwrap_or_else(|panic| std::panic::resume_unwind(panic)));
        }
        all
    });
    read.sort_by_key(|(index, _)| *index);
    Ok(without_doubles(&paths, read))
}

/// What one file gave: its record with the case's own name, or what is wrong with it.
type Read = Result<(CaseRecord, Option<String>), String>;

fn without_doubles(paths: &[PathBuf], read: Vec<(usize, Read)>) -> CaseFolder {
    let (mut records, mut left_out) = (Vec::new(), Vec::new());
    let mut names: BTreeMap<String, usize> = BTreeMap::new();
    for (index, read) in read {
        match read {
            Ok((record, name)) => {
                let first = name.as_ref().and_then(|name| names.get(name));
                if let Some(&first) = first {
                    left_out.push(format!(
                        "{}: the case of {} again, by its case_id: left out",
                        shown(&paths[index]),
                        shown(&paths[first])
                    ));
                } else {
                    names.extend(name.map(|name| (name, index)));
                    records.push(record);
                }
            }
            Err(says) => left_out.push(says),
        }
    }
    CaseFolder { records, left_out }
}

/// The case files of a folder, in the order of their names.
fn cases(folder: &Path) -> Result<Vec<PathBuf>, FolderError> {
    let cannot = |cause: io::Error| FolderError::Unread {
        folder: shown(folder),
        cause,
    };
    let mut paths = Vec::new();
    for entry in std::fs::read_dir(folder).map_err(cannot)? {
        let path = entry.map_err(cannot)?.path();
        if path.extension().is_some_and(|ending| ending == "ron") {
            paths.push(path);
        }
    }
    paths.sort();
    if paths.is_empty() {
        return Err(FolderError::Empty(shown(folder)));
    }
    Ok(paths)
}

fn shown(path: &Path) -> String {
    visible(&path.display().to_string()).into_owned()
}

fn read(path: &Path, rules: &HouseRules) -> Read {
    match read_case(path) {
        Ok(file) => {
            let case = file.value();
            let stem = path.file_stem().unwrap_or_default().to_string_lossy();
            let record = CaseRecord::of(case, &stem, rules);
            Ok((record, case.procedure.case_id.clone()))
        }
        Err(FileError::Faulty(faults)) => {
            let mut says = format!("{}: left out", shown(path));
            for fault in faults.iter().take(MOST_FAULTS) {
                // Writing to a string does not fail.
                let _ = write!(says, "\n{fault}");
            }
            if faults.len() > MOST_FAULTS {
                let _ = write!(says, "\n… and {} more", faults.len() - MOST_FAULTS);
            }
            Err(says)
        }
        Err(error) => Err(format!("{error}: left out")),
    }
}

/// Faults told of one file among many.
const MOST_FAULTS: usize = 3;
