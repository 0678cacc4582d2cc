//! `rimwise fit-map`: which waists and discs would fit.

use super::args::{FitMapArguments, Format};
use super::inputs::{BadInput, Inputs, Ready};
use super::report::fit_map::{Mapped, csv, json, table};
use crate::otherwise::CANCELLED;
use anyhow::{Context, Result};
use sizing::engine::Counter;
use sizing::fit_map::{Axis, EvenShape, Refinement, best_length, marks, nearest_form};
use std::io::Write;

/// Maps a case and writes the map.
pub(super) fn run(asked: &FitMapArguments, out: &mut dyn Write) -> Result<()> {
    let common = asked.common();
    let ready = Inputs::read(&common)?.ready(&common)?;
    if let Some(not_rated) = ready.setting.not_rated() {
        let says = not_rated.sentences();
        return Err(BadInput(format!(
            "there is no map, because the case is not rated. {says}"
        ))
        .into());
    }
    let Some(counter) = ready.counter.as_deref() else {
        return Err(BadInput("--draws: a map needs draws, such as 1024".into()).into());
    };
    let form = form(asked, &ready, counter)?;
    let mut refinement = Refinement::new(
        &ready.setting,
        counter,
        form,
        Axis::of_waists(&ready.setting, usize::from(asked.columns)),
        Axis::of_overhangs(usize::from(asked.rows)),
    );
    let work = ready.work();
    let map = refinement.whole(&work).context(CANCELLED)?;
    let mapped = Mapped {
        would_fit: &refinement.would_fit(&work).context(CANCELLED)?,
        marks: &marks(&ready.catalogues, &map.form),
        map: &map,
        setting: &ready.setting,
        from: &ready.provenance,
    };
    match asked.format {
        Format::Table => table::write(out, &mapped),
        Format::Json => json::write(out, &mapped),
        Format::Csv => csv::write(out, &mapped),
    }
}

/// The form that is asked for.
fn form(asked: &FitMapArguments, ready: &Ready, counter: &dyn Counter) -> Result<EvenShape> {
    let mut form = match &asked.size {
        Some(name) => of_size(ready, name)?,
        None => nearest_form(&ready.setting, &ready.catalogues)
            .ok_or_else(|| BadInput("no size of the catalogue has two equal discs".into()))?,
    };
    if let Some(thickness) = asked.thickness {
        form.thickness = thickness;
    }
    if let Some(conformability) = asked.conformability {
        form.conformability = conformability;
    }
    if let Some(length) = asked.length {
        form.length = length;
    } else if asked.size.is_none() {
        let best = best_length(&ready.setting, &form, counter, &ready.work());
        form.length = best.context(CANCELLED)?.length;
    }
    Ok(form)
}

fn of_size(ready: &Ready, name: &str) -> Result<EvenShape> {
    let (_, shape, size) = ready.find(name)?;
    EvenShape::of(shape, size).ok_or_else(|| {
        BadInput(format!(
            "`{}` has not a disc on either side: a map is of two discs",
            files::visible(name)
        ))
        .into()
    })
}
