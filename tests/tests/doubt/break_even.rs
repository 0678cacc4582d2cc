//! Break-even against brute search: every value of a fine grid as if it had been
//! read, each in a case of its own.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use measurement::{Law, Quantity};
use outside::sample::{scenario, shipped_catalogue, shipped_rules};
use sizing::break_even::{BreakEven, BreakEvens, Change, break_even};
use sizing::resolve::Basis;
use sizing::rows;
use sizing::{Candidate, Case, Draws, HouseRules, Setting, Shape, Size, State, Turn, Work, rank};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Standard deviations between values of the grid, half of what break-even itself
/// looks at.
const GRID: f64 = 0.25;
/// How far out the grid goes, as break-even does: to four standard deviations of
/// the quantity's own law, which is not wider than with its scale's.
const STEPS: usize = 16;
const TAIL: f64 = 3.2e-5;
/// A hundredth of a quantity's fine step: what break-even promises.
fn accuracy(quantity: Quantity) -> f64 {
    0.01 * quantity.info().steps.0
}

/// A case and rules in which a quantity has another value, by readings alone.
fn moved(setting: &Setting, quantity: Quantity, value: f64) -> (Case, HouseRules) {
    let (mut case, mut rules) = (setting.case().clone(), setting.rules().clone());
    match setting.basis(quantity) {
        Basis::Read(selection) => {
            let serving = &selection.used[0];
            let reading = case
                .readings
                .iter()
                .find(|one| one.id == *serving)
                .expect("the reading that serves")
                .clone();
            case.readings
                .retain(|one| one.quantity != quantity || one.id == reading.id);
            rules.biases.retain(|row| !row.of.contains(&quantity));
            for one in &mut case.readings {
                if one.id == reading.id {
                    one.value = value;
                }
            }
        }
        _ => {
            for row in &mut rules.defaults {
                if row.of == quantity {
                    row.value = value;
                }
            }
        }
    }
    (case, rules)
}

/// The worst state of a size where a quantity has another value: as it is, and
/// without what is broken by no more than the last bits of a sum.
fn states_at(
    setting: &Setting,
    size: &Size,
    turn: f64,
    quantity: Quantity,
    value: f64,
) -> [State; 2] {
    let (case, rules) = moved(setting, quantity, value);
    let setting = Setting::new(Arc::new(case), Arc::new(rules));
    let nominal = setting.nominal(quantity);
    let there = nominal.expect("still read");
    assert!(
        (there - value).abs() < 1e-9,
        "{quantity}: {there} for {value}"
    );
    let shape = Shape {
        id: "shape".into(),
        name: "a shape".into(),
        about: String::new(),
        sizes: vec![size.clone()],
    };
    let candidate = Candidate::assess(&setting, (0, &shape, size), Turn::ByHand(turn), None);
    let lenient = candidate.outcomes.iter().map(|outcome| {
        let broken = |margin: Option<f64>| margin.is_some_and(|margin| margin < -LAST_BITS);
        if broken(outcome.margin_stop()) {
            State::Stop
        } else if broken(outcome.margin_caution()) {
            State::Caution
        } else {
            State::Ok
        }
    });
    [worst(&candidate), lenient.max().unwrap_or(State::Ok)]
}

/// A value that stands on its limit, whatever the other values, is moved across
/// it by rounding.
const LAST_BITS: f64 = 1e-9;

fn worst(candidate: &Candidate) -> State {
    candidate
        .outcomes
        .iter()
        .map(|outcome| outcome.state)
        .filter(|state| *state != State::NotAssessed)
        .max()
        .unwrap_or(State::Ok)
}

fn of(setting: &Setting, candidate: &Candidate) -> BreakEvens {
    let rows = rows(setting, &candidate.size.occluder);
    break_even(setting, &candidate.size, candidate.turn, &rows, None)
}

fn ranked(name: &str) -> (Arc<Setting>, Vec<Candidate>) {
    let setting = Arc::new(Setting::new(
        Arc::new(scenario(name)),
        Arc::new(shipped_rules()),
    ));
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 1,
        cancel: &never,
    };
    let list = rank(&setting, &[shipped_catalogue()], None, &work).expect("not cancelled");
    (setting, list.candidates)
}

fn names() -> Vec<&'static str> {
    files::shipped::SCENARIOS
        .iter()
        .map(|(name, _)| name.trim_end_matches(".ron"))
        .collect()
}

/// Holds one end against the grid: what is found is a change, and the grid knows
/// none before it.
fn compare(
    at: &dyn Fn(f64) -> [State; 2],
    law: &Law,
    held: State,
    one: &BreakEven,
    found: Option<&Change>,
    sign: f64,
    says: &str,
) {
    let info = one.quantity.info();
    let accuracy = accuracy(one.quantity);
    let far = found.map_or(f64::INFINITY, |change| sign * (change.at - one.value));
    if let Some(change) = found {
        assert_ne!(change.becomes, held, "{says}");
        assert!(
            at(change.at).contains(&held),
            "{says}: at its end {}",
            change.at
        );
        let beyond = change.at + sign * 2.0 * accuracy;
        assert!(
            at(beyond).contains(&change.becomes),
            "{says}: beyond {}",
            change.at
        );
    }
    for step in 1..=STEPS {
        let out = one.sd * GRID * step as f64;
        let value = one.value + sign * out;
        let within = law.quantile(TAIL)..=law.quantile(1.0 - TAIL);
        if value < info.least
            || value > info.most
            || out > far - accuracy
            || !within.contains(&value)
        {
            break;
        }
        assert!(
            at(value).contains(&held),
            "{says}: {value} is before the end"
        );
    }
}

#[test]
fn every_end_is_where_brute_search_finds_it() {
    let names = names();
    let check = |name: &&str| {
        let (setting, candidates) = ranked(name);
        for place in [0, candidates.len() / 8] {
            let candidate = &candidates[place];
            let all = of(&setting, candidate);
            if setting.not_rated().is_some() {
                // Nothing is held where nothing is rated.
                assert_eq!(all.held, State::NotAssessed);
                assert!(all.readings.is_empty(), "{name}");
                continue;
            }
            assert_eq!(all.held, worst(candidate), "{name}");
            for one in &all.readings {
                let at = |value: f64| {
                    states_at(
                        &setting,
                        &candidate.size,
                        candidate.turn,
                        one.quantity,
                        value,
                    )
                };
                let law = setting.resolved()[one.quantity.index()].law.expect("a law");
                let says = format!("{name}, {}, {}", candidate.name(), one.quantity);
                compare(&at, &law, all.held, one, one.below.as_ref(), -1.0, &says);
                compare(&at, &law, all.held, one, one.above.as_ref(), 1.0, &says);
            }
        }
    };
    let (one, other) = names.split_at(names.len() / 2);
    std::thread::scope(|scope| {
        scope.spawn(|| one.iter().for_each(check));
        other.iter().for_each(check);
    });
}

/// The chance beyond an end is that of the draws, which know nothing of laws in
/// closed form: within 4 standard errors of 8 blocks and what one draw weighs.
#[test]
fn the_chance_beyond_is_the_share_of_draws_there() {
    const DRAWS: usize = 8192;
    let mut ends = 0;
    for name in ["outlet-infant", "perimembranous-shifted-opening", "slit"] {
        let (setting, candidates) = ranked(name);
        let draws = Draws::new(&setting, DRAWS, 3).expect("draws");
        for candidate in candidates.iter().take(3) {
            for one in &of(&setting, candidate).readings {
                // Pressures and the like are no part of an anatomy.
                let Some(column) = draws.column(one.quantity) else {
                    continue;
                };
                let share = |beyond: &dyn Fn(f64) -> bool| {
                    column.iter().filter(|&&value| beyond(value)).count() as f64 / DRAWS as f64
                };
                let mut compare = |change: &Change, share: f64| {
                    let error = (change.chance * (1.0 - change.chance) / DRAWS as f64).sqrt();
                    ends += 1;
                    assert!(
                        (change.chance - share).abs() <= 4.0 * error + 1.0 / DRAWS as f64,
                        "{name}, {}: {} and {share}",
                        one.quantity,
                        change.chance
                    );
                };
                if let Some(change) = &one.below {
                    compare(change, share(&|value| value < change.at));
                }
                if let Some(change) = &one.above {
                    compare(change, share(&|value| value > change.at));
                }
            }
        }
    }
    assert!(ends > 20, "{ends}");
}

#[test]
fn the_reading_to_doubt_first_is_on_top_and_said() {
    let (setting, candidates) = ranked("outlet-infant");
    let all = of(&setting, &candidates[0]);
    assert!(
        all.readings
            .windows(2)
            .all(|pair| pair[0].chance() >= pair[1].chance())
    );
    let says = all.says_first().expect("a reading that decides");
    assert!(says.contains("chance that it is"), "{says}");
    assert!(says.contains('±'), "{says}");
}
