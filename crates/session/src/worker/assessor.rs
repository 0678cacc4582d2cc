use super::page_request::{PageRequest, TrialsResult};
use super::page_work;
use super::request::{ForecastResult, RankingResult, Reply, Request};
use crate::{Bay, Shelf};
use sizing::engine::{Answers, Counter, Engine};
use sizing::trial::{
    CaseAfterTrials, LEAST_DRAWS, PairCache, Procedure, Weighing, WhatNext, what_next,
};
use sizing::worth::Worth;
use sizing::{
    Assessment, Candidate, Case, Draws, Guidance, HouseRules, Ranking, Setting, Work, rank,
};
use std::sync::Arc;
use std::sync::atomic::Ordering;

/// Answers requests one after the other and keeps what it worked out for the last
/// case: a turn by hand ranks nothing anew.
pub struct Assessor<'a> {
    engine: &'a dyn Engine,
    of: Option<Of>,
    /// The sizes as measured, which every stage ranks.
    assessment: Option<Assessment>,
    /// The furthest stage that is known: those before it are not asked for again.
    stage: Option<Stage>,
    worth: Option<Arc<Worth>>,
    /// The list as the readings alone have it, which no trial changes.
    before: Option<(WithoutTrials, Arc<Ranking>)>,
    /// What weighing trials has worked out, and a further observation does not change.
    pairs: PairCache,
    /// The last list: the next is worked out as far as an edit has moved it.
    last: Option<Last>,
}

/// What is known for the list after the next edit.
struct Last {
    ranking: Arc<Ranking>,
    answers: Option<Answers>,
    /// Of as many draws as the last stage takes.
    draws: Option<Draws>,
}

/// What the list of a case is of, its trials left out.
#[derive(PartialEq)]
struct WithoutTrials {
    /// The case, its procedure left out.
    case: Case,
    rules: HouseRules,
    guidance: Guidance,
    shelf: Shelf,
    seed: u64,
    count: usize,
}

impl WithoutTrials {
    /// That of a request whose case is worked up.
    fn new(request: &Request, count: usize) -> Self {
        let setting = &request.setting;
        let mut case = setting.case().clone();
        case.procedure = Procedure::default();
        Self {
            case,
            rules: setting.rules().clone(),
            guidance: setting.guidance().clone(),
            shelf: request.shelf.clone(),
            seed: request.seed,
            count,
        }
    }
}

/// What was asked for last.
struct Of {
    /// The case under its rules as it came.
    setting: Arc<Setting>,
    /// The same, worked up.
    worked_up: Arc<Setting>,
    shelf: Shelf,
    seed: u64,
}

/// A number of draws, the draws as the engine counts them, and the ranking by them.
struct Stage {
    count: usize,
    /// Let go once a request is answered: draws are large and soon made again, but
    /// where what was seen in trials has weighed them.
    counter: Option<Box<dyn Counter>>,
    ranking: Arc<Ranking>,
    /// What the trials of the case made of the draws; `None`: there are none, or there
    /// are no draws.
    weighing: Option<Arc<Weighing>>,
    /// What opening more sizes would reach, once it was asked for.
    next: Option<Arc<WhatNext>>,
}

impl Stage {
    /// The draws as the engine counts them; `None` of the values as read, and of a
    /// number of draws that cannot be taken.
    fn counter(&mut self, request: &Request, engine: &dyn Engine) -> Option<&dyn Counter> {
        if self.counter.is_none() && has_no_trials(request) {
            self.counter = counter(request, self.count, engine, None);
        }
        self.counter.as_deref()
    }
}

/// Whether the draws of a request are those of the readings alone.
fn has_no_trials(request: &Request) -> bool {
    request.setting.case().procedure.trials.is_empty()
}

/// The draws of the readings alone as an engine counts them, which share with those
/// before the last edit what that has not moved.
fn counter(
    request: &Request,
    count: usize,
    engine: &dyn Engine,
    before: Option<&Draws>,
) -> Option<Box<dyn Counter>> {
    let draws = match count {
        0 => None,
        _ => Draws::after(before, &request.setting, count, request.seed).ok(),
    };
    draws.map(|draws| engine.prepare(draws))
}

impl<'a> Assessor<'a> {
    /// An assessor that knows nothing yet; an engine counts for it.
    pub const fn new(engine: &'a dyn Engine) -> Self {
        Self {
            engine,
            of: None,
            assessment: None,
            stage: None,
            worth: None,
            before: None,
            last: None,
            pairs: PairCache::new(),
        }
    }

    /// Answers a request stage by stage, and then with what is wanted beside the
    /// list, until it is cancelled or `send` says `false`. Stages before one that
    /// is known already are left out.
    pub fn answer(&mut self, request: &Request, work: &Work, mut send: impl FnMut(Reply) -> bool) {
        let request = &Request {
            setting: self.worked_up(request),
            ..request.clone()
        };
        if self.assess(request, work, &mut send).is_some() {
            self.wanted(request, work, &mut send);
            self.foretold(request, work, &mut send);
        }
        self.let_go(request);
    }

    /// Lets go of what is large and was needed for the answer alone.
    fn let_go(&mut self, request: &Request) {
        let Some(stage) = &mut self.stage else { return };
        if has_no_trials(request) {
            stage.counter = None;
            self.pairs = PairCache::default();
        }
        // The last list is there: no other is made of these sizes.
        if request.stages.last() == Some(&stage.count) {
            self.assessment = None;
        }
    }

    /// What is wanted beside the list; `None` when it was cancelled or nobody
    /// listens.
    fn wanted(
        &mut self,
        request: &Request,
        work: &Work,
        send: &mut impl FnMut(Reply) -> bool,
    ) -> Option<()> {
        let last = request.stages.last();
        let is_last = |it: &&Stage| Some(&it.count) == last;
        match request.wanted? {
            PageRequest::Doubt(place) => {
                let ranking = Arc::clone(&self.stage.as_ref().filter(is_last)?.ranking);
                // What is known is not counted again.
                let counter = match (&self.worth, &mut self.stage) {
                    (None, Some(stage)) => stage.counter(request, self.engine),
                    _ => None,
                };
                let list = (&*ranking, counter);
                page_work::doubt(request, place, list, &mut self.worth, work, send)
            }
            PageRequest::FitMap => {
                let stage = self.stage.as_ref().filter(is_last);
                // What was seen in trials weighs the map as well.
                let weighed = stage.filter(|it| it.weighing.is_some());
                let weighed =
                    weighed.and_then(|it| Some((&it.ranking.setting, it.counter.as_deref()?)));
                page_work::fit_map(request, self.engine, weighed, work, send)
            }
            PageRequest::WorkUp => {
                // The work-up draws for itself: both need not be there at once.
                self.let_go(request);
                page_work::work_up(request, work, send)
            }
            PageRequest::Trials => self.trials(request, work, send),
        }
    }

    /// What stands on the page of trials beside the list; `None` when it was cancelled
    /// or nobody listens.
    fn trials(
        &mut self,
        request: &Request,
        work: &Work,
        send: &mut impl FnMut(Reply) -> bool,
    ) -> Option<()> {
        let before = self.before(request, work)?;
        let stage = self.stage.as_mut()?;
        if stage.next.is_none() {
            let ranking = Arc::clone(&stage.ranking);
            if let Some(counter) = stage.counter(request, self.engine) {
                stage.next = what_next(&ranking, counter.draws().weights()).map(Arc::new);
            }
        }
        let tried = TrialsResult {
            generation: request.generation,
            before,
            ranking: Arc::clone(&stage.ranking),
            weighing: stage.weighing.clone(),
            next: stage.next.clone(),
        };
        let is_wanted = !work.cancel.load(Ordering::Relaxed);
        (is_wanted && send(Reply::Tried(Arc::new(tried)))).then_some(())
    }

    /// The list as the readings alone have it; `None` when it was cancelled.
    fn before(&mut self, request: &Request, work: &Work) -> Option<Arc<Ranking>> {
        let stage = self.stage.as_ref()?;
        if stage.weighing.is_none() {
            return Some(Arc::clone(&stage.ranking));
        }
        let count = stage.count;
        let of = WithoutTrials::new(request, count);
        if let Some((_, ranking)) = self.before.as_ref().filter(|(before, _)| *before == of) {
            return Some(Arc::clone(ranking));
        }
        let counter = counter(request, count, self.engine, None);
        let catalogues = request.shelf.catalogues();
        let ranking = rank(&request.setting, catalogues, counter.as_deref(), work)?;
        let ranking = Arc::new(ranking);
        self.before = Some((of, Arc::clone(&ranking)));
        Some(ranking)
    }

    /// The ranked list; `None` when it was cancelled or nobody listens.
    fn assess(
        &mut self,
        request: &Request,
        work: &Work,
        send: &mut impl FnMut(Reply) -> bool,
    ) -> Option<()> {
        let is_known = |draws: &usize| self.stage.as_ref().is_some_and(|it| it.count == *draws);
        let known = request.stages.iter().rposition(is_known);
        let last = request.stages.len().saturating_sub(1);
        for (place, &draws) in request.stages.iter().enumerate().skip(known.unwrap_or(0)) {
            let engine = self.engine;
            let stage = self.stage(request, draws, work)?;
            let by_hand = by_hand(request, stage, engine, work)?;
            let assessed = RankingResult {
                generation: request.generation,
                draws,
                is_last: place == last,
                setting: Arc::clone(&request.setting),
                ranking: Arc::clone(&stage.ranking),
                weighing: stage.weighing.clone(),
                by_hand,
            };
            let reply = Reply::Assessed(Arc::new(assessed));
            if work.cancel.load(Ordering::Relaxed) || !send(reply) {
                return None;
            }
        }
        Some(())
    }

    /// The setting of a request, worked up; forgets what is of another.
    fn worked_up(&mut self, request: &Request) -> Arc<Setting> {
        // The same allocation is the same setting: nobody changes one, and while
        // it is remembered its address cannot be given to another.
        let is_same = |of: &&Of| {
            Arc::ptr_eq(&of.setting, &request.setting)
                && of.shelf.is(&request.shelf)
                && of.seed == request.seed
        };
        if let Some(of) = self.of.as_ref().filter(is_same) {
            return Arc::clone(&of.worked_up);
        }
        let known = self
            .of
            .take()
            .filter(|of| Arc::ptr_eq(&of.setting, &request.setting));
        let worked_up = known.map_or_else(
            || {
                let setting = Setting::clone(&request.setting);
                Arc::new(files::worked_up(setting, request.limits.as_deref()))
            },
            |of| of.worked_up,
        );
        self.assessment = None;
        self.stage = None;
        self.worth = None;
        self.of = Some(Of {
            setting: Arc::clone(&request.setting),
            worked_up: Arc::clone(&worked_up),
            shelf: request.shelf.clone(),
            seed: request.seed,
        });
        worked_up
    }

    /// A stage, worked out if it is not known; `None` when it was cancelled.
    fn stage(&mut self, request: &Request, count: usize, work: &Work) -> Option<&mut Stage> {
        if self.stage.as_ref().is_some_and(|it| it.count == count) {
            return self.stage.as_mut();
        }
        let Request { setting, shelf, .. } = request;
        if count > 0 && !has_no_trials(request) {
            let stage = self.weighed(request, count, work)?;
            return Some(self.stage.insert(stage));
        }
        let drawn = self.last.as_ref().and_then(|last| last.draws.as_ref());
        let counter = counter(request, count, self.engine, drawn);
        let assessment = match (self.assessment.take(), &self.last) {
            (Some(assessment), _) => assessment,
            (
                None,
                Some(Last {
                    ranking, answers, ..
                }),
            ) => {
                let before = (&**ranking, answers.as_ref());
                Assessment::after(before, setting, shelf.catalogues(), work)?
            }
            (None, None) => Assessment::new(setting, shelf.catalogues(), work)?,
        };
        let assessment = self.assessment.insert(assessment);
        let is_last = request.stages.last() == Some(&count);
        let ranking = match counter.as_deref() {
            Some(counter) if is_last => assessment.rank_again(counter, work)?,
            counter => assessment.rank(counter, work)?,
        };
        let ranking = Arc::new(ranking);
        let counted = counter.as_ref().filter(|_| is_last);
        let known = self.last.take().and_then(|last| last.draws);
        self.last = Some(Last {
            ranking: Arc::clone(&ranking),
            answers: assessment.answers().cloned(),
            draws: counted.map(|it| it.draws().clone()).or(known),
        });
        Some(self.stage.insert(Stage {
            count,
            counter,
            ranking,
            weighing: None,
            next: None,
        }))
    }

    /// A stage with what was seen in the trials of the case taken in; `None` when it was
    /// cancelled.
    fn weighed(&mut self, request: &Request, count: usize, work: &Work) -> Option<Stage> {
        let catalogues = request.shelf.catalogues();
        let by = (count, request.seed);
        let taken_in = self.pairs.take_in(&request.setting, catalogues, by, work);
        let (setting, draws, weighing) = match taken_in {
            Ok(taken_in) => {
                let CaseAfterTrials {
                    setting,
                    draws,
                    weighing,
                } = taken_in?;
                (setting, draws, Some(Arc::new(weighing)))
            }
            // The list of the readings, which says that trials are left out of it, and why.
            Err(error) => {
                let setting = Setting::clone(&request.setting).without_trials(&error);
                (Arc::new(setting), None, None)
            }
        };
        let counter = draws.map(|draws| self.engine.prepare(draws));
        let ranking = rank(&setting, catalogues, counter.as_deref(), work)?;
        Some(Stage {
            count,
            counter,
            ranking: Arc::new(ranking),
            weighing,
            next: None,
        })
    }

    /// Freezes what is foretold of trials, once all that is looked at is there.
    fn foretold(&mut self, request: &Request, work: &Work, send: &mut impl FnMut(Reply) -> bool) {
        for (trial, moment) in &request.foretell {
            let (setting, catalogues) = (&request.setting, request.shelf.catalogues());
            let by = (LEAST_DRAWS, request.seed);
            // Where nothing can be foretold nothing is frozen; the list says why.
            let of = (trial.as_str(), *moment);
            let forecast = self.pairs.foretell(setting, catalogues, of, by, work);
            let Ok(Some(forecast)) = forecast else {
                continue;
            };
            let result = ForecastResult {
                generation: request.generation,
                trial: trial.clone(),
                moment: *moment,
                forecast,
            };
            let is_wanted = !work.cancel.load(Ordering::Relaxed);
            if !(is_wanted && send(Reply::Foretold(Arc::new(result)))) {
                return;
            }
        }
    }
}

/// The pinned candidates that the ranking does not hold; `None` when it was
/// cancelled.
fn by_hand(
    request: &Request,
    stage: &mut Stage,
    engine: &dyn Engine,
    work: &Work,
) -> Option<Vec<(Bay, Candidate)>> {
    let mut assessed = Vec::new();
    for bay in &request.by_hand {
        if work.cancel.load(Ordering::Relaxed) {
            return None;
        }
        let Some((shape, size)) = bay.find(&request.shelf) else {
            continue;
        };
        let piece = (bay.place, shape, &size);
        let setting = Arc::clone(&stage.ranking.setting);
        let counter = stage.counter(request, engine);
        let mut candidate = Candidate::assess(&setting, piece, bay.turn(), counter);
        let name = request.shelf.name(bay.place);
        candidate.is_on_shelf = name.is_none_or(|name| !request.shelf.is_aside(&name));
        assessed.push((*bay, candidate));
    }
    Some(assessed)
}
