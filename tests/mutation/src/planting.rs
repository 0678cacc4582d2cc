//! Faults written into a copy, each behind a switch, and those that do not build
//! taken out again: the whole copy is built once, and one process has one fault.

use crate::fault::Fault;
use anyhow::{Context, Result, bail};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::ops::Range;
use std::path::Path;
use std::process::Command;

/// A fault with its number, from 1, which the switch knows it by.
#[derive(Clone, Debug)]
pub struct Planted {
    /// Its number.
    pub id: u32,
    /// The file, from the head of the tree.
    pub file: String,
    /// What it is.
    pub fault: Fault,
}

impl Planted {
    /// The folder of its crate.
    pub fn package(&self) -> &str {
        self.file.split("/src/").next().unwrap_or_default()
    }
}

/// Where faults of a file lie in the text that was written.
struct Written {
    bytes: Range<usize>,
    ids: Vec<u32>,
    /// Whether one of them takes something out.
    removes: bool,
}

/// A source text with each fault behind its switch, and where they lie in it.
fn with_switches(source: &str, faults: &[&Planted]) -> (String, Vec<Written>) {
    let mut groups: BTreeMap<(usize, usize), Vec<&Planted>> = BTreeMap::new();
    for one in faults {
        let bytes = &one.fault.bytes;
        groups
            .entry((bytes.start, bytes.end))
            .or_default()
            .push(one);
    }
    // What begins at one byte: heads of functions, then the longest, which holds the rest.
    let mut begin: Vec<_> = groups.into_iter().collect();
    begin.sort_by_key(|((start, end), group)| (*start, !group[0].fault.leaves, usize::MAX - end));
    let mut text = String::new();
    let mut written = Vec::new();
    let mut open: Vec<(usize, Written)> = Vec::new();
    let mut at = 0;
    for ((start, end), group) in begin {
        close(&mut text, source, &mut at, &mut open, start, &mut written);
        text.push_str(&source[at..start]);
        at = start;
        let from = text.len();
        let ids: Vec<u32> = group.iter().map(|one| one.id).collect();
        let group_removes = group.iter().any(|one| one.fault.text == "()");
        if group[0].fault.leaves {
            for one in group {
                let _ = write!(
                    text,
                    "if crate::planted::on({}) {{ {} }}",
                    one.id, one.fault.text
                );
            }
            written.push(Written {
                bytes: from..text.len(),
                ids,
                removes: false,
            });
        } else {
            text.push('(');
            for one in group {
                let _ = write!(
                    text,
                    "if crate::planted::on({}) {{ {} }} else ",
                    one.id, one.fault.text
                );
            }
            text.push('{');
            let removes = group_removes;
            let bytes = from..from;
            open.push((
                end,
                Written {
                    bytes,
                    ids,
                    removes,
                },
            ));
        }
    }
    close(
        &mut text,
        source,
        &mut at,
        &mut open,
        source.len(),
        &mut written,
    );
    text.push_str(&source[at..]);
    (text, written)
}

/// Closes what ends before a byte.
fn close(
    text: &mut String,
    source: &str,
    at: &mut usize,
    open: &mut Vec<(usize, Written)>,
    before: usize,
    written: &mut Vec<Written>,
) {
    while let Some((end, mut one)) = open.pop_if(|(end, _)| *end <= before) {
        text.push_str(&source[*at..end]);
        *at = end;
        text.push_str("})");
        one.bytes.end = text.len();
        written.push(one);
    }
}

/// Plants faults into a copy and gives those that build and those that do not.
pub fn plant(from: &Path, copy: &Path, all: Vec<Planted>) -> Result<(Vec<Planted>, Vec<Planted>)> {
    let (mut kept, mut dropped) = (all, Vec::new());
    let packages: BTreeSet<String> = kept.iter().map(|one| one.package().to_owned()).collect();
    for package in &packages {
        switch(from, copy, package)?;
    }
    let touched: BTreeSet<String> = kept.iter().map(|one| one.file.clone()).collect();
    loop {
        let mut places = BTreeMap::new();
        for file in &touched {
            let of_file: Vec<&Planted> = kept.iter().filter(|one| one.file == *file).collect();
            let source = std::fs::read_to_string(from.join(file))?;
            let (text, written) = with_switches(&source, &of_file);
            if std::fs::read_to_string(copy.join(file))? != text {
                std::fs::write(copy.join(file), text)?;
            }
            places.insert(file.as_str(), written);
        }
        let bad = unbuildable(copy, &packages, &places)?;
        if bad.is_empty() {
            return Ok((kept, dropped));
        }
        eprintln!("{} faults do not build", bad.len());
        let (out, rest): (Vec<_>, Vec<_>) = kept.into_iter().partition(|one| bad.contains(&one.id));
        kept = rest;
        dropped.extend(out);
    }
}

/// The module of the switch, in the root of a crate.
fn switch(from: &Path, copy: &Path, package: &str) -> Result<()> {
    let source = copy.join(package).join("src");
    std::fs::write(source.join("planted.rs"), include_str!("switch.rs"))?;
    let root = ["lib.rs", "main.rs"]
        .into_iter()
        .find(|root| source.join(root).exists());
    let root = root.with_context(|| format!("{package} has no root"))?;
    let text = std::fs::read_to_string(from.join(package).join("src").join(root))?;
    std::fs::write(source.join(root), text + "\nmod planted;\n")?;
    Ok(())
}

/// The faults that the compiler refuses; empty: the copy builds.
fn unbuildable(
    copy: &Path,
    packages: &BTreeSet<String>,
    places: &BTreeMap<&str, Vec<Written>>,
) -> Result<BTreeSet<u32>> {
    let mut cargo = Command::new("cargo");
    cargo.args([
        "check",
        "--offline",
        "--keep-going",
        "--message-format=json",
    ]);
    for package in packages {
        cargo
            .arg("--package")
            .arg(package.trim_start_matches("crates/"));
    }
    let given = cargo.current_dir(copy).output()?;
    let mut bad = BTreeSet::new();
    let mut others = String::new();
    for line in String::from_utf8_lossy(&given.stdout).lines() {
        let Ok(message) = serde_json::from_str::<Value>(line) else {
            continue;
        };
        if message["message"]["level"] != "error" {
            continue;
        }
        let spans = message["message"]["spans"]
            .as_array()
            .cloned()
            .unwrap_or_default();
        let mut blamed = BTreeSet::new();
        for span in &spans {
            blamed.extend(blame(span, places));
        }
        if blamed.is_empty() {
            others.push_str(message["message"]["rendered"].as_str().unwrap_or_default());
        }
        bad.extend(blamed);
    }
    if bad.is_empty() && !given.status.success() {
        bail!(
            "the copy does not build: {others}{}",
            String::from_utf8_lossy(&given.stderr)
        );
    }
    Ok(bad)
}

/// Bytes within which a statement taken out is blamed for an error behind it.
const NEAR: u64 = 500;

/// The faults that an error is about: the least place it lies in, else those in it.
fn blame(span: &Value, places: &BTreeMap<&str, Vec<Written>>) -> Vec<u32> {
    let (Some(file), Some(start), Some(end)) = (
        span["file_name"].as_str(),
        span["byte_start"].as_u64(),
        span["byte_end"].as_u64(),
    ) else {
        return Vec::new();
    };
    let Some(written) = places.get(file) else {
        return Vec::new();
    };
    let is_in = |one: &&Written| one.bytes.start as u64 <= start && end <= one.bytes.end as u64;
    if let Some(least) = written
        .iter()
        .filter(is_in)
        .min_by_key(|one| one.bytes.len())
    {
        return least.ids.clone();
    }
    let holds = |one: &&Written| start <= one.bytes.start as u64 && one.bytes.end as u64 <= end;
    let held: Vec<u32> = written
        .iter()
        .filter(holds)
        .flat_map(|one| one.ids.clone())
        .collect();
    if !held.is_empty() {
        return held;
    }
    // What was borrowed is borrowed still where what gives it back is taken out.
    let is_near = |one: &&Written| one.removes && (one.bytes.start as u64).abs_diff(end) < NEAR;
    written
        .iter()
        .filter(is_near)
        .flat_map(|one| one.ids.clone())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_fault_stands_behind_its_switch_and_inner_ones_within() {
        let source = "fn f(a: f64) { g(a + 1.5); }";
        let faults = crate::fault::faults(source).unwrap();
        let planted: Vec<Planted> = faults
            .into_iter()
            .zip(1..)
            .map(|(fault, id)| Planted {
                id,
                file: "f.rs".into(),
                fault,
            })
            .collect();
        let (text, written) = with_switches(source, &planted.iter().collect::<Vec<_>>());
        assert_eq!(
            text,
            "fn f(a: f64) {if crate::planted::on(1) { return ; } \
             (if crate::planted::on(2) { () } else {g(\
             (if crate::planted::on(3) { a - 1.5 } else {a + \
             (if crate::planted::on(4) { 1.5 * 1.25 } else {1.5})}))}); }"
        );
        assert_eq!(written.len(), planted.len());
    }
}
