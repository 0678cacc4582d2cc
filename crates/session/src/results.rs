use crate::worker::{
    DoubtResult, FitMapResult, PageRequest, RankingResult, Reply, TrialsResult, WorkUpResult,
};
use std::sync::Arc;

/// What came back from the worker, and for which state of the document.
#[derive(Clone, Debug)]
pub struct Results {
    /// The document's generation: it grows with every change of what is assessed.
    generation: u64,
    /// The newest generation that was asked for, and what beside the list.
    asked: (u64, Option<PageRequest>),
    assessed: Option<Arc<RankingResult>>,
    doubted: Option<Arc<DoubtResult>>,
    mapped: Option<Arc<FitMapResult>>,
    worked_up: Option<Arc<WorkUpResult>>,
    tried: Option<Arc<TrialsResult>>,
    failure: Option<(u64, String)>,
}

impl Default for Results {
    fn default() -> Self {
        Self {
            generation: 1,
            asked: (0, None),
            assessed: None,
            doubted: None,
            mapped: None,
            worked_up: None,
            tried: None,
            failure: None,
        }
    }
}

impl Results {
    /// The newest result, stale or not.
    pub fn assessed(&self) -> Option<&Arc<RankingResult>> {
        self.assessed.as_ref()
    }

    /// The newest doubts of a size, stale or not.
    pub fn doubted(&self) -> Option<&Arc<DoubtResult>> {
        self.doubted.as_ref()
    }

    /// The newest fit map, stale or not.
    pub fn mapped(&self) -> Option<&Arc<FitMapResult>> {
        self.mapped.as_ref()
    }

    /// The newest work-up, stale or not.
    pub fn worked_up(&self) -> Option<&Arc<WorkUpResult>> {
        self.worked_up.as_ref()
    }

    /// What stands on the page of trials, stale or not.
    pub fn tried(&self) -> Option<&Arc<TrialsResult>> {
        self.tried.as_ref()
    }

    /// Whether what is of a generation is of an older document than the open one.
    pub const fn is_of_before(&self, generation: u64) -> bool {
        generation < self.generation
    }

    /// Whether the result is of an older document than the open one.
    pub fn is_stale(&self) -> bool {
        self.assessed
            .as_ref()
            .is_some_and(|assessed| assessed.generation < self.generation)
    }

    /// Whether more is to come for the open document.
    pub fn is_awaited(&self) -> bool {
        let is_done = self
            .assessed
            .as_ref()
            .is_some_and(|assessed| assessed.generation == self.generation && assessed.is_last);
        !is_done && self.failure().is_none()
    }

    /// Why the assessment of the open document failed, if it did.
    pub fn failure(&self) -> Option<&str> {
        self.failure
            .as_ref()
            .filter(|(generation, _)| *generation == self.generation)
            .map(|(_, message)| message.as_str())
    }

    /// The document's generation.
    pub const fn generation(&self) -> u64 {
        self.generation
    }

    /// Says that what is assessed has changed.
    pub(crate) const fn outdate(&mut self) {
        self.generation += 1;
    }

    /// Leaves out what was said of another case.
    pub(crate) fn forget(&mut self) {
        *self = Self {
            generation: self.generation,
            asked: self.asked,
            ..Self::default()
        };
    }

    /// The generation to ask for, once for each, and again for what is wanted
    /// beside the list and not there yet.
    pub(crate) fn ask(&mut self, wanted: Option<PageRequest>) -> Option<u64> {
        let (generation, also) = self.asked;
        let is_new = generation < self.generation;
        let is_more = wanted.is_some_and(|it| also != wanted && !self.is_there(it));
        if is_new || is_more {
            self.asked = (self.generation, wanted);
        }
        (is_new || is_more).then_some(self.generation)
    }

    /// Whether what is wanted is there, whole and of the open document.
    pub fn is_there(&self, wanted: PageRequest) -> bool {
        let is_whole = |generation: u64, is_last: bool| generation == self.generation && is_last;
        match wanted {
            PageRequest::Doubt(place) => self
                .doubted
                .as_ref()
                .is_some_and(|it| it.place == place && is_whole(it.generation, it.is_last)),
            PageRequest::WorkUp => self
                .worked_up
                .as_ref()
                .is_some_and(|it| is_whole(it.generation, true)),
            PageRequest::Trials => self
                .tried
                .as_ref()
                .is_some_and(|it| is_whole(it.generation, true)),
            PageRequest::FitMap => self
                .mapped
                .as_ref()
                .is_some_and(|it| is_whole(it.generation, it.is_last)),
        }
    }

    /// Takes a reply in, unless a newer one is there; gives back the assessment that
    /// is not shown any more.
    pub(crate) fn receive(&mut self, reply: Reply) -> Option<Arc<RankingResult>> {
        match reply {
            Reply::Assessed(new) => return take(&mut self.assessed, new, |it| it.generation),
            Reply::Doubted(new) => drop(take(&mut self.doubted, new, |it| it.generation)),
            Reply::Mapped(new) => drop(take(&mut self.mapped, new, |it| it.generation)),
            Reply::Tried(new) => drop(take(&mut self.tried, new, |it| it.generation)),
            Reply::WorkedUp(new) => drop(take(&mut self.worked_up, new, |it| it.generation)),
            // It goes into the case.
            Reply::Foretold(_) => {}
            Reply::Failed {
                generation,
                message,
            } => {
                let newest = self.failure.as_ref().map_or(0, |(newest, _)| *newest);
                if generation >= newest {
                    self.failure = Some((generation, message));
                }
            }
        }
        None
    }
}

/// Puts a result in place of the one that is there, unless that is of a newer
/// generation; gives back the one that is not shown.
fn take<T>(there: &mut Option<Arc<T>>, new: Arc<T>, generation: fn(&T) -> u64) -> Option<Arc<T>> {
    let newest = there.as_deref().map_or(0, generation);
    if generation(&new) >= newest {
        there.replace(new)
    } else {
        Some(new)
    }
}
