//! What is not measured never makes a size look better: the properties that the
//! design states, over every scenario and over random cases.
//!
//! `RIMWISE_FULL=1` takes every size and 1024 draws, and prints how many verdicts
//! became better; otherwise every ninth size and few draws.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use measurement::{Feature, Quantity, Reading, Structure};
use outside::random::{any_case, any_size};
use outside::sample::{case_names, scenario, shipped_catalogue, shipped_rules};
use proptest::prelude::*;
use sizing::house_rules::Need;
use sizing::{
    Candidate, Case, Catalogue, Draws, HouseRules, Ranking, Setting, Shape, Size, Verdict, Work,
    engine::{Engine, Fast},
    rank,
};
use std::collections::BTreeSet;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Whether the tests run at full strength.
fn is_full() -> bool {
    std::env::var_os("RIMWISE_FULL").is_some()
}

fn ranked(case: Case, rules: &Arc<HouseRules>, catalogue: &Catalogue, draws: usize) -> Ranking {
    let setting = Arc::new(Setting::new(Arc::new(case), Arc::clone(rules)));
    let counter = Fast.prepare(Draws::new(&setting, draws, 1).expect("draws"));
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    rank(
        &setting,
        std::slice::from_ref(catalogue),
        Some(&*counter),
        &work,
    )
    .expect("not cancelled")
}

/// The shipped catalogue, or every ninth size of it.
fn catalogue() -> Catalogue {
    const EVERY: usize = 9;
    let mut catalogue = shipped_catalogue();
    if !is_full() {
        let mut place = 0;
        for shape in &mut catalogue.shapes {
            shape.sizes.retain(|_| {
                place += 1;
                place % EVERY == 0
            });
        }
    }
    catalogue
}

fn only(size: Size) -> Catalogue {
    Catalogue {
        title: "one".into(),
        shapes: vec![Shape {
            id: "one".into(),
            name: "one".into(),
            about: String::new(),
            sizes: vec![size],
        }],
        put_aside: BTreeSet::new(),
    }
}

/// The quantities that were read of a case and bear on the ranking.
fn quantities(case: &Case) -> Vec<Quantity> {
    let bears = |one: &Quantity| case.readings.iter().any(|it| it.quantity == *one);
    Quantity::all()
        .filter(|one| !one.is_for_workup_alone() && bears(one))
        .collect()
}

fn without(case: &Case, quantity: Quantity) -> Case {
    let mut less = case.clone();
    less.readings.retain(|one| one.quantity != quantity);
    less
}

/// What keeps its default and its doubt and does not hold: the design's list, and
/// the second diameter of an annulus, which is then taken as round.
fn is_exception(case: &Case, quantity: Quantity) -> bool {
    let info = quantity.info();
    match info.feature {
        Feature::ClockPosition
        | Feature::AnnulusAngle
        | Feature::Rotation
        | Feature::DiameterAcross => true,
        Feature::CuspDepth => !case.facts.prolapse.may_be(),
        _ => matches!(
            info.structure,
            Structure::LeftOpening | Structure::RightOpening
        ),
    }
}

/// Whether a quantity must be measured first at the site of a case.
fn is_first(case: &Case, rules: &HouseRules, quantity: Quantity) -> bool {
    let mut rows = rules.measured_first.iter();
    rows.any(|row| row.is_asked_at(case.site) && row.all.contains(&Need::Reading(quantity)))
}

/// Says where a removal did what it must not; `None`: nowhere.
fn wrong(before: &Candidate, after: &Candidate, is_first: bool) -> Option<&'static str> {
    let (was, is) = (before.judged.verdict, after.judged.verdict);
    if is == Verdict::Fits && was != Verdict::Fits {
        return Some("fits now");
    }
    let is_left = is == Verdict::NotRated || (is == Verdict::DoesNotFit && was == is);
    (is_first && !is_left).then_some("is rated without what is measured first")
}

#[test]
fn without_the_last_reading_of_a_quantity_no_size_of_a_scenario_begins_to_fit() {
    const FEW: usize = 64;
    const MANY: usize = 1024;
    let draws = if is_full() { MANY } else { FEW };
    let (rules, catalogue) = (Arc::new(shipped_rules()), catalogue());
    let (mut asked, mut better, mut fits) = (0, 0, 0);
    let mut faults = Vec::new();
    for name in case_names() {
        let case = scenario(name);
        let before = ranked(case.clone(), &rules, &catalogue, draws);
        for quantity in quantities(&case) {
            let after = ranked(without(&case, quantity), &rules, &catalogue, draws);
            let is_first = is_first(&case, &rules, quantity);
            for one in &before.candidates {
                let other = after.find(&one.name()).expect("the same sizes");
                asked += 1;
                better += usize::from(other.judged.verdict < one.judged.verdict);
                let fault = wrong(one, other, is_first);
                if is_exception(&case, quantity) {
                    continue;
                }
                fits += usize::from(fault.is_some());
                if let Some(fault) = fault {
                    faults.push(format!(
                        "{name} without {}: {} {fault}",
                        quantity.address(),
                        one.name()
                    ));
                }
            }
        }
    }
    println!("{better} of {asked} verdicts better, {fits} against the properties");
    assert!(
        faults.is_empty(),
        "{} faults, {:#?}",
        faults.len(),
        &faults[..faults.len().min(20)]
    );
}

/// How much wider a doubt is made.
const WIDER: f64 = 1.6;

/// Whether one size begins to fit where a doubt is made wider, and its chance is
/// further from that of what fits than its sampling error can take it.
fn begins_to_fit(before: &Candidate, after: &Candidate, least: f64) -> bool {
    const ERRORS: f64 = 3.0;
    let (was, is) = (before.judged.verdict, after.judged.verdict);
    let sure = |one: &Candidate| {
        one.chances
            .is_some_and(|it| (it.chance.value - least).abs() > ERRORS * it.chance.error)
    };
    is == Verdict::Fits && was != Verdict::Fits && sure(before) && sure(after)
}

/// The only counting reading of a quantity.
fn only_reading(case: &Case, quantity: Quantity) -> Option<usize> {
    let of = |(_, one): &(usize, &Reading)| one.quantity == quantity && one.set_aside.is_none();
    let mut all = case.readings.iter().enumerate().filter(of);
    let (index, _) = all.next()?;
    all.next().is_none().then_some(index)
}

fn wider(case: &Case, index: usize, rules: &HouseRules) -> Case {
    let mut wide = case.clone();
    let reading = &mut wide.readings[index];
    let sd = reading
        .sd
        .unwrap_or_else(|| sizing::resolve::assumed_sd(reading, rules));
    reading.sd = Some(WIDER * sd);
    wide
}

#[test]
fn with_a_wider_doubt_no_size_of_a_scenario_begins_to_fit() {
    const FEW: usize = 128;
    const MANY: usize = 1024;
    let draws = if is_full() { MANY } else { FEW };
    let (rules, catalogue) = (Arc::new(shipped_rules()), catalogue());
    let least = rules.parameter(sizing::house_rules::Parameter::ChanceFits);
    // A fast run asks every third quantity.
    let every = if is_full() { 1 } else { 3 };
    for name in case_names() {
        let case = scenario(name);
        let before = ranked(case.clone(), &rules, &catalogue, draws);
        for quantity in quantities(&case).into_iter().step_by(every) {
            let Some(index) = only_reading(&case, quantity) else {
                continue;
            };
            let after = ranked(wider(&case, index, &rules), &rules, &catalogue, draws);
            for one in &before.candidates {
                let other = after.find(&one.name()).expect("the same sizes");
                assert!(
                    !begins_to_fit(one, other, least),
                    "{name} with a wider doubt of {}: {} fits now",
                    quantity.address(),
                    one.name()
                );
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn a_random_case_never_fits_better_for_knowing_less(
        case in any_case(), size in any_size(), gone in any::<prop::sample::Index>(),
    ) {
        const DRAWS: usize = 128;
        let (rules, catalogue) = (Arc::new(shipped_rules()), only(size));
        let all = quantities(&case);
        let quantity = all[gone.index(all.len())];
        let before = ranked(case.clone(), &rules, &catalogue, DRAWS);
        let after = ranked(without(&case, quantity), &rules, &catalogue, DRAWS);
        if !is_exception(&case, quantity) {
            let is_first = is_first(&case, &rules, quantity);
            let fault = wrong(&before.candidates[0], &after.candidates[0], is_first);
            prop_assert_eq!(fault, None, "without {}", quantity.address());
        }
        if let Some(index) = only_reading(&case, quantity) {
            let after = ranked(wider(&case, index, &rules), &rules, &catalogue, DRAWS);
            let least = rules.parameter(sizing::house_rules::Parameter::ChanceFits);
            prop_assert!(!begins_to_fit(&before.candidates[0], &after.candidates[0], least));
        }
    }
}
