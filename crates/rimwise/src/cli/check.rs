//! `rimwise check`: whether files can be used, and every fault if not.

use super::args::CheckArguments;
use super::inputs::{bad_files, keep, rules};
use anyhow::Result;
use files::{
    CATALOGUE_CAP, FileError, FileKind, Source, parse_case, parse_catalogue, parse_house_rules,
    parse_limits, visible,
};
use sizing::HouseRules;
use std::io::Write;
use std::path::Path;

/// Checks each file by what it says it is; a case against the house rules as well.
pub(super) fn run(asked: &CheckArguments, out: &mut dyn Write) -> Result<()> {
    let mut faults = Vec::new();
    let Some(rules) = keep(rules(asked.rules.as_deref()), &mut faults)? else {
        return Err(bad_files(&faults));
    };
    for path in &asked.files {
        if let Some(kind) = keep(check(path, rules.value()), &mut faults)? {
            writeln!(out, "{}: {kind}", visible(&path.display().to_string()))?;
        }
    }
    if faults.is_empty() {
        Ok(())
    } else {
        Err(bad_files(&faults))
    }
}

/// What a file is, in a few words, with its size in the words of its kind.
fn check(path: &Path, rules: &HouseRules) -> Result<String, FileError> {
    let source = Source::read(path, CATALOGUE_CAP)?;
    let (name, text) = (source.name(), source.text());
    Ok(match FileKind::of(text) {
        FileKind::Case => {
            let file = parse_case(name, text)?;
            let faults = file.faults_under(rules);
            if !faults.is_empty() {
                return Err(FileError::Faulty(faults));
            }
            let case = file.value();
            format!("a sound case, {} readings", case.readings.len())
        }
        FileKind::Catalogue => {
            let file = parse_catalogue(name, text)?;
            let catalogue = file.value();
            let sizes: usize = catalogue.shapes.iter().map(|shape| shape.sizes.len()).sum();
            format!(
                "a sound catalogue, {} shapes in {sizes} sizes",
                catalogue.shapes.len()
            )
        }
        FileKind::HouseRules => {
            let file = parse_house_rules(name, text)?;
            let rules = file.value();
            let bounds = if rules.wide_bounds.are_shipped {
                "; wide bounds as shipped, for the file has none"
            } else {
                ""
            };
            format!(
                "sound house rules, {} rows of limits{bounds}",
                rules.limits.len()
            )
        }
        FileKind::PublishedLimits => {
            let file = parse_limits(name, text)?;
            let limits = file.value();
            format!(
                "sound published limits, {} rows for children, {} for adults",
                limits.children.len(),
                limits.adults.len()
            )
        }
    })
}
