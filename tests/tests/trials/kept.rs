//! What is kept from one weighing to the next changes nothing of what comes of it.

use outside::page::set;
use outside::sample::{scenario, shipped_catalogue, shipped_rules};
use sizing::trial::{Moment, PairCache, Seen, TrialOutcome, Weighing, foretell, weigh};
use sizing::{Case, Work};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

const BY: (usize, u64) = (4096, 1);

/// A case after each key of its trials: opened, then one observation after the other,
/// the last of them taken back, and corrected.
fn keys(name: &str) -> Vec<Case> {
    let whole = scenario(name);
    let mut states = Vec::new();
    for trials in 1..=whole.procedure.trials.len() {
        let mut case = whole.clone();
        case.procedure.trials.truncate(trials);
        let last = case.procedure.trials[trials - 1].clone();
        for seen in 0..=last.seen.len() {
            case.procedure.trials[trials - 1].seen = last.seen[..seen].to_vec();
            states.push(case.clone());
        }
    }
    let mut back = whole.clone();
    if let Some(trial) = back.procedure.trials.last_mut() {
        trial.seen.pop();
    }
    states.push(back);
    let mut corrected = whole;
    for seen in corrected
        .procedure
        .trials
        .iter_mut()
        .flat_map(|trial| &mut trial.seen)
    {
        if let Seen::Value(value) = &mut seen.seen {
            *value += 0.5;
        }
    }
    states.push(corrected);
    states
}

/// All that a weighing says, the draws aside.
fn said(weighing: &Weighing) -> (f64, Vec<TrialOutcome>, String, Vec<String>) {
    let shifts = format!("{:?} {:?}", weighing.shifts, weighing.error_shifts);
    (
        weighing.effective,
        weighing.trials.clone(),
        shifts,
        weighing.holds(),
    )
}

#[test]
fn a_weighing_by_what_is_kept_is_that_from_nothing() {
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    let catalogues = [shipped_catalogue()];
    for name in [
        "contact-first",
        "nothing-left",
        "observation-against-reading",
    ] {
        let mut cache = PairCache::new();
        for case in keys(name) {
            let setting = set(case.clone());
            let kept = cache.weigh(&setting, &catalogues, BY, &work);
            let anew = weigh(&setting, &catalogues, BY.0, BY.1, &work);
            let [kept, anew] = [kept, anew].map(|it| it.expect("trials").expect("not cancelled"));
            assert_eq!(said(&kept), said(&anew), "{name}");
            let [kept, anew] = [kept, anew].map(|it| it.draws.expect("draws").weights().clone());
            assert_eq!(kept, anew, "{name}");
        }
        let whole = set(scenario(name));
        let trials = &whole.case().procedure.trials;
        let trial = trials.last().map_or("", |trial| trial.id.as_str());
        let kept = cache.foretell(&whole, &catalogues, (trial, Moment::Opened), BY, &work);
        let anew = foretell(&whole, &catalogues, trial, Moment::Opened, BY, &work);
        assert_eq!(kept, anew, "{name}");
    }
}

/// Of another case, and under other rules, nothing is kept.
#[test]
fn another_reading_or_rule_is_weighed_from_nothing() {
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    let catalogues = [shipped_catalogue()];
    let case = scenario("contact-first");
    let mut rules = shipped_rules();
    for row in &mut rules.model_errors {
        row.sd = 0.4;
    }
    let mut other = case.clone();
    other.readings.remove(0);
    let settings = [
        set(case.clone()),
        files::setting(Arc::new(case), Arc::new(rules), None),
        set(other),
    ];
    let mut cache = PairCache::new();
    for setting in &settings {
        let kept = cache.weigh(setting, &catalogues, BY, &work);
        let anew = weigh(setting, &catalogues, BY.0, BY.1, &work);
        let [kept, anew] = [kept, anew].map(|it| it.expect("trials").expect("not cancelled"));
        assert_eq!(said(&kept), said(&anew));
    }
}
