//! `rimwise check`: whether files can be used, and every fault if not.

use super::args::CheckArguments;
use super::inputs::{BadInput, bad_files};
use anyhow::Result;
use files::visible;
use std::io::Write;

/// Checks each file by what it says it is.
pub(super) fn run(asked: &CheckArguments, out: &mut dyn Write) -> Result<()> {
    let mut faults = Vec::new();
    for path in &asked.files {
        let text = files::read_text(path).map_err(|error| BadInput(error.to_string()))?;
        let name = path.display().to_string();
        match files::check_file(&name, &text) {
            Ok(kind) => writeln!(out, "{}: a sound {kind}", visible(&name))?,
            Err(mut more) => faults.append(&mut more),
        }
    }
    if faults.is_empty() { Ok(()) } else { Err(bad_files(&faults)) }
}
