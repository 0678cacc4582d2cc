use super::*;
use crate::fixture;
use crate::{Bay, Session};
use sizing::engine::{Counter, Counts, Plain, Question};
use sizing::house_rules::Parameter;
use sizing::{Draws, Setting, Turn};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, channel};
use std::sync::{Condvar, Mutex};
use std::time::{Duration, Instant};

/// Long enough for any honest answer on a busy machine.
const PATIENCE: Duration = Duration::from_mins(1);

/// An engine that counts as the plain one, when it is let.
#[derive(Clone, Debug, Default)]
struct Gate(Arc<(Mutex<bool>, Condvar)>, Arc<AtomicUsize>);

impl Gate {
    fn open(&self) {
        *self.0.0.lock().unwrap() = true;
        self.0.1.notify_all();
    }

    fn wait_until_it_counts(&self) {
        let from = Instant::now();
        while self.1.load(Ordering::SeqCst) == 0 && from.elapsed() < PATIENCE {
            std::thread::yield_now();
        }
    }
}

impl Engine for Gate {
    fn prepare(&self, draws: Draws) -> Box<dyn Counter> {
        let gate = self.clone();
        let counter = Plain.prepare(draws);
        Box::new(Gated { gate, counter })
    }
}

/// What is counted behind a gate.
#[derive(Debug)]
struct Gated {
    gate: Gate,
    counter: Box<dyn Counter>,
}

impl Counter for Gated {
    fn draws(&self) -> &Draws {
        self.counter.draws()
    }

    fn count(&self, question: &Question) -> Counts {
        self.count_all(std::slice::from_ref(question))
            .swap_remove(0)
    }

    fn count_all(&self, questions: &[Question]) -> Vec<Counts> {
        let Gate(gate, counted) = &self.gate;
        counted.fetch_add(1, Ordering::SeqCst);
        let closed = gate.0.lock().unwrap();
        // Not for ever: where a test fails first, its worker must end.
        let waited = gate.1.wait_timeout_while(closed, PATIENCE, |open| !*open);
        drop(waited.unwrap());
        self.counter.count_all(questions)
    }
}

/// An engine with a fault.
struct Faulty;

impl Engine for Faulty {
    fn prepare(&self, _: Draws) -> Box<dyn Counter> {
        panic!("a fault of the engine");
    }
}

/// An engine that counts as the plain one, and knows of how many draws it still has.
struct Alive(Arc<()>);

impl Engine for Alive {
    fn prepare(&self, draws: Draws) -> Box<dyn Counter> {
        Box::new(AliveCounter {
            _alive: Arc::clone(&self.0),
            counter: Plain.prepare(draws),
        })
    }
}

#[derive(Debug)]
struct AliveCounter {
    _alive: Arc<()>,
    counter: Box<dyn Counter>,
}

impl Counter for AliveCounter {
    fn draws(&self) -> &Draws {
        self.counter.draws()
    }

    fn count(&self, question: &Question) -> Counts {
        self.counter.count(question)
    }

    fn count_all(&self, questions: &[Question]) -> Vec<Counts> {
        self.counter.count_all(questions)
    }
}

fn started(engine: impl Engine + Send + 'static) -> (Worker, Receiver<Reply>) {
    let (sender, receiver) = channel();
    (
        Worker::start(engine, 1, move |reply| sender.send(reply).is_ok()).unwrap(),
        receiver,
    )
}

fn request(session: &mut Session, stages: &'static [usize]) -> Request {
    Request {
        stages,
        ..session.take_request().unwrap()
    }
}

fn next(replies: &Receiver<Reply>) -> Arc<RankingResult> {
    match replies.recv_timeout(PATIENCE).unwrap() {
        Reply::Assessed(assessed) => assessed,
        other => panic!("{other:?}"),
    }
}

/// The infant and one shape, so that a test takes no time.
fn small() -> Session {
    fixture::with_shape("larger-left")
}

#[test]
fn values_as_read_come_first_and_chances_after() {
    let (worker, replies) = started(Plain);
    let mut session = small();
    worker.submit(request(&mut session, &[0, 64, 512]));
    for (draws, is_last) in [(0, false), (64, false), (512, true)] {
        let assessed = next(&replies);
        assert_eq!((assessed.draws, assessed.is_last), (draws, is_last));
        let candidate = &assessed.ranking.candidates[0];
        assert_eq!(candidate.chances.is_some(), draws > 0);
        session.receive(Reply::Assessed(assessed));
        assert_eq!(session.results().is_awaited(), !is_last);
    }
}

#[test]
fn an_edit_stops_the_running_count_and_the_waiting_one_is_never_begun() {
    let gate = Gate::default();
    let (worker, replies) = started(gate.clone());
    let mut session = small();
    worker.submit(request(&mut session, &[64]));
    gate.wait_until_it_counts();
    for _ in 0..3 {
        fixture::press(&mut session, "right");
        worker.submit(request(&mut session, &[64]));
    }
    gate.open();
    assert_eq!(next(&replies).generation, session.results().generation());
    assert!(replies.try_recv().is_err());
}

#[test]
fn an_older_result_is_shown_as_stale_and_never_replaces_a_newer() {
    let (worker, replies) = started(Plain);
    let mut session = small();
    worker.submit(request(&mut session, &[0]));
    let old = next(&replies);
    fixture::press(&mut session, "right");
    session.receive(Reply::Assessed(Arc::clone(&old)));
    assert!(session.results().is_stale());
    worker.submit(request(&mut session, &[0]));
    let new = next(&replies);
    session.receive(Reply::Assessed(new));
    session.receive(Reply::Assessed(old));
    assert!(!session.results().is_stale());
}

#[test]
fn what_is_swapped_or_turned_by_hand_is_assessed_and_ranks_nothing_anew() {
    let (worker, replies) = started(Plain);
    let mut session = fixture::with_shape("offset-left");
    worker.submit(request(&mut session, &[0, 64]));
    let _ = next(&replies);
    let first = next(&replies);
    session.receive(Reply::Assessed(Arc::clone(&first)));
    fixture::press(&mut session, "t x");
    let bay = session.document().bays()[0];
    worker.submit(request(&mut session, &[0, 64]));
    let second = next(&replies);
    assert!(Arc::ptr_eq(&first.ranking, &second.ranking) && second.is_last);
    session.receive(Reply::Assessed(second));
    let candidate = session.bay_candidate(0).unwrap();
    assert_eq!(Turn::ByHand(candidate.turn), bay.turn());
    assert_eq!(candidate.name(), bay.name(session.document().shelf()));
    assert!(bay.swapped && candidate.chances.is_some());
    assert_eq!(session.bay_candidate(1), None);
}

#[test]
fn draws_are_let_go_once_a_request_is_answered() {
    let engine = Alive(Arc::default());
    let mut assessor = Assessor::new(&engine);
    let mut session = fixture::with_shape("offset-left");
    let alone = Work {
        threads: 1,
        cancel: &AtomicBool::new(false),
    };
    let mut most = 0;
    let request = request(&mut session, &[0, 64]);
    assessor.answer(&request, &alone, |_| {
        most = most.max(Arc::strong_count(&engine.0) - 1);
        true
    });
    assert_eq!(Arc::strong_count(&engine.0), 1);
    assert_eq!(most, 1);
}

#[test]
fn a_bay_as_ranked_is_found_in_the_ranking() {
    let mut session = small();
    fixture::assess(&mut session);
    let place = session.listed()[1].place;
    let assessed = session.results().assessed().unwrap();
    assert_eq!(assessed.candidate(&Bay::new(place)).unwrap().place, place);
}

#[test]
fn a_panic_is_reported_and_the_worker_goes_on() {
    let (worker, replies) = started(Faulty);
    let mut session = small();
    worker.submit(request(&mut session, &[64]));
    let reply = replies.recv_timeout(PATIENCE).unwrap();
    session.receive(reply);
    assert_eq!(session.results().failure(), Some("a fault of the engine"));
    assert!(!session.results().is_awaited());
    fixture::press(&mut session, "right");
    assert_eq!(session.results().failure(), None);
    worker.submit(request(&mut session, &[0]));
    assert_eq!(next(&replies).generation, session.results().generation());
}

#[test]
fn closing_stops_the_work_after_the_sizes_that_are_counted_together() {
    let gate = Gate::default();
    let (worker, replies) = started(gate.clone());
    worker.submit(request(&mut fixture::many(), &[64]));
    gate.wait_until_it_counts();
    // As dropping does, but before the sizes are let through.
    worker.queue.close();
    gate.open();
    drop(worker);
    assert!(replies.recv().is_err());
    assert_eq!(gate.1.load(Ordering::SeqCst), 1);
}

#[test]
fn every_stage_is_a_number_of_draws_that_can_be_taken() {
    let setting = request(&mut small(), &[]).setting;
    let usual = Request::STAGES.iter().chain(Request::stages(158, false));
    for &draws in usual.chain(Request::stages(158, true)) {
        assert!(
            draws == 0 || Draws::new(&setting, draws, 1).is_ok(),
            "{draws}"
        );
    }
}

/// A case with one trial of a size, whose contact with the aortic valve counts.
fn touched(size: &str) -> Session {
    let (name, text) = files::shipped::scenario("contact-first").unwrap();
    let mut case = files::parse_case(name, text).unwrap().into_value();
    case.procedure.trials[0].size = size.to_owned();
    fixture::open(case)
}

#[test]
fn a_list_takes_in_what_was_seen_in_trials() {
    let mut session = touched("even-narrow/5x3");
    fixture::press(&mut session, "7");
    let request = session.take_request().unwrap();
    assert_eq!(request.stages, [4096]);
    let (sender, replies) = channel();
    let worker = Worker::start(sizing::engine::Fast, 1, move |reply| {
        sender.send(reply).is_ok()
    });
    let worker = worker.unwrap();
    worker.submit(request);
    let assessed = next(&replies);
    assert!(assessed.weighing.as_ref().unwrap().any_counted);
    assert!(!assessed.ranking.setting.leaves_trials_out());
    assert!(assessed.setting.leaves_trials_out());
    let Reply::Tried(tried) = replies.recv_timeout(PATIENCE).unwrap() else {
        panic!("the page of trials was asked for");
    };
    let chance = |ranking: &sizing::Ranking| {
        let found = ranking.find("even-narrow/5x3").unwrap();
        found.chances.as_ref().unwrap().chance.value
    };
    assert!(chance(&tried.ranking) < chance(&tried.before) - 0.1);
    assert!(tried.next.is_some());
}

/// Rules that were read anew are asked for the list before any trial as well.
#[test]
fn the_list_before_trials_is_of_the_rules_that_count_now() {
    let (worker, replies) = started(sizing::engine::Fast);
    let mut session = touched("even-narrow/5x3");
    fixture::press(&mut session, "7");
    let mut asked = session.take_request().unwrap();
    let before = || {
        let _ = next(&replies);
        let Reply::Tried(tried) = replies.recv_timeout(PATIENCE).unwrap() else {
            panic!("the page of trials was asked for");
        };
        let each = tried.before.candidates.iter();
        let chances: Vec<f64> = each.map(|one| one.chances.unwrap().chance.value).collect();
        chances
    };
    worker.submit(asked.clone());
    let first = before();
    let mut rules = asked.setting.rules().clone();
    rules.parameters[Parameter::TiltSd.index()].value = 40.0;
    let case = Arc::new(asked.setting.case().clone());
    asked.setting = Arc::new(Setting::new(case, Arc::new(rules)));
    worker.submit(asked);
    assert_ne!(before(), first);
}

/// Lets a worker answer what the session asks, and the session take all of it in.
fn answered(session: &mut Session) {
    let request = session.take_request().unwrap();
    let wanted = 2 + request.foretell.len();
    let (sender, replies) = channel();
    let worker = Worker::start(sizing::engine::Fast, 2, move |reply| {
        sender.send(reply).is_ok()
    });
    let worker = worker.unwrap();
    worker.submit(request);
    for _ in 0..wanted {
        let reply = replies.recv_timeout(PATIENCE).unwrap();
        session.update(crate::Event::Reply(reply));
    }
}

#[test]
fn a_forecast_is_frozen_when_a_trial_opens_and_when_it_closes() {
    let mut session = fixture::open(touched("even-wide/5x3").document().case().clone());
    fixture::press(&mut session, "7 e 6 0 enter");
    let own = |session: &Session| {
        let trials = &session.document().case().procedure.trials;
        trials.last().unwrap().forecast.clone()
    };
    let place = session.document().shelf().place("even-narrow/5x3").unwrap();
    session.model.document.bays = vec![Bay::new(place)];
    session.bays_wait = false;
    fixture::press(&mut session, "enter");
    assert_eq!(session.document().case().procedure.trials.len(), 2);
    answered(&mut session);
    let opened = own(&session).opened.unwrap();
    assert!(opened.inside_before.is_some() && !opened.seen.is_empty());
    // A journal holds it: it is of the case. No step takes it back alone.
    assert!(session.is_unsaved());
    fixture::press(&mut session, "end right enter");
    // The forecast of the opening does not go with the step after it.
    assert_eq!(own(&session).opened.as_ref(), Some(&opened));
    answered(&mut session);
    assert!(own(&session).closed.is_some());
    fixture::press(&mut session, "u");
    assert_eq!(own(&session).opened.as_ref(), Some(&opened));
    assert!(own(&session).closed.is_none());
    fixture::press(&mut session, "U");
    assert!(own(&session).closed.is_some());
    fixture::press(&mut session, "u u");
    assert_eq!(session.document().case().procedure.trials.len(), 1);
    // One that came before the program knew forecasts gets none afterwards.
    assert_eq!(own(&session), sizing::trial::Forecasts::default());
    assert!(session.model.foretell.is_empty());
}

#[test]
fn trials_that_cannot_be_taken_in_hold_every_verdict() {
    let mut session = touched("of-another-catalogue/5x3");
    let (worker, replies) = started(Plain);
    worker.submit(session.take_request().unwrap());
    let assessed = next(&replies);
    let held = assessed.ranking.setting.held_by_trials();
    assert_eq!(
        held,
        [
            "what was seen in trials could not be taken in: no size `of-another-catalogue/5x3` in the catalogue"
        ]
    );
    let mut all = assessed.ranking.candidates.iter();
    assert!(all.all(|one| one.judged.verdict != sizing::Verdict::Fits));
}

#[test]
fn a_worker_nobody_listens_to_ends() {
    let (worker, replies) = started(Plain);
    drop(replies);
    worker.submit(request(&mut small(), &[0]));
    let from = Instant::now();
    while !worker.thread.as_ref().unwrap().is_finished() && from.elapsed() < PATIENCE {
        std::thread::yield_now();
    }
    assert!(worker.thread.as_ref().unwrap().is_finished());
}
