use super::{find, find_or_first, with_ground};
use crate::lesson::outcome::outcome_of;
use crate::lesson::question::{Choices, NoAnswer, Question, Right};
use crate::{Candidate, Outcome, Ranking, State, Verdict, device_name, words};
use std::collections::BTreeSet;

/// The choices, by index.
const GO_ON: usize = 0;
const SURGERY: usize = 1;
const LEAVE_OPEN: usize = 2;

/// Whether to go on with a size: what the program has against it, never that it is to be
/// done.
pub(super) fn stop_or_go_on(ranking: &Ranking, size: Option<&str>) -> Result<Question, NoAnswer> {
    let candidate = find_or_first(ranking, size)?;
    let name = device_name(&candidate.name());
    let (right, answer, why): (&[usize], String, String) = match stop(ranking, candidate) {
        Some(stop) => stop,
        None => (
            &[GO_ON],
            format!("No limit says stop: {name} is not ruled out."),
            with_ground(candidate),
        ),
    };
    Ok(Question {
        asks: format!("Go on with {name}, or stop?"),
        choices: Choices::One(vec![
            format!("Go on with {name}"),
            "Stop: speak about surgery".to_owned(),
            "Stop: leave the defect open for now".to_owned(),
        ]),
        right: Right::OneOf(right.iter().copied().collect()),
        answer,
        why: words::capital(&format!("{why}.")),
        shows: candidate.name(),
    })
}

/// What speaks against going on, which answers are right then, and why; `None`: no limit
/// does.
fn stop(ranking: &Ranking, candidate: &Candidate) -> Option<(&'static [usize], String, String)> {
    // What speaks against closing at all speaks against surgery as well.
    if let Some(row) = ranking.against.first() {
        return Some((
            &[LEAVE_OPEN],
            "Stop. Published guidance speaks against closing it now, by a device or by surgery."
                .to_owned(),
            format!("it says: {}", row.says),
        ));
    }
    match candidate.judged.verdict {
        Verdict::Fits | Verdict::Borderline => None,
        Verdict::NotRated => Some((
            &[LEAVE_OPEN],
            "Stop, until what is missing has been measured.".to_owned(),
            with_ground(candidate),
        )),
        Verdict::DoesNotFit => Some((
            &[SURGERY, LEAVE_OPEN],
            "Stop. That leaves surgery and waiting, and the team chooses between them.".to_owned(),
            with_ground(candidate),
        )),
    }
}

/// Whether one size is to be exchanged for another: not where a check would be worse.
pub(super) fn exchange(
    ranking: &Ranking,
    size: Option<&str>,
    in_place: &str,
) -> Result<Question, NoAnswer> {
    let candidate = find_or_first(ranking, size)?;
    let there = find(ranking, in_place)?;
    let [name, old] = [candidate, there].map(|one| device_name(&one.name()));
    let is_worse = |one: &&Outcome| {
        let before = outcome_of(there, one.check, one.of);
        matches!(one.state, State::Caution | State::Stop)
            && before.is_ok_and(|before| one.state > before.state)
    };
    let outcomes = candidate.outcomes.iter().filter(is_worse);
    let gravest = outcomes.min_by(|one, other| {
        let graver = other.state.cmp(&one.state);
        graver.then_with(|| one.by_harm(other))
    });
    let (right, answer, why) = match gravest {
        Some(worse) => (
            1,
            format!("Leave {old} as it is."),
            format!(
                "With {name}: {}. {} does not come so far.",
                worse.says_with_limit(),
                words::capital(&old)
            ),
        ),
        None => (
            0,
            format!("No limit says stop: {name} is not ruled out."),
            format!("No check is worse with {name} than with {old}."),
        ),
    };
    Ok(Question {
        asks: format!("{} is in place. Exchange it?", words::capital(&old)),
        choices: Choices::One(vec![
            format!("Exchange it for {name}"),
            format!("Leave {old} as it is"),
        ]),
        right: Right::OneOf(BTreeSet::from([right])),
        answer,
        why,
        shows: candidate.name(),
    })
}
