//! The map as CSV: one line a cell.

use super::Mapped;
use crate::cli::report::csv::{excepted, figure};
use anyhow::Result;
use std::io::Write;

const HEADER: [&str; 8] = [
    "waist_mm",
    "overhang_mm",
    "length_mm",
    "chance",
    "chance_error",
    "stopped_by",
    "stopped_share",
    "exceptions",
];

/// Writes a map as CSV, waist after waist.
pub(crate) fn write(out: &mut dyn Write, mapped: &Mapped) -> Result<()> {
    let map = mapped.map;
    let mut table = csv::Writer::from_writer(out);
    table.write_record(HEADER)?;
    let exceptions = excepted(mapped.setting);
    for column in 0..map.waists.count {
        for row in 0..map.overhangs.count {
            let Some(cell) = map.cell(column, row) else {
                continue;
            };
            let stopped = map.stopped_by(cell);
            table.write_record([
                figure(map.waists.value(column)),
                figure(map.overhangs.value(row)),
                figure(map.form.length),
                figure(cell.chance.value),
                figure(cell.chance.error),
                stopped.map_or_else(String::new, |(stop, _)| {
                    format!("{} {}", stop.check, stop.of)
                }),
                stopped.map_or_else(String::new, |(_, share)| figure(share)),
                exceptions.clone(),
            ])?;
        }
    }
    table.flush()?;
    Ok(())
}
