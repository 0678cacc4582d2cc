use crate::{Candidate, Verdict};
use std::cmp::Ordering;

/// The order of the list: verdict; chance of no stop; chance of no caution; least
/// stop margin; catalogue order. Among what does not fit the margin comes first,
/// the nearest on top: in a hard case one must see by how much.
pub(super) fn order(one: &Candidate, other: &Candidate) -> Ordering {
    let by_margin = larger_first(margin(one), margin(other));
    let by_chance = chances(one, other);
    one.judged
        .verdict
        .cmp(&other.judged.verdict)
        .then(match one.judged.verdict {
            Verdict::DoesNotFit => by_margin.then(by_chance),
            Verdict::Fits | Verdict::Tight => by_chance.then(by_margin),
        })
        .then(one.place.cmp(&other.place))
}

fn chances(one: &Candidate, other: &Candidate) -> Ordering {
    let Some((one, other)) = one.chances.as_ref().zip(other.chances.as_ref()) else {
        return Ordering::Equal;
    };
    larger_first(one.chance.value, other.chance.value)
        .then(larger_first(one.no_caution.value, other.no_caution.value))
}

/// The least margin; where no stop was assessed, none is promised.
fn margin(candidate: &Candidate) -> f64 {
    candidate.least_margin().unwrap_or(f64::NEG_INFINITY)
}

fn larger_first(one: f64, other: f64) -> Ordering {
    other.total_cmp(&one)
}
