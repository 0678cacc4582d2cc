//! `rimwise lookback`: what was foretold over many cases, against what was seen.

use super::args::{LookBackArguments, LookBackFormat};
use super::complain;
use super::inputs::{self, BadInput};
use super::report::look_back;
use anyhow::Result;
use files::{FileError, read_case, visible};
use scene::stroke::PageGround;
use sizing::HouseRules;
use sizing::look_back::{CaseRecord, LookBack};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

/// Reads every case of a folder and writes what they say together. A case that cannot be
/// used is named and the others are counted; the call is then bad.
pub(super) fn run(asked: &LookBackArguments, out: &mut dyn Write) -> Result<()> {
    let rules = inputs::rules(asked.rules.as_deref());
    let rules = rules.map_err(|error| BadInput(error.to_string()))?;
    let paths = cases(&asked.folder)?;
    let (records, bad) = records(&paths, rules.value(), usize::from(asked.threads));
    for says in &bad {
        complain(&anyhow::anyhow!("{says}"));
    }
    let found = LookBack::of(&records);
    match asked.format {
        LookBackFormat::Text => look_back::text(out, &found)?,
        LookBackFormat::Json => look_back::json(out, &found)?,
        LookBackFormat::Csv => look_back::csv(out, &found)?,
        LookBackFormat::Svg => {
            let drawing = scene::look_back::drawing(&found, paper::CAUTION_IN_A_LINE);
            out.write_all(scene::svg::svg(&drawing, PageGround::Light).as_bytes())?;
        }
    }
    if bad.is_empty() {
        return Ok(());
    }
    out.flush()?;
    let (bad, all) = (bad.len(), paths.len());
    Err(BadInput(format!("{bad} of {all} cases left out")).into())
}

/// The case files of a folder, in the order of their names.
fn cases(folder: &Path) -> Result<Vec<PathBuf>> {
    let cannot = |error: std::io::Error| {
        BadInput(format!(
            "{}: {error}; name a folder of case files",
            visible(&folder.display().to_string())
        ))
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
        let folder = visible(&folder.display().to_string()).into_owned();
        return Err(BadInput(format!("{folder}: no case file (*.ron) in it")).into());
    }
    Ok(paths)
}

/// What one file gave: its record with the case's own name, or what is wrong with it.
type Read = Result<(CaseRecord, Option<String>), String>;

/// The records of all cases that can be used, in their order, and what is wrong with each
/// of the others. One case is held whole at a time on each thread.
fn records(
    paths: &[PathBuf],
    rules: &HouseRules,
    threads: usize,
) -> (Vec<CaseRecord>, Vec<String>) {
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
    let (mut records, mut bad) = (Vec::new(), Vec::new());
    let mut names: BTreeMap<String, usize> = BTreeMap::new();
    for (index, read) in read {
        match read {
            Ok((record, name)) => {
                let first = name.as_ref().and_then(|name| names.get(name));
                if let Some(&first) = first {
                    bad.push(format!(
                        "{}: the case of {} again, by its case_id: left out",
                        shown(&paths[index]),
                        shown(&paths[first])
                    ));
                } else {
                    names.extend(name.map(|name| (name, index)));
                    records.push(record);
                }
            }
            Err(says) => bad.push(says),
        }
    }
    (records, bad)
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
