use super::question::NoAnswer;
use crate::{Candidate, Outcome, Subject};

/// The outcome of a check of a size for its subject.
pub(crate) fn outcome_of<'a>(
    candidate: &'a Candidate,
    check: &str,
    of: Subject,
) -> Result<&'a Outcome, NoAnswer> {
    let mut outcomes = candidate.outcomes.iter();
    outcomes
        .find(|one| one.check == check && one.of == of)
        .ok_or_else(|| NoAnswer::NotAsked {
            check: check.to_owned(),
            of: of.label(),
            size: candidate.name(),
        })
}
