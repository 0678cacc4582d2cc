use crate::Candidate;
use measurement::tied;

/// The group of each candidate of an ordered list, from 1: candidates of one
/// verdict whose chance is tied with that of the group's first share it.
pub(super) fn groups(ordered: &[Candidate], tie: f64) -> Vec<usize> {
    let mut group = 0;
    let mut first: Option<&Candidate> = None;
    ordered
        .iter()
        .map(|candidate| {
            if !first.is_some_and(|first| share(first, candidate, tie)) {
                first = Some(candidate);
                group += 1;
            }
            group
        })
        .collect()
}

fn share(first: &Candidate, other: &Candidate, tie: f64) -> bool {
    first.judged.verdict == other.judged.verdict
        && first
            .chances
            .as_ref()
            .zip(other.chances.as_ref())
            .is_some_and(|(first, other)| tied(&first.no_stop, &other.no_stop, tie))
}
