//! Forecasts that are frozen with a trial, against the ranking and the weighing that
//! stand on other code.

use outside::page::set;
use outside::sample::{scenario, shipped_catalogue};
use sizing::engine::{Engine, Fast};
use sizing::trial::{Forecast, Moment, ObservationKind, PERCENTILES};
use sizing::trial::{foretell, share_under, take_in, weigh};
use sizing::{Case, Draws, Ranking, Work, rank};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

const DRAWS: usize = 4096;
const SEED: u64 = 1;
/// What a forecast keeps of a chance.
const KEPT: f64 = 0.5e-4 + 1e-9;

fn foretold(case: &Case, trial: &str, moment: Moment) -> Forecast {
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    let setting = set(case.clone());
    let catalogues = [shipped_catalogue()];
    let found = foretell(&setting, &catalogues, trial, moment, (DRAWS, SEED), &work);
    found.expect("a trial").expect("nobody cancels it")
}

/// The list of a case, with as many of its trials as are told.
fn ranked(case: &Case, trials: usize) -> Ranking {
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    let mut case = case.clone();
    case.procedure.trials.truncate(trials);
    let setting = Arc::new(set(case));
    let catalogues = [shipped_catalogue()];
    let (setting, draws) = if trials == 0 {
        let draws = Draws::new(&setting, DRAWS, SEED).expect("a number of draws");
        (setting, draws)
    } else {
        let taken = take_in(&setting, &catalogues, DRAWS, SEED, &work);
        let taken = taken.expect("trials").expect("nobody cancels it");
        (taken.setting, taken.draws.expect("draws that agree"))
    };
    let counter = Fast.prepare(draws);
    rank(&setting, &catalogues, Some(&*counter), &work).expect("nobody cancels it")
}

const WITH_TRIALS: [&str; 2] = ["contact-first", "pulled-through"];

#[test]
fn the_chance_foretold_at_opening_is_that_of_the_list() {
    for name in WITH_TRIALS {
        let case = scenario(name);
        for (number, trial) in case.procedure.trials.iter().enumerate() {
            let found = foretold(&case, &trial.id, Moment::Opened);
            let chance = |trials| {
                let list = ranked(&case, trials);
                let size = list.find(&trial.size).expect("a size").clone();
                (size.chances.expect("chances").chance.value, size.outcomes)
            };
            let (by_list, outcomes) = chance(number);
            assert!((found.inside - by_list).abs() < KEPT, "{name} {}", trial.id);
            let before = found.inside_before.expect("at opening");
            assert!((before - chance(0).0).abs() < KEPT, "{name} {}", trial.id);
            for limit in &found.limits {
                let mut all = outcomes.iter();
                let row = all.find(|one| one.check == limit.check && one.of == limit.of);
                let by_list = row.and_then(|row| row.chance).expect("a chance").value;
                assert!((limit.chance - by_list).abs() < KEPT, "{limit:?}");
            }
        }
    }
}

/// Places are taken at even steps of the weight of all pairs: what that costs in
/// accuracy is under one in a hundred.
#[test]
fn the_chance_foretold_at_closing_is_that_of_the_device_as_it_lies() {
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    for name in WITH_TRIALS {
        let mut case = scenario(name);
        let trials = case.procedure.trials.len();
        for number in 1..=trials {
            case.procedure = scenario(name).procedure;
            case.procedure.trials.truncate(number);
            let trial = case.procedure.trials[number - 1].id.clone();
            let found = foretold(&case, &trial, Moment::Closed);
            let weighed = weigh(
                &set(case.clone()),
                &[shipped_catalogue()],
                DRAWS,
                SEED,
                &work,
            );
            let weighed = weighed.expect("trials").expect("nobody cancels it");
            let lies = weighed.trials[number - 1].as_it_lies.expect("draws");
            assert!(
                (found.inside - lies).abs() < 0.01,
                "{name}: {} {lies}",
                found.inside
            );
            assert_eq!(found.inside_before, None);
        }
    }
}

/// What was seen in a trial and after it says nothing of the forecast of its opening.
#[test]
fn an_opening_is_foretold_by_what_came_before_it_alone() {
    let case = scenario("contact-first");
    let first = case.procedure.trials[0].id.clone();
    let mut bare = case.clone();
    bare.procedure.trials.truncate(1);
    bare.procedure.trials[0].seen.clear();
    let [found, alone] = [&case, &bare].map(|case| foretold(case, &first, Moment::Opened));
    assert_eq!(found, alone);
    assert_ne!(found, foretold(&case, &first, Moment::Closed));
}

/// What would be seen agrees with itself: the chance of a value over its limit with its
/// percentiles, and contact by the disc's distance with the answer's own law.
#[test]
fn what_would_be_seen_agrees_with_itself() {
    let case = scenario("contact-first");
    let trial = case.procedure.trials[0].id.clone();
    let found = foretold(&case, &trial, Moment::Opened);
    let mut kinds: Vec<ObservationKind> = found.seen.iter().map(|one| one.what).collect();
    kinds.dedup();
    assert!(kinds.len() >= 6, "{kinds:?}");
    for one in &found.seen {
        if let Some(value) = &one.value {
            assert!(value.percentiles.is_sorted(), "{one:?}");
            let at_zero = value.percentiles.iter().filter(|it| **it == 0.0).count();
            let reached = |index: &usize| value.at_zero >= share_under(*index);
            let reached = (0..PERCENTILES).filter(reached).count();
            assert_eq!(at_zero, reached, "{one:?}");
            if let (Some(yes), Some(over)) = (one.yes, one.over) {
                let above = 20 - value.twentieth(over);
                let share = above as f64 / 20.0;
                assert!((yes - share).abs() <= 0.05 + 1e-9, "{one:?}");
            }
        } else {
            // By the shipped laws no answer is ever sure.
            let yes = one.yes.expect("an answer");
            assert!((0.01..=0.99).contains(&yes), "{one:?}");
        }
    }
}
