//! `rimwise criteria`: what is looked at before a device is released, per size.

use super::args::{CriteriaArguments, TextFormat};
use super::inputs::{BadInput, Inputs};
use super::report::criteria::{self, CriteriaOfSizes};
use anyhow::Result;
use files::{CaseFile, Digest, Disk, Expect};
use sizing::trial::criteria_of;
use std::io::Write;
use std::path::Path;

/// Shows the criteria of sizes, and writes them into the case where that is asked.
pub(super) fn run(asked: &CriteriaArguments, out: &mut dyn Write) -> Result<()> {
    let common = asked.common();
    let inputs = Inputs::read(&common)?;
    let (file, planned_on) = (inputs.case_file().clone(), inputs.planned_on());
    let ready = inputs.ready(&common)?;
    let mut case = file.value().clone();
    let had = case.procedure.clone();
    for name in &asked.sizes {
        let (_, _, size) = ready.find(name)?;
        let rows = criteria_of(&ready.setting, name, size);
        case.procedure.write_criteria(rows, &planned_on);
    }
    let is_new = case.procedure.criteria.len() > had.criteria.len();
    if asked.write && is_new {
        save(&asked.case, &file, &case)?;
    }
    let written = CriteriaOfSizes {
        sizes: &asked.sizes,
        case: &case,
        had: &had,
        planned_on_now: &planned_on,
        is_saved: asked.write,
        inputs_sha256: &ready.provenance.inputs_sha256,
    };
    match asked.format {
        TextFormat::Text => criteria::text(out, &written),
        TextFormat::Json => criteria::json(out, &written),
    }
}

/// Writes the case into its file, unless someone else changed it meanwhile.
fn save(path: &Path, file: &CaseFile, case: &sizing::Case) -> Result<()> {
    if !path.exists() {
        let says = "--write: this case came with the program; save it under a name of your own \
                    first";
        return Err(BadInput(says.into()).into());
    }
    let text = file.with(case)?;
    let was = Digest::of(file.source().original().as_bytes());
    let text = text.source().original();
    files::save(&Disk::default(), path, &text, Expect::Same(was))?;
    Ok(())
}
