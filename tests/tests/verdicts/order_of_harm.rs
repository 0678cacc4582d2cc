//! What keeps a size from being better is said in the order of harm: what would hurt
//! a child most stands first. Source: common practice, no source.

use measurement::Valve;
use outside::sample::{case_names, scenario, shipped_catalogue, shipped_rules};
use sizing::{Outcome, Setting, State, Subject, Work, rank};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// The place of a check's harm in a ventricular defect: aortic or mitral valve, AV
/// block, embolisation, left outflow, right outflow, tricuspid or pulmonary valve,
/// vessel.
fn harm(outcome: &Outcome) -> usize {
    match (outcome.check, outcome.of) {
        ("sheath_fit" | "artery_width", _) => 6,
        (_, Subject::Valve(Valve::Aortic | Valve::Mitral)) => 0,
        (_, Subject::Valve(Valve::Tricuspid | Valve::Pulmonary)) => 5,
        (check, _) if check.starts_with("av_block_") || check == "waist_ratio" => 1,
        ("waist_fit" | "length_fit" | "waist_anchoring", _) => 2,
        (check, _) if check.starts_with("rim_overlap_") => 2,
        (_, Subject::Face(geometry::Face::Left)) => 3,
        _ => 4,
    }
}

#[test]
fn reasons_stand_in_the_order_of_harm_and_a_broken_limit_before_any_warning() {
    let mut compared = 0;
    for name in case_names() {
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
        for candidate in &list.candidates {
            let of = |says: &String| {
                let outcomes = candidate.outcomes.iter();
                let mut broken =
                    outcomes.filter(|one| matches!(one.state, State::Stop | State::Caution));
                broken.find(|one| one.says_with_limit() == *says)
            };
            let reasons: Vec<(bool, usize)> = candidate
                .judged
                .because
                .iter()
                .filter_map(of)
                .map(|one| (one.state == State::Caution, harm(one)))
                .collect();
            assert!(
                reasons.is_sorted(),
                "{name}, {}: {:?}",
                candidate.name(),
                candidate.judged.because
            );
            compared += reasons.len().saturating_sub(1);
        }
    }
    assert!(compared > 1000, "{compared} pairs");
}
