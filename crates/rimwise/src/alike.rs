//! In which checks candidates differ, as they are shown.

use crate::told::{self, told_before};
use sizing::{Candidate, Outcome, Subject};
use std::cmp::Ordering;

/// A check with what it is asked of.
pub(crate) type Asked = (&'static str, Subject);

/// What a candidate says to a check.
pub(crate) fn outcome(candidate: &Candidate, asked: Asked) -> Option<&Outcome> {
    let mut outcomes = candidate.outcomes.iter();
    outcomes.find(|one| (one.check, one.of) == asked)
}

/// Whether candidates say the same to a check: the same state, and the same value
/// as it is shown. One alone has nothing to be like.
pub(crate) fn are_alike(candidates: &[&Candidate], asked: Asked) -> bool {
    let shown = |candidate: &&Candidate| {
        let outcome = outcome(candidate, asked)?;
        Some((outcome.state, told::value_with_name(outcome)))
    };
    let mut all = candidates.iter().map(shown);
    let first = all.next();
    candidates.len() > 1 && all.all(|other| Some(&other) == first.as_ref())
}

/// The checks in which candidates differ, the gravest first; and in how many they
/// are alike.
pub(crate) fn differing(candidates: &[&Candidate]) -> (Vec<Asked>, usize) {
    let mut asked: Vec<Asked> = Vec::new();
    for outcome in candidates.iter().flat_map(|one| &one.outcomes) {
        if !asked.contains(&(outcome.check, outcome.of)) {
            asked.push((outcome.check, outcome.of));
        }
    }
    let all = asked.len();
    asked.retain(|&asked| !are_alike(candidates, asked));
    let gravest = |asked: Asked| {
        let outcomes = candidates.iter().filter_map(|one| outcome(one, asked));
        outcomes.min_by(|one, other| told_before(one, other))
    };
    asked.sort_by(|one, other| match (gravest(*one), gravest(*other)) {
        (Some(one), Some(other)) => told_before(one, other),
        _ => Ordering::Equal,
    });
    let alike = all - asked.len();
    (asked, alike)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tui::test_candidates;

    #[test]
    fn a_candidate_is_like_itself_and_differs_from_another_in_what_is_shown() {
        let all = test_candidates();
        let (one, other) = (&all[0], &all[all.len() - 1]);
        let (differ, alike) = differing(&[one, one]);
        assert_eq!((differ.len(), alike), (0, one.outcomes.len()));
        let (differ, alike) = differing(&[one, other]);
        assert!(!differ.is_empty());
        for &asked in &differ {
            let said = [one, other]
                .map(|it| outcome(it, asked).map(|one| (one.state, told::value_with_name(one))));
            assert_ne!(said[0], said[1], "{asked:?}");
        }
        assert!(differ.len() + alike >= one.outcomes.len());
        assert!(!are_alike(&[one], differ[0]), "one alone is like nothing");
    }
}
