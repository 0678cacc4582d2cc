use super::{Assessed, Request};
use crate::{Bay, Shelf};
use sizing::engine::Engine;
use sizing::{Candidate, Draws, Ranking, Setting, Work, rank};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// What was worked out for the last case: a turn by hand ranks nothing anew.
#[derive(Default)]
pub(super) struct Memory {
    of: Option<(Arc<Setting>, Shelf, u64)>,
    stages: BTreeMap<usize, Stage>,
}

/// Draws and the ranking by them.
struct Stage {
    draws: Option<Draws>,
    ranking: Arc<Ranking>,
}

impl Memory {
    /// Assesses a request stage by stage, until it is cancelled or `send` says
    /// `false`. Stages before one that is known already are left out.
    pub(super) fn assess(
        &mut self,
        request: &Request,
        engine: &dyn Engine,
        threads: usize,
        cancel: &AtomicBool,
        mut send: impl FnMut(Assessed) -> bool,
    ) {
        self.forget_other_than(request);
        let known = request
            .stages
            .iter()
            .rposition(|draws| self.stages.contains_key(draws));
        let last = request.stages.len().saturating_sub(1);
        for (place, &draws) in request.stages.iter().enumerate().skip(known.unwrap_or(0)) {
            let work = Work {
                engine,
                threads,
                cancel,
            };
            let Some(stage) = self.stage(request, draws, &work) else {
                return;
            };
            let Some(by_hand) = by_hand(request, stage, &work) else {
                return;
            };
            let assessed = Assessed {
                generation: request.generation,
                draws,
                is_last: place == last,
                ranking: Arc::clone(&stage.ranking),
                by_hand,
            };
            if cancel.load(Ordering::Relaxed) || !send(assessed) {
                return;
            }
        }
    }

    fn forget_other_than(&mut self, request: &Request) {
        // The same allocation is the same setting: nobody changes one, and while
        // it is remembered its address cannot be given to another.
        let is_same = self.of.as_ref().is_some_and(|(setting, shelf, seed)| {
            Arc::ptr_eq(setting, &request.setting)
                && shelf.is(&request.shelf)
                && *seed == request.seed
        });
        if !is_same {
            self.stages.clear();
            self.of = Some((
                Arc::clone(&request.setting),
                request.shelf.clone(),
                request.seed,
            ));
        }
    }

    /// A stage, worked out if it is not known; `None` when it was cancelled.
    fn stage(&mut self, request: &Request, draws: usize, work: &Work) -> Option<&Stage> {
        let entry = match self.stages.entry(draws) {
            Entry::Occupied(known) => return Some(known.into_mut()),
            Entry::Vacant(entry) => entry,
        };
        let Request {
            setting,
            shelf,
            seed,
            ..
        } = request;
        // A number of draws that cannot be taken gives the values as read.
        let made = match draws {
            0 => None,
            _ => Draws::new(setting, draws, *seed).ok(),
        };
        let ranking = rank(setting, shelf.catalogues(), made.as_ref(), work)?;
        Some(entry.insert(Stage {
            draws: made,
            ranking: Arc::new(ranking),
        }))
    }
}

/// The pinned candidates that the ranking does not hold; `None` when it was
/// cancelled.
fn by_hand(request: &Request, stage: &Stage, work: &Work) -> Option<Vec<(Bay, Candidate)>> {
    let mut assessed = Vec::new();
    for bay in &request.by_hand {
        if work.cancel.load(Ordering::Relaxed) {
            return None;
        }
        let Some((shape, size)) = bay.find(&request.shelf) else {
            continue;
        };
        let piece = (bay.place, shape, &size);
        let draws = stage.draws.as_ref();
        let candidate = Candidate::assess(&request.setting, piece, bay.turn(), draws, work.engine);
        assessed.push((*bay, candidate));
    }
    Some(assessed)
}
