//! In which checks candidates differ, as they are shown.

use crate::told;
use sizing::{Candidate, Outcome, Subject};

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tui::test_candidates;

    #[test]
    fn a_candidate_is_like_itself_and_differs_from_another_in_what_is_shown() {
        let all = test_candidates();
        let (one, other) = (&all[0], &all[all.len() - 1]);
        let asked = |it: &Outcome| (it.check, it.of);
        assert!(
            one.outcomes
                .iter()
                .all(|it| are_alike(&[one, one], asked(it)))
        );
        let differ = one
            .outcomes
            .iter()
            .find(|it| !are_alike(&[one, other], asked(it)));
        let differ = asked(differ.unwrap());
        let said = [one, other]
            .map(|it| outcome(it, differ).map(|one| (one.state, told::value_with_name(one))));
        assert_ne!(said[0], said[1], "{differ:?}");
        assert!(!are_alike(&[one], differ), "one alone is like nothing");
    }
}
