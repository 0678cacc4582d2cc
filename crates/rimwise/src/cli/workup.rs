//! `rimwise workup`: what bears on closing the defect at all.

use super::args::{PageFormat, WorkupArguments};
use super::inputs::{bad_files, case, keep, limits, rules, sha256, work_up};
use super::report::{workup_json, workup_table};
use anyhow::Result;
use paper::Provenance;
use std::io::Write;
use std::sync::Arc;

/// Works a case up and writes the page.
pub(super) fn run(asked: &WorkupArguments, out: &mut dyn Write) -> Result<()> {
    let mut faults = Vec::new();
    let rules = keep(rules(asked.rules.as_deref()), &mut faults)?;
    let limits = keep(limits(asked.guidance.as_deref()), &mut faults)?;
    let case = keep(case(&asked.case), &mut faults)?;
    if let (Some(case), Some(rules)) = (&case, &rules) {
        faults.extend(case.faults_under(rules.value()));
    }
    let (Some(case), Some(rules), Some(limits)) = (case, rules, limits) else {
        return Err(bad_files(&faults));
    };
    if !faults.is_empty() {
        return Err(bad_files(&faults));
    }
    let from = Provenance {
        inputs_sha256: sha256([case.source(), rules.source(), limits.source()].into_iter()),
        seed: asked.seed,
        draws: asked.draws,
    };
    let (case, rules) = (Arc::new(case.into_value()), Arc::new(rules.into_value()));
    let setting = files::setting(case, rules, Some(limits.value()));
    let page = work_up(&setting, limits.value(), asked.draws, asked.seed)?;
    match asked.format {
        PageFormat::Table => workup_table::write(out, &page, &setting, &from),
        PageFormat::Json => workup_json::write(out, &page, &setting, &from),
    }
}
