//! What would have to be otherwise, where nothing fits.

use anyhow::{Context, Result};
use sizing::break_even::break_even;
use sizing::engine::{Counter, Engine, Fast};
use sizing::fit_map::{Axis, Refinement, best_length, nearest_form};
use sizing::rows;
use sizing::{Catalogue, Draws, Ranking, Work, device_name};

/// Draws of a fit map where nothing names others.
pub(crate) const MAP_DRAWS: usize = 1024;

/// Columns and rows of the map that is asked: a quarter of the cells of one that
/// is drawn.
const MAP: (usize, usize) = (30, 20);

/// A ranked list in which something would have to be otherwise.
pub(crate) struct Otherwise<'a> {
    /// The list.
    pub(crate) ranking: &'a Ranking,
    /// What it was ranked from.
    pub(crate) catalogues: &'a [Catalogue],
    /// How many draws it took; 0: values as measured alone.
    pub(crate) draws: usize,
    /// Their seed.
    pub(crate) seed: u64,
    /// The draws as trials weigh them, which weigh the map as well; `None`: none did.
    pub(crate) weighed: Option<&'a dyn Counter>,
}

/// What is said where work that nobody can cancel was cancelled.
pub(crate) const CANCELLED: &str = "the work was cancelled";

/// Whether something of a list would have to be otherwise: not where something fits, or
/// no geometry can help.
fn is_asked(ranking: &Ranking) -> bool {
    let is_rated = ranking.setting.not_rated().is_none();
    is_rated && ranking.nothing_fits() && ranking.excluded.is_empty()
}

impl Otherwise<'_> {
    /// Paragraphs with their titles; none where nothing [is asked](is_asked).
    pub(crate) fn says(&self, work: &Work) -> Result<Vec<(&'static str, String)>> {
        let ranking = self.ranking;
        let mut said = Vec::new();
        if !is_asked(ranking) {
            return Ok(said);
        }
        let draws = self.weighed.map(Counter::draws);
        said.extend(readings(ranking, draws).map(|says| ("Which reading: ", says)));
        let shapes = match self.weighed {
            Some(counter) => self.shapes(counter, work)?,
            None if self.draws == 0 => None,
            None => {
                let draws = self.draws.min(MAP_DRAWS);
                let draws = Draws::new(&ranking.setting, draws, self.seed)?;
                self.shapes(&*Fast.prepare(draws), work)?
            }
        };
        said.extend(shapes.map(|says| ("What would fit: ", says)));
        Ok(said)
    }

    /// The sentence of a fit map at the length with most room.
    fn shapes(&self, counter: &dyn Counter, work: &Work) -> Result<Option<String>> {
        let setting = &self.ranking.setting;
        let Some(form) = nearest_form(setting, self.catalogues) else {
            return Ok(None);
        };
        let best = best_length(setting, &form, counter, work).context(CANCELLED)?;
        let mut refinement = Refinement::new(
            setting,
            counter,
            form.at_length(best.length),
            Axis::of_waists(setting, MAP.0),
            Axis::of_overhangs(MAP.1),
        );
        refinement.whole(work).context(CANCELLED)?;
        let would_fit = refinement.would_fit(work).context(CANCELLED)?;
        Ok(Some(would_fit.says()))
    }
}

/// How many of the nearest sizes are asked which reading would let them pass.
const ASKED: usize = 5;

/// By how much a reading would have to be wrong: for the nearest size that one
/// reading alone would let pass.
fn readings(ranking: &Ranking, draws: Option<&Draws>) -> Option<String> {
    let mut nearest = ranking.candidates.iter().take(ASKED).peekable();
    let first = device_name(&nearest.peek()?.name());
    let says = nearest.find_map(|one| {
        let rows = rows(&ranking.setting, &one.size.occluder);
        let all = break_even(&ranking.setting, &one.size, one.turn, &rows, draws);
        Some(format!(
            "{} {}.",
            device_name(&one.name()),
            all.says_first()?
        ))
    });
    Some(says.unwrap_or_else(|| {
        format!("no reading, changed alone, would let {first} or the sizes next to it pass.")
    }))
}
