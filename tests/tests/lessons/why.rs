//! Each sentence of the walk through the neighbours of a size is true of the neighbour
//! when that is worked out anew.

use outside::sample::{as_read, scenario, shipped_catalogue, shipped_rules};
use sizing::why::{DimensionStep, WhyStep, why};
use sizing::{Candidate, Outcome, Ranking, Setting, State, Work, rank};
use std::collections::BTreeSet;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

const SCENARIOS: [&str; 6] = [
    "outlet-infant",
    "three-neighbours",
    "mid-muscular",
    "bundle",
    "thick-wall",
    "nothing-fits",
];

/// The list as measured.
fn ranked(name: &str) -> Ranking {
    let case = Arc::new(scenario(name));
    let setting = Arc::new(Setting::new(case, Arc::new(shipped_rules())));
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    rank(&setting, &[shipped_catalogue()], None, &work).expect("not cancelled")
}

fn state(of: &Candidate, step: &WhyStep) -> Option<State> {
    let turned = step.turned?;
    let outcome = of
        .outcomes
        .iter()
        .find(|one| one.check == turned.check && one.of == turned.of);
    outcome.map(|one| one.state)
}

/// The states of every check that was assessed, for two sizes.
fn states<'a>(
    own: &'a Candidate,
    other: &'a Candidate,
) -> impl Iterator<Item = (&'a Outcome, &'a Outcome)> {
    other.outcomes.iter().filter_map(|to| {
        let mut own = own.outcomes.iter();
        let from = own.find(|one| one.check == to.check && one.of == to.of)?;
        let are_known = from.value.is_some() && to.value.is_some();
        are_known.then_some((from, to))
    })
}

/// One sentence: what it says is so, and nothing worse is left unsaid.
fn is_true(name: &str, own: &Candidate, step: &WhyStep) {
    let Some(neighbour) = &step.candidate else {
        assert!(step.says.contains("no such form"), "{}", step.says);
        return;
    };
    // Another way to the same size: a case of its own, at the turn that was found.
    let anew = as_read(
        scenario(name),
        shipped_rules(),
        &neighbour.size,
        neighbour.turn,
    );
    assert_eq!(anew.outcomes, neighbour.outcomes, "{name}: {}", step.says);
    let says = step.says.to_lowercase();
    match step.turned {
        Some(turned) => {
            assert_eq!(state(own, step), Some(turned.from), "{says}");
            assert_eq!(state(&anew, step), Some(turned.to), "{says}");
            let outcome = anew
                .outcomes
                .iter()
                .find(|one| one.check == turned.check && one.of == turned.of)
                .expect("the check");
            assert!(
                says.contains(&outcome.says_with_limit().to_lowercase()),
                "{says}"
            );
            let over = turned.to.max(turned.from) == State::Stop;
            assert_eq!(says.contains("over th"), over, "{says}");
            let worst = states(own, &anew)
                .filter(|(from, to)| to.state > from.state)
                .map(|(_, to)| to.state)
                .max();
            if let Some(worst) = worst {
                assert_eq!(turned.to, worst, "{name}: {says}");
            }
        }
        None if step.way == DimensionStep::AsItIs => {}
        None => {
            assert!(says.contains("no limit and no warning turns"), "{says}");
            let mut all = states(own, &anew);
            assert!(
                all.all(|(from, to)| from.state == to.state),
                "{name}: {says}"
            );
        }
    }
}

/// One size of every verdict that a scenario has: the first, the last and one between.
#[test]
fn every_sentence_of_why_is_true_by_a_recomputed_neighbour() {
    let catalogue = shipped_catalogue();
    let (mut walked, mut turned, mut verdicts) = (0, 0, BTreeSet::new());
    for name in SCENARIOS {
        let ranking = ranked(name);
        let mut seen = BTreeSet::new();
        let count = ranking.candidates.len();
        for (index, own) in ranking.candidates.iter().enumerate() {
            let verdict = own.judged.verdict;
            let is_new = seen.insert(verdict);
            if !is_new && index % (count / 6) != 0 {
                continue;
            }
            verdicts.insert(verdict);
            let mut shapes = catalogue.shapes.iter();
            let shape = shapes.find(|one| one.id == own.shape).expect("a shape");
            let steps = why(&ranking.setting, shape, &own.size, own.place);
            assert!(steps.iter().map(|step| step.way).eq(DimensionStep::ALL));
            for step in &steps {
                is_true(name, own, step);
                turned += usize::from(step.turned.is_some());
                walked += 1;
            }
        }
    }
    assert!(verdicts.len() >= 2, "{verdicts:?}");
    assert!(walked > 200 && turned > 60, "{walked} steps, {turned} turn");
}

/// The next waist up and down are those of the catalogue, where it has them.
#[test]
fn neighbours_are_the_next_sizes_of_the_catalogue() {
    let ranking = ranked("outlet-infant");
    let catalogue = shipped_catalogue();
    let mut shapes = catalogue.shapes.iter();
    let shape = shapes.find(|one| one.id == "even-narrow").expect("a shape");
    let own = ranking.find("even-narrow/5x3").expect("a size");
    let steps = why(&ranking.setting, shape, &own.size, own.place);
    let label = |way: DimensionStep| {
        let step = steps.iter().find(|step| step.way == way).expect("a step");
        let candidate = step.candidate.as_ref().expect("a neighbour");
        (candidate.size.label.clone(), step.is_made)
    };
    for way in [DimensionStep::WiderWaist, DimensionStep::NarrowerWaist] {
        let (label, is_made) = label(way);
        assert!(
            is_made && label.ends_with("x3") && label != "5x3",
            "{label}"
        );
    }
    for way in [DimensionStep::WiderDisc, DimensionStep::NarrowerDisc] {
        assert!(!label(way).1, "nobody need make it");
    }
}
