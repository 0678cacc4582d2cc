//! `rimwise growth`: how a device stands once the child has grown.

use super::args::{GrowthArguments, TextFormat};
use super::inputs::{BadInput, Inputs, Ready};
use super::report::growth::{self, GrowthReport};
use anyhow::{Context, Result};
use sizing::growth::{Body, grow};
use sizing::{Candidate, Turn};
use std::io::Write;

/// Works out what growth moves of one size, and writes it.
pub(super) fn run(asked: &GrowthArguments, out: &mut dyn Write) -> Result<()> {
    let ready = Inputs::read(&asked.common)?.ready(&asked.common)?;
    let (candidate, why) = candidate(&ready, asked)?;
    let then = Body {
        weight: asked.weight,
        height: asked.height,
    };
    let growth = grow(&ready.setting, &candidate.size, candidate.turn, then)
        .map_err(|error| BadInput(error.to_string()))?;
    let page = GrowthReport {
        ready: &ready,
        candidate: &candidate,
        why,
        growth: &growth,
    };
    match asked.format {
        TextFormat::Text => growth::text(out, &page),
        TextFormat::Json => growth::json(out, &page),
    }
}

/// The size that is asked about, and why that one.
fn candidate(ready: &Ready, asked: &GrowthArguments) -> Result<(Candidate, &'static str)> {
    let procedure = &ready.setting.case().procedure;
    let released = procedure.released();
    let (name, why) = match (&asked.size, released) {
        (Some(name), _) => (name.clone(), "the size you named"),
        (None, Some(trial)) => (trial.size.clone(), "the device that was released"),
        (None, None) => {
            let ranking = ready.rank()?;
            let mut listed = ranking.candidates.into_iter();
            let first = listed.next().context("the catalogue is empty")?;
            return Ok((first, "the first of the list; nothing was released"));
        }
    };
    let turn = released
        .filter(|trial| trial.size == name)
        .and_then(|trial| trial.rotation_deg)
        .map_or(Turn::Best, |degrees| {
            Turn::ByHand(geometry::degrees(degrees))
        });
    let size = ready.find(&name)?;
    let candidate = Candidate::assess(&ready.setting, size, turn, None);
    Ok((candidate, why))
}
