//! `rimwise rank`, and what `rimwise` alone prints without a terminal UI.

use super::args::{Format, RankArguments};
use super::inputs::{Inputs, demonstration as demonstration_case};
use super::report::{csv, json, table};
use anyhow::Result;
use std::io::Write;
use std::path::Path;

/// Ranks a case and writes the list.
pub(super) fn run(asked: &RankArguments, out: &mut dyn Write) -> Result<()> {
    let (ranking, provenance) = Inputs::read(&asked.common)?.rank(&asked.common)?;
    match asked.format {
        Format::Table => table::write(out, &ranking, &provenance, asked.top),
        Format::Json => json::write(out, &ranking, &provenance),
        Format::Csv => csv::write(out, &ranking),
    }
}

/// Ranks a case, or the demonstration, as text, and says how to ask for more.
pub(super) fn demonstration(case: Option<&Path>, out: &mut dyn Write) -> Result<()> {
    let case = case.map_or_else(demonstration_case, Path::to_owned);
    run(&RankArguments::of(case), out)?;
    writeln!(
        out,
        "\nMore: rimwise rank CASE, rimwise compare CASE SHAPE/SIZE…, rimwise --help"
    )?;
    Ok(())
}
