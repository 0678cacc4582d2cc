use super::groups::first_group;
use crate::{Candidate, Verdict};
use measurement::{BlockShares, tied};
use std::cmp::Ordering;

/// Puts candidates in the order of the list and gives the number of each one's
/// group, from 1: candidates of one group cannot be told apart by chance.
///
/// By verdict; chance of no stop; chance of no caution; least stop margin; place
/// in the catalogues. Where the chance of no stop is the same to the draw, which
/// with room all round it often is, a difference in the chance of no caution that
/// the draws cannot tell from none decides nothing, and the margin does. "Tied" is
/// not transitive, so such ties are runs: those tied with the first.
///
/// Among what does not fit the margin comes first, the nearest on top: in a hard
/// case one must see by how much. What is not rated stands in the catalogues' order
/// and is one group.
pub(super) fn order(candidates: &mut [Candidate], tie: f64) -> Vec<usize> {
    candidates.sort_by(|one, other| {
        let verdict = one.judged.verdict;
        verdict
            .cmp(&other.judged.verdict)
            .then_with(|| match verdict {
                Verdict::DoesNotFit => by_margin(one, other),
                Verdict::NotRated => one.place.cmp(&other.place),
                Verdict::Fits | Verdict::Borderline => by_chances(one, other),
            })
    });
    for alike in candidates.chunk_by_mut(are_alike) {
        if matches!(alike[0].judged.verdict, Verdict::Fits | Verdict::Borderline) {
            order_alike(alike, tie);
        }
    }
    let no_stop = |one: &Candidate| one.chances.map(|it| it.no_stop);
    let mut groups = Vec::with_capacity(candidates.len());
    let mut rest = &*candidates;
    let mut number = 0;
    while !rest.is_empty() {
        let len = first_group(rest, |first, other| {
            let verdict = first.judged.verdict;
            verdict == other.judged.verdict
                && (verdict == Verdict::NotRated || are_tied(no_stop, first, other, tie))
        });
        number += 1;
        groups.resize(groups.len() + len, number);
        rest = &rest[len..];
    }
    groups
}

/// Whether verdict and chance of no stop are the same.
fn are_alike(one: &Candidate, other: &Candidate) -> bool {
    let chance = |one: &Candidate| one.chances.map(|it| it.chance.value);
    one.judged.verdict == other.judged.verdict && chance(one) == chance(other)
}

/// Orders candidates whose chances of no stop are the same.
fn order_alike(group: &mut [Candidate], tie: f64) {
    let no_caution = |one: &Candidate| one.chances.map(|it| it.no_caution);
    group.sort_by(by_caution);
    let mut rest = group;
    while !rest.is_empty() {
        let len = first_group(rest, |first, other| are_tied(no_caution, first, other, tie));
        let (alike, others) = rest.split_at_mut(len);
        alike.sort_by(by_margin);
        rest = others;
    }
}

/// Whether shares of two candidates are tied; without draws there are none.
fn are_tied(
    shares: impl Fn(&Candidate) -> Option<BlockShares>,
    one: &Candidate,
    other: &Candidate,
    tie: f64,
) -> bool {
    shares(one)
        .zip(shares(other))
        .is_some_and(|(one, other)| tied(&one, &other, tie))
}

/// By the chance of no stop; what is equal to the last draw, by all that follows.
fn by_chances(one: &Candidate, other: &Candidate) -> Ordering {
    let chance = |one: &Candidate| one.chances.map_or(0.0, |it| it.chance.value);
    larger_first(chance(one), chance(other)).then_with(|| by_caution(one, other))
}

fn by_caution(one: &Candidate, other: &Candidate) -> Ordering {
    let chance = |one: &Candidate| one.chances.map_or(0.0, |it| it.chance_no_caution.value);
    larger_first(chance(one), chance(other)).then_with(|| by_margin(one, other))
}

/// By the least margin; where no stop was assessed, none is promised.
fn by_margin(one: &Candidate, other: &Candidate) -> Ordering {
    let margin = |one: &Candidate| one.least_margin().unwrap_or(f64::NEG_INFINITY);
    larger_first(margin(one), margin(other)).then(one.place.cmp(&other.place))
}

fn larger_first(one: f64, other: f64) -> Ordering {
    other.total_cmp(&one)
}
