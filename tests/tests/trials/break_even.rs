//! Break-even with trials taken in, and of the model itself: against sums over the draws
//! and a search in small steps, both made here.

use outside::sample::{as_read, scenario, shipped_catalogue, shipped_rules};
use sizing::break_even::{BreakEvens, break_even};
use sizing::engine::{Counter, Engine, Fast, Plain};
use sizing::house_rules::ModelErrorRow;
use sizing::trial::weigh;
use sizing::{Candidate, Case, Draws, HouseRules, Setting, State, Subject, Work, rank, rows};
use statrs::distribution::{ContinuousCDF, Normal};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use measurement::{ModelError, Valve};

const DRAWS: usize = 4096;

/// The first of the list with its break-even, and the draws it is of.
struct First {
    candidate: Candidate,
    break_evens: BreakEvens,
    counter: Box<dyn Counter>,
}

fn first(case: Case, engine: &dyn Engine) -> First {
    let setting = Arc::new(Setting::new(Arc::new(case), Arc::new(shipped_rules())));
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    let mut catalogue = shipped_catalogue();
    catalogue.shapes.retain(|shape| shape.id == "even-narrow");
    let catalogues = [catalogue];
    let (believed, draws) = if setting.case().procedure.trials.is_empty() {
        let draws = Draws::new(&setting, DRAWS, 1).expect("so many draws");
        (Arc::clone(&setting), draws)
    } else {
        let weighed = weigh(&setting, &catalogues, DRAWS, 1, &work);
        let mut weighing = weighed.expect("trials").expect("nobody cancels it");
        let draws = weighing.draws.take().expect("draws that agree");
        (Arc::new(weighing.believed(&setting)), draws)
    };
    let counter = engine.prepare(draws);
    let list = rank(&believed, &catalogues, Some(&*counter), &work);
    let candidate = list.expect("nobody cancels it").candidates.swap_remove(0);
    let asked = rows(&believed, &candidate.size.occluder);
    let (size, turn) = (&candidate.size, candidate.turn);
    First {
        break_evens: break_even(&believed, size, turn, &asked, Some(counter.draws())),
        candidate,
        counter,
    }
}

fn worst(candidate: &Candidate) -> State {
    let states = candidate.outcomes.iter().map(|outcome| outcome.state);
    let assessed = states.filter(|state| *state != State::NotAssessed);
    assessed.max().unwrap_or(State::Ok)
}

/// Every chance is the share of the weights beyond the end; the state that is held is that
/// of the list; the reference engine agrees.
#[test]
fn with_trials_chances_are_shares_of_what_they_left() {
    let after = first(scenario("contact-first"), &Fast);
    let all = &after.break_evens;
    assert!(all.takes_trials_in);
    assert!(all.held_says().contains("as now believed, trials taken in"));
    assert_eq!(all.held, worst(&after.candidate));
    let draws = after.counter.draws();
    let weights: Vec<f64> = (0..draws.len())
        .map(|one| draws.weights().of(one))
        .collect();
    assert!(weights.iter().any(|weight| *weight != weights[0]));
    let total: f64 = weights.iter().sum();
    let mut ends = 0;
    for one in &all.readings {
        let Some(column) = draws.column(one.quantity) else {
            continue;
        };
        let share = |is_beyond: &dyn Fn(f64) -> bool| -> f64 {
            let each = column.iter().zip(&weights);
            let beyond = each.filter(|(value, _)| is_beyond(**value));
            beyond.map(|(_, weight)| weight).sum::<f64>() / total
        };
        let checks = [
            (
                &one.below,
                share(&|value| value < one.below.as_ref().map_or(0.0, |it| it.at)),
            ),
            (
                &one.above,
                share(&|value| value >= one.above.as_ref().map_or(0.0, |it| it.at)),
            ),
        ];
        for (end, share) in checks {
            let Some(end) = end else { continue };
            assert!((end.chance - share).abs() < 1e-12, "{}", one.quantity);
            ends += 1;
        }
    }
    assert!(ends > 2, "{ends} ends");
    let plain = first(scenario("contact-first"), &Plain);
    assert_eq!(plain.break_evens, after.break_evens);
    assert_eq!(plain.candidate.name(), after.candidate.name());
}

/// What was seen moves how likely the change is: a valve that was touched makes a short
/// rim likelier.
#[test]
fn a_contact_makes_the_end_of_the_rim_likelier() {
    let after = first(scenario("contact-first"), &Fast);
    let mut case = scenario("contact-first");
    case.procedure.trials.clear();
    let before = first(case, &Fast);
    assert!(!before.break_evens.takes_trials_in);
    assert!(
        before.break_evens.of_model.is_empty(),
        "the model is right as shipped"
    );
    let value = |of: &First| -> f64 {
        let mut all = of.break_evens.readings.iter();
        let rim = all.find(|one| one.quantity.address() == "aortic.rim");
        rim.expect("a rim in doubt").value
    };
    assert!(
        value(&after) < value(&before),
        "the rim is believed shorter"
    );
}

/// With no trial nothing hangs on the draws.
#[test]
fn without_trials_break_even_is_that_of_the_laws() {
    for name in ["outlet-infant", "perimembranous-toddler"] {
        let Some(case) = files::shipped::scenario(name).map(|_| scenario(name)) else {
            continue;
        };
        let found = first(case.clone(), &Fast);
        let setting = Setting::new(Arc::new(case), Arc::new(shipped_rules()));
        let asked = rows(&setting, &found.candidate.size.occluder);
        let (size, turn) = (&found.candidate.size, found.candidate.turn);
        assert_eq!(
            found.break_evens,
            break_even(&setting, size, turn, &asked, None)
        );
    }
}

fn wrong(error: ModelError, sd: f64) -> HouseRules {
    let mut rules = shipped_rules();
    for row in &mut rules.model_errors {
        *row = ModelErrorRow {
            sd: if row.of == error { sd } else { 0.0 },
            ..row.clone()
        };
    }
    rules
}

/// An end of clearance's own error is where a search in small steps over the values of the
/// list finds it, and its chance is that of a normal law.
#[test]
fn the_end_of_a_model_error_is_found_by_small_steps() {
    const SD: f64 = 0.6;
    const STEP: f64 = 0.0005;
    let rules = wrong(ModelError::ClearanceLeft, SD);
    let mut found = 0;
    for size in outside::sample::shipped_sizes().into_iter().step_by(7) {
        let case = scenario("outlet-infant");
        let candidate = as_read(case.clone(), rules.clone(), &size, 0.0);
        let setting = Setting::new(Arc::new(case), Arc::new(rules.clone()));
        let asked = rows(&setting, &size.occluder);
        let all = break_even(&setting, &size, 0.0, &asked, None);
        let worst_at = |by: f64| {
            let states = candidate.outcomes.iter().filter_map(|outcome| {
                let is_left = matches!(outcome.of, Subject::Valve(Valve::Aortic | Valve::Mitral));
                let moves = outcome.check == "clearance" && is_left;
                let value = outcome.value? + if moves { by } else { 0.0 };
                Some(if outcome.stop.broken(value).is_some() {
                    State::Stop
                } else if outcome.caution.broken(value).is_some() {
                    State::Caution
                } else {
                    State::Ok
                })
            });
            states.max().unwrap_or(State::Ok)
        };
        assert_eq!(all.held, worst_at(0.0));
        let end = |sign: f64| {
            let steps = (1..=4800_u32).map(|step| sign * STEP * f64::from(step));
            steps.into_iter().find(|by| worst_at(*by) != all.held)
        };
        let one = all.of_model.first();
        for (sign, there) in [
            (-1.0, one.and_then(|one| one.below.as_ref())),
            (1.0, one.and_then(|one| one.above.as_ref())),
        ] {
            let expected = end(sign);
            assert_eq!(there.is_some(), expected.is_some(), "{}", candidate.name());
            let (Some(there), Some(at)) = (there, expected) else {
                continue;
            };
            assert!((there.at - at).abs() < 0.002, "{} {at}", there.at);
            let law = Normal::new(0.0, SD).expect("a normal law");
            let beyond = law.cdf(-(sign * there.at));
            assert!((there.chance - beyond).abs() < 1e-6, "{beyond}");
            assert!(all.model_says()[0].contains("clearance on the left"));
            found += 1;
        }
    }
    assert!(found > 3, "{found} ends");
}
