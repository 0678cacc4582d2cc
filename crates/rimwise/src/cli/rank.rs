//! `rimwise rank`: the list as a table, JSON or CSV.

mod many;

use super::args::{Format, RankArguments};
use super::inputs::Inputs;
use super::report::{csv, json, table, trials};
use anyhow::Result;
use std::io::Write;

/// Ranks a case, or many, and writes the list.
pub(super) fn run(asked: &RankArguments, out: &mut dyn Write) -> Result<()> {
    if !asked.more.is_empty() {
        return many::run(asked, out);
    }
    let ready = Inputs::read(&asked.common)?.ready(&asked.common)?;
    let (ranking, provenance) = (ready.rank()?, &ready.provenance);
    match asked.format {
        Format::Table => {
            let banner = ready.work_up(&ranking)?.banner;
            let mut otherwise = ready.otherwise(&ranking)?;
            if let Some(weighing) = &ready.weighing {
                otherwise.push(("Trials: ", trials::taken_in(weighing)));
            }
            table::write(out, &ranking, &banner, &otherwise, provenance, asked.top)
        }
        Format::Json => {
            let trials = ready.weighing.as_ref().map(json::Weighed::of);
            json::write(out, &ranking, trials.as_ref(), provenance)
        }
        Format::Csv => csv::write(out, &ranking),
    }
}
