//! What would have to be otherwise, where nothing fits.

use super::args::MAP_DRAWS;
use super::inputs::{CANCELLED, Ready};
use anyhow::{Context, Result};
use sizing::break_even::break_even;
use sizing::engine::{Counter, Engine, Fast};
use sizing::fit_map::{Axis, Refinement, best_length, nearest_form};
use sizing::rows;
use sizing::{Draws, Ranking, Setting};

/// Columns and rows of the map that is asked: a quarter of the cells of one that
/// is drawn.
const MAP: (usize, usize) = (30, 20);

/// Paragraphs with their titles; none where something fits, or no geometry can
/// help.
pub(super) fn says(ready: &Ready, ranking: &Ranking) -> Result<Vec<(&'static str, String)>> {
    let mut said = Vec::new();
    let is_rated = ranking.setting.not_rated().is_none();
    if !is_rated || !ranking.nothing_fits() || !ranking.excluded.is_empty() {
        return Ok(said);
    }
    said.extend(readings(ranking).map(|says| ("Which reading: ", says)));
    // What was seen in trials weighs the map as well.
    if let (Some(_), Some(counter)) = (&ready.weighing, &ready.counter) {
        said.extend(shapes(ready, &**counter)?.map(|says| ("What would fit: ", says)));
    } else if let Some(counter) = map_counter(&ready.setting, ready)? {
        said.extend(shapes(ready, &*counter)?.map(|says| ("What would fit: ", says)));
    }
    Ok(said)
}

/// How many of the nearest sizes are asked which reading would let them pass.
const ASKED: usize = 5;

/// By how much a reading would have to be wrong: for the nearest size that one
/// reading alone would let pass.
fn readings(ranking: &Ranking) -> Option<String> {
    let mut nearest = ranking.candidates.iter().take(ASKED).peekable();
    let first = nearest.peek()?.name();
    let says = nearest.find_map(|one| {
        let rows = rows(&ranking.setting, &one.size.occluder);
        let all = break_even(&ranking.setting, &one.size, one.turn, &rows);
        Some(format!("{} {}.", one.name(), all.says_first()?))
    });
    Some(says.unwrap_or_else(|| {
        format!("no reading, changed alone, would let {first} or the sizes next to it pass.")
    }))
}

fn map_counter(setting: &Setting, ready: &Ready) -> Result<Option<Box<dyn Counter>>> {
    let Some(counter) = &ready.counter else {
        return Ok(None);
    };
    let draws = counter.draws().len().min(MAP_DRAWS);
    let draws = Draws::new(setting, draws, ready.provenance.seed)?;
    Ok(Some(Fast.prepare(draws)))
}

/// The sentence of a fit map at the length with most room.
fn shapes(ready: &Ready, counter: &dyn Counter) -> Result<Option<String>> {
    let setting = &ready.setting;
    let Some(form) = nearest_form(setting, &ready.catalogues) else {
        return Ok(None);
    };
    let work = ready.work();
    let best = best_length(setting, &form, counter, &work).context(CANCELLED)?;
    let mut refinement = Refinement::new(
        setting,
        counter,
        form.at_length(best.length),
        Axis::of_waists(setting, MAP.0),
        Axis::of_overhangs(MAP.1),
    );
    refinement.whole(&work).context(CANCELLED)?;
    let would_fit = refinement.would_fit(&work).context(CANCELLED)?;
    Ok(Some(would_fit.says()))
}
