//! Works out what a page asks for beside the ranked list.

use super::page_request::{DoubtResult, FitMapResult, WorkUpResult};
use super::request::{Reply, Request};
use sizing::break_even::break_even;
use sizing::engine::{Counter, Engine};
use sizing::fit_map::{Axis, FitMap, Mark, Refinement, best_length, marks, nearest_form};
use sizing::rows;
use sizing::worth::{Worth, worth};
use sizing::{Draws, Ranking, Setting, Work};
use std::sync::Arc;
use workup::Workup;

/// Works out the doubts of a size and sends them as they come; `None` when it was
/// cancelled or nobody listens.
pub(super) fn doubt(
    request: &Request,
    place: usize,
    (ranking, counter): (&Ranking, Option<&dyn Counter>),
    known: &mut Option<Arc<Worth>>,
    work: &Work,
    send: &mut impl FnMut(Reply) -> bool,
) -> Option<()> {
    let candidate = ranking.candidates.iter().find(|one| one.place == place)?;
    let setting = &ranking.setting;
    let asked = rows(setting, &candidate.size.occluder);
    let (size, turn) = (&candidate.size, candidate.turn);
    let draws = counter.map(Counter::draws);
    let break_evens = Arc::new(break_even(setting, size, turn, &asked, draws));
    let mut doubted = DoubtResult {
        generation: request.generation,
        place,
        break_evens,
        worth: known.clone(),
        is_last: known.is_some() || counter.is_none() || setting.not_rated().is_some(),
    };
    tell(work, send, Reply::Doubted(Arc::new(doubted.clone())))?;
    if doubted.is_last {
        return Some(());
    }
    if let Some(counter) = counter {
        *known = worth(setting, &ranking.candidates, counter).map(Arc::new);
        doubted.worth.clone_from(known);
        doubted.is_last = true;
        tell(work, send, Reply::Doubted(Arc::new(doubted)))?;
    }
    Some(())
}

/// Works out the fit map, coarse first, and sends each level, by the draws as trials
/// weighed them where they did; `None` when it was cancelled or nobody listens.
pub(super) fn fit_map(
    request: &Request,
    engine: &dyn Engine,
    weighed: Option<(&Arc<Setting>, &dyn Counter)>,
    work: &Work,
    send: &mut impl FnMut(Reply) -> bool,
) -> Option<()> {
    let setting = weighed.map_or(&request.setting, |(setting, _)| setting);
    // Of a case that is not rated no chance is given, and so no map.
    if setting.not_rated().is_some() {
        return Some(());
    }
    let catalogues = request.shelf.catalogues();
    let mut form = nearest_form(setting, catalogues)?;
    let fresh;
    let counter = if let Some((_, counter)) = weighed {
        counter
    } else {
        let draws = Draws::new(setting, request.map.draws, request.seed).ok()?;
        fresh = engine.prepare(draws);
        &*fresh
    };
    form.length = best_length(setting, &form, counter, work)?.length;
    let marks: Arc<[Mark]> = marks(catalogues, &form).into();
    let mut refinement = Refinement::new(
        setting,
        counter,
        form,
        Axis::of_waists(setting, request.map.waists),
        Axis::of_overhangs(request.map.overhangs),
    );
    let mapped = |map: Arc<FitMap>, says: Option<String>| {
        Reply::Mapped(Arc::new(FitMapResult {
            generation: request.generation,
            missing: map.missing.clone(),
            map,
            marks: Arc::clone(&marks),
            is_last: says.is_some(),
            says,
        }))
    };
    while !refinement.is_whole() {
        let map = refinement.refine(work)?;
        tell(work, send, mapped(map, None))?;
    }
    let says = refinement.would_fit(work)?.says();
    tell(work, send, mapped(Arc::clone(refinement.map()), Some(says)))
}

/// Works the case up against published limits; `None` when it was cancelled, when
/// nobody listens, or without limits.
pub(super) fn work_up(
    request: &Request,
    work: &Work,
    send: &mut impl FnMut(Reply) -> bool,
) -> Option<()> {
    let input = files::workup_input(&request.setting);
    let limits = request.limits.as_ref()?;
    let page = Workup::new(&input, limits, request.work_up_draws, request.seed).ok()?;
    let generation = request.generation;
    tell(
        work,
        send,
        Reply::WorkedUp(Arc::new(WorkUpResult { generation, page })),
    )
}

/// Sends what is still wanted.
fn tell(work: &Work, send: &mut impl FnMut(Reply) -> bool, reply: Reply) -> Option<()> {
    let is_wanted = !work.cancel.load(std::sync::atomic::Ordering::Relaxed);
    (is_wanted && send(reply)).then_some(())
}
