//! `rimwise rank`: the list as a table, JSON or CSV.

use super::args::{Format, RankArguments};
use super::inputs::Inputs;
use super::report::{csv, json, table};
use anyhow::Result;
use std::io::Write;

/// Ranks a case and writes the list.
pub(super) fn run(asked: &RankArguments, out: &mut dyn Write) -> Result<()> {
    let (ranking, provenance) = Inputs::read(&asked.common)?.rank(&asked.common)?;
    match asked.format {
        Format::Table => table::write(out, &ranking, &provenance, asked.top),
        Format::Json => json::write(out, &ranking, &provenance),
        Format::Csv => csv::write(out, &ranking),
    }
}
