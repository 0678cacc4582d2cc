use crate::{Candidate, Outcome, Ranking, State, Subject, Verdict};
use measurement::Quantity;
use std::sync::Arc;

/// What the case of a lesson must show, as a contrast and never as an answer.
#[derive(Clone, Debug, PartialEq)]
pub enum Point {
    /// Going from one size to another, one check wins margin and another is worse.
    Trade {
        /// From this size.
        from: String,
        /// To this size.
        to: String,
        /// The check that wins margin.
        gains: String,
        /// The check whose state is worse.
        loses: String,
        /// The subject of that check; `None`: the worst of all.
        of: Option<Subject>,
    },
    /// A change of the case changes the state of a check.
    Turns {
        /// Of this size.
        size: String,
        /// The check.
        check: String,
        /// Its subject; `None`: the worst of all.
        of: Option<Subject>,
    },
    /// A check of a size breaks a limit or a warning.
    Breaks {
        /// The size.
        size: String,
        /// The check.
        check: String,
        /// Its subject; `None`: the worst of all.
        of: Option<Subject>,
    },
    /// Two sizes have unlike verdicts.
    Differ(String, String),
    /// No size in stock fits, not even as borderline.
    NothingFits,
    /// A size keeps every limit of geometry, and something else speaks against closing.
    Against(String),
    /// A size keeps every limit as measured, and in too few of the simulated variations.
    InBetween(String),
    /// Two readings of a quantity contradict each other.
    Disputed(Quantity),
}

impl Point {
    /// Its name in a file.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Trade { .. } => "trade",
            Self::Turns { .. } => "turns",
            Self::Breaks { .. } => "breaks",
            Self::Differ(..) => "differ",
            Self::NothingFits => "nothing_fits",
            Self::Against(_) => "against",
            Self::InBetween(_) => "in_between",
            Self::Disputed(_) => "disputed",
        }
    }

    /// The sizes that it names.
    pub fn sizes(&self) -> Vec<&str> {
        match self {
            Self::Trade { from, to, .. } => vec![from, to],
            Self::Differ(one, other) => vec![one, other],
            Self::Turns { size, .. }
            | Self::Breaks { size, .. }
            | Self::Against(size)
            | Self::InBetween(size) => vec![size],
            Self::NothingFits | Self::Disputed(_) => Vec::new(),
        }
    }

    /// The checks that it names.
    pub fn checks(&self) -> Vec<&str> {
        match self {
            Self::Trade { gains, loses, .. } => vec![gains, loses],
            Self::Turns { check, .. } | Self::Breaks { check, .. } => vec![check],
            _ => Vec::new(),
        }
    }

    /// Whether one of the cases of a lesson shows it; one that turns needs two.
    pub fn holds(&self, rankings: &[Arc<Ranking>]) -> bool {
        if let Self::Turns { size, check, of } = self {
            let states = rankings
                .iter()
                .filter_map(|one| state(one.find(size)?, check, *of));
            let states: Vec<State> = states.collect();
            return states.windows(2).any(|pair| pair[0] != pair[1]);
        }
        rankings.iter().any(|ranking| self.holds_in(ranking))
    }

    fn holds_in(&self, ranking: &Ranking) -> bool {
        self.shown(ranking).unwrap_or(false)
    }

    /// `None` where a size is not in the catalogue or a check has no limit for it.
    fn shown(&self, ranking: &Ranking) -> Option<bool> {
        Some(match self {
            Self::Trade {
                from,
                to,
                gains,
                loses,
                of,
            } => {
                let (from, to) = (ranking.find(from)?, ranking.find(to)?);
                margin(to, gains)? > margin(from, gains)?
                    && state(to, loses, *of)? > state(from, loses, *of)?
            }
            Self::Breaks { size, check, of } => {
                let state = state(ranking.find(size)?, check, *of)?;
                matches!(state, State::Caution | State::Stop)
            }
            Self::Differ(one, other) => {
                let verdict = |name: &str| Some(ranking.find(name)?.judged.verdict);
                verdict(one)? != verdict(other)?
            }
            Self::NothingFits => ranking.nothing_fits(),
            Self::Against(size) => {
                let keeps = keeps_every_limit(ranking.find(size)?);
                let is_against = !ranking.against.is_empty()
                    || !ranking.excluded.is_empty()
                    || ranking.setting.not_rated().is_some();
                keeps && is_against
            }
            Self::InBetween(size) => {
                let candidate = ranking.find(size)?;
                let chance = candidate.chances.as_ref()?.chance.value;
                keeps_every_limit(candidate) && chance < candidate.chance_limits[1]
            }
            Self::Disputed(quantity) => ranking.disputes().any(|(one, _)| one == *quantity),
            Self::Turns { .. } => false,
        })
    }
}

/// Whether no limit is broken as measured, whatever the verdict.
fn keeps_every_limit(candidate: &Candidate) -> bool {
    let mut outcomes = candidate.outcomes.iter();
    candidate.judged.verdict != Verdict::Fits && outcomes.all(|one| one.state != State::Stop)
}

fn of_check<'a>(candidate: &'a Candidate, check: &'a str) -> impl Iterator<Item = &'a Outcome> {
    let outcomes = candidate.outcomes.iter();
    outcomes.filter(move |one| one.check == check && one.value.is_some())
}

/// The state of a check for a subject, or the worst over its subjects.
fn state(candidate: &Candidate, check: &str, of: Option<Subject>) -> Option<State> {
    let outcomes = of_check(candidate, check);
    let outcomes = outcomes.filter(|one| of.is_none_or(|of| one.of == of));
    outcomes.map(|one| one.state).max()
}

/// The least margin of a check over its subjects, to its limit or else its warning.
fn margin(candidate: &Candidate, check: &str) -> Option<f64> {
    let margins = of_check(candidate, check)
        .filter_map(|one| one.margin_stop().or_else(|| one.margin_caution()));
    margins.min_by(f64::total_cmp)
}
