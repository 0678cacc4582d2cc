//! `rimwise trials`: what was seen when sizes were opened, and what it changes.

use super::args::{TextFormat, TrialsArguments};
use super::inputs::Inputs;
use super::report::{trials, trials_json};
use crate::otherwise::CANCELLED;
use anyhow::{Context, Result};
use sizing::engine::{Engine, Fast};
use sizing::trial::what_next;
use sizing::{Draws, rank};
use std::io::Write;

/// Weighs the draws of a case by its trials and writes what follows.
pub(super) fn run(asked: &TrialsArguments, out: &mut dyn Write) -> Result<()> {
    let inputs = Inputs::read(&asked.common)?;
    let planned_on_now = inputs.planned_on();
    let ready = inputs.ready(&asked.common)?;
    let work = ready.work();
    let (setting, draws) = (&ready.as_measured, asked.common.draws);
    let drawn = match draws {
        0 => None,
        draws => Some(Fast.prepare(Draws::new(setting, draws, asked.common.seed)?)),
    };
    let before = rank(setting, &ready.catalogues, drawn.as_deref(), &work).context(CANCELLED)?;
    let ranking = ready.rank()?;
    let next = ready
        .counter
        .as_deref()
        .and_then(|counter| what_next(&ranking, counter.draws().weights()));
    let page = trials::TrialsReport {
        ready: &ready,
        before: &before,
        ranking: &ranking,
        next: next.as_ref(),
        planned_on_now: &planned_on_now,
    };
    match asked.format {
        TextFormat::Text => trials::write(out, &page, asked.top),
        TextFormat::Json => trials_json::write(out, &page),
    }
}
