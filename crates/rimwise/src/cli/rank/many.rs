//! Many cases in one call, side by side: each on one thread, written in the order in
//! which they were given.

use crate::cli::args::{Common, Format, RankArguments};
use crate::cli::complain;
use crate::cli::inputs::{Around, BadInput};
use crate::cli::report::{csv, json};
use anyhow::Result;
use std::collections::BTreeMap;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, channel};

/// Ranks every case of a call. A case that cannot be used is named and left out; the
/// call is then bad, once the others are done.
pub(super) fn run(asked: &RankArguments, out: &mut dyn Write) -> Result<()> {
    if asked.format == Format::Table {
        return Err(BadInput("many cases are written with --format csv or json".into()).into());
    }
    let around = Around::read(&asked.common.against)?;
    around.ensure_sound()?;
    let all = std::iter::once(&asked.common.case).chain(&asked.more);
    let cases: Vec<&Path> = all.map(PathBuf::as_path).collect();
    if asked.format == Format::Csv {
        csv::write_head_of_many(out)?;
    }
    let next = AtomicUsize::new(0);
    let bad = std::thread::scope(|scope| {
        let (sender, lists) = channel();
        for _ in 0..usize::from(asked.common.threads).min(cases.len()) {
            let (sender, next, cases, around) = (sender.clone(), &next, &cases, &around);
            scope.spawn(move || {
                loop {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    let Some(case) = cases.get(index) else { return };
                    let list = list(around, case, asked);
                    // Nobody listens where what is read was not wanted any more.
                    if sender.send((index, list)).is_err() {
                        return;
                    }
                }
            });
        }
        drop(sender);
        let written = write_in_order(lists, out);
        // Where writing failed no other case is begun.
        next.store(cases.len(), Ordering::Relaxed);
        written
    })?;
    if bad == 0 {
        return Ok(());
    }
    out.flush()?;
    let all = cases.len();
    Err(BadInput(format!("{bad} of {all} cases left out")).into())
}

/// Writes each list as soon as those before it are written, and says what is wrong with
/// a case that has none; how many those are.
fn write_in_order(lists: Receiver<(usize, Result<Vec<u8>>)>, out: &mut dyn Write) -> Result<usize> {
    let mut waiting = BTreeMap::new();
    let (mut written, mut bad) = (0, 0);
    for (index, list) in lists {
        waiting.insert(index, list);
        while let Some(list) = waiting.remove(&written) {
            match list {
                Ok(list) => out.write_all(&list)?,
                Err(error) if error.is::<BadInput>() => {
                    // It names the file, and where in it.
                    complain(&error);
                    bad += 1;
                }
                Err(error) => return Err(error),
            }
            written += 1;
        }
    }
    Ok(bad)
}

/// The list of one case as it is written.
fn list(around: &Around, case: &Path, asked: &RankArguments) -> Result<Vec<u8>> {
    let common = Common {
        case: case.to_owned(),
        threads: 1,
        ..asked.common.clone()
    };
    let ready = around.clone().with(case)?.ready(&common)?;
    let ranking = ready.rank()?;
    let name = case.display().to_string();
    let mut written = Vec::new();
    if asked.format == Format::Json {
        let trials = ready.weighing.as_ref().map(json::Weighed::of);
        json::write_line(
            &mut written,
            &name,
            &ranking,
            trials.as_ref(),
            &ready.provenance,
        )?;
    } else {
        csv::write_one_of_many(&mut written, &name, &ranking)?;
    }
    Ok(written)
}

#[cfg(test)]
mod tests;
