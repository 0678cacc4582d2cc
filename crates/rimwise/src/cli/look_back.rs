//! `rimwise lookback`: what was foretold over many cases, against what was seen.

use super::args::{LookBackArguments, LookBackFormat};
use super::complain;
use super::inputs::{self, BadInput};
use super::report::look_back;
use anyhow::Result;
use files::read_case_folder;
use scene::stroke::PageGround;
use sizing::look_back::LookBack;
use std::io::Write;

/// Reads every case of a folder and writes what they say together. A case that cannot be
/// used is named and the others are counted; the call is then bad.
pub(super) fn run(asked: &LookBackArguments, out: &mut dyn Write) -> Result<()> {
    let rules = inputs::rules(asked.rules.as_deref());
    let rules = rules.map_err(|error| BadInput(error.to_string()))?;
    let read = read_case_folder(&asked.folder, rules.value(), usize::from(asked.threads));
    let folder = read.map_err(|error| BadInput(error.to_string()))?;
    for says in &folder.left_out {
        complain(&anyhow::anyhow!("{says}"));
    }
    let found = LookBack::of(&folder.records);
    match asked.format {
        LookBackFormat::Text => look_back::text(out, &found)?,
        LookBackFormat::Json => look_back::json(out, &found)?,
        LookBackFormat::Csv => look_back::csv(out, &found)?,
        LookBackFormat::Svg => {
            let drawing = scene::look_back::drawing(&found, paper::CAUTION_IN_A_LINE);
            out.write_all(scene::svg::svg(&drawing, PageGround::Light).as_bytes())?;
        }
    }
    if folder.left_out.is_empty() {
        return Ok(());
    }
    out.flush()?;
    let (bad, all) = (folder.left_out.len(), folder.cases());
    Err(BadInput(format!("{bad} of {all} cases left out")).into())
}
