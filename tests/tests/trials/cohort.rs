//! Look-back over two invented cohorts: it finds the bias that was planted, and none
//! where none was.

use measurement::{Modality, Quantity};
use outside::cohort::{CASES, Plan, cohort};
use outside::sample::shipped_rules;
use sizing::look_back::{CaseRecord, LookBack};

/// How much too large every aortic rim of the second cohort is read, mm.
const PLANTED: f64 = 0.8;

fn look_back(rim_too_large_by: f64) -> LookBack {
    let plan = Plan {
        seed: 20,
        cases: CASES,
        rim_too_large_by,
    };
    let rules = shipped_rules();
    let cases = cohort(plan);
    let records: Vec<CaseRecord> = cases
        .iter()
        .map(|case| CaseRecord::of(case, "", &rules))
        .collect();
    LookBack::of(&records)
}

#[test]
fn nothing_is_proposed_where_nothing_was_planted() {
    let found = look_back(0.0);
    assert_eq!((found.cases, found.deployments), (CASES, CASES));
    assert_eq!(found.proposals().count(), 0, "{:#?}", found.readings);
    // Chances of a right program are right.
    let all = found.all.expect("answers");
    assert!(all.pairs.pairs > 200);
    let [low, high] = all.pairs.interval;
    assert!((low..=high).contains(&all.pairs.foretold), "{all:?}");
    for row in &found.answers {
        let z = row.score.and_then(|score| score.z);
        assert!(z.is_none_or(|z| z.abs() < 2.6), "{row:?}");
    }
    let held = all.reliability.iter().filter(|bin| {
        let [low, high] = bin.interval;
        (low..=high).contains(&bin.foretold)
    });
    assert!(held.count() >= 8, "{:#?}", all.reliability);
}

#[test]
fn the_planted_bias_is_proposed_and_no_other() {
    let found = look_back(PLANTED);
    let proposals: Vec<_> = found.proposals().collect();
    let [row] = proposals.as_slice() else {
        panic!("{proposals:#?}");
    };
    assert_eq!(row.of.quantities(), [Quantity::AORTIC_RIM]);
    assert_eq!(row.of.by, Some(Modality::TransoesophagealEcho));
    let agreement = row.agreement.expect("an agreement");
    let [low, high] = agreement.mean_interval;
    assert!((low..=high).contains(&PLANTED), "{agreement:?}");
    let proposed = row.proposed.expect("a proposal");
    assert!(proposed.too_large_by > 0.0 && proposed.too_large_by < agreement.mean);
    assert!((0.2..=1.0).contains(&proposed.sd), "{proposed:?}");
}

/// Two calls give the same case, so that a cohort can be spoken of.
#[test]
fn a_cohort_is_the_same_for_the_same_plan() {
    let plan = Plan {
        seed: 7,
        cases: 2,
        rim_too_large_by: 0.0,
    };
    assert_eq!(cohort(plan), cohort(plan));
    let other = cohort(Plan { seed: 8, ..plan });
    assert_ne!(cohort(plan), other);
    assert!(other.iter().all(|case| !case.procedure.follow_up.is_empty()
        || case.procedure.trials[0].came_of_it != Some(sizing::trial::CameOfIt::Released)));
}
