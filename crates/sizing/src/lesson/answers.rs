//! What the program answers to each question of a lesson.

mod choice;
mod number;
mod stop;

use super::Ask;
use super::question::{NoAnswer, Question};
use crate::{Candidate, Outcome, Ranking, State, Subject, Verdict, device_name};

impl Ask {
    /// The question with its answer by a ranked list.
    pub fn question(&self, ranking: &Ranking) -> Result<Question, NoAnswer> {
        match self {
            Self::WhichFirst(sizes) => choice::which_first(ranking, sizes),
            Self::WhichFit(sizes) => choice::which_fit(ranking, sizes),
            Self::Decides { size, within_first } => {
                choice::decides(ranking, size.as_deref(), *within_first)
            }
            Self::Value {
                check,
                of,
                size,
                within,
            } => number::value(ranking, (check, *of), size, *within),
            Self::NudgeUntil {
                reading,
                size,
                inside,
                of,
                within,
            } => number::nudge_until(ranking, reading, (inside, *of), size, *within),
            Self::Likely { size, within } => number::likely(ranking, size, *within),
            Self::StopOrGoOn { size, instead_of } => match instead_of {
                Some(in_place) => stop::exchange(ranking, size.as_deref(), in_place),
                None => stop::stop_or_go_on(ranking, size.as_deref()),
            },
        }
    }
}

fn find<'a>(ranking: &'a Ranking, name: &str) -> Result<&'a Candidate, NoAnswer> {
    ranking
        .find(name)
        .ok_or_else(|| NoAnswer::NoSize(name.to_owned()))
}

/// A size by its name, else the first in stock.
fn find_or_first<'a>(ranking: &'a Ranking, name: Option<&str>) -> Result<&'a Candidate, NoAnswer> {
    match name {
        Some(name) => find(ranking, name),
        None => ranking.on_shelf().next().ok_or(NoAnswer::NothingInStock),
    }
}

/// A size by its name on screens with its verdict and the gravest reason for it, short.
fn with_ground(candidate: &Candidate) -> String {
    let name = device_name(&candidate.name());
    let verdict = match candidate.judged.verdict {
        Verdict::Fits => return format!("{name} fits"),
        Verdict::Borderline => "is borderline",
        Verdict::DoesNotFit => "does not fit",
        Verdict::NotRated => "is not rated",
    };
    match ground(candidate) {
        Some(ground) => format!("{name} {verdict} ({ground})"),
        None => format!("{name} {verdict}"),
    }
}

/// The gravest reason for a verdict: a check with its value, or else a fact.
fn ground(candidate: &Candidate) -> Option<String> {
    let broken = match candidate.judged.verdict {
        Verdict::Fits => return None,
        Verdict::DoesNotFit => State::Stop,
        Verdict::Borderline | Verdict::NotRated => State::Caution,
    };
    // A fact of the case comes before every check.
    let because = candidate.judged.because.first()?;
    let gravest = candidate
        .outcomes
        .iter()
        .filter(|one| one.state == broken)
        .min_by(|one, other| one.by_harm(other));
    let is_first = |one: &&Outcome| one.says_with_limit() == *because;
    let said = gravest.filter(is_first).map(|one| {
        let value = shown(one);
        match one.of {
            Subject::Shape => format!("{} {value}", one.title),
            of => format!("{}, {of}: {value}", one.title),
        }
    });
    Some(said.unwrap_or_else(|| because.clone()))
}

/// A value without a sign: one under zero by what it is called.
fn shown(outcome: &Outcome) -> String {
    let amount = outcome.value_amount().unwrap_or_default();
    let below = outcome
        .below
        .filter(|_| outcome.value.is_some_and(|value| value < 0.0));
    below.map_or_else(|| amount.clone(), |below| format!("{below} {amount}"))
}
