use crate::check::Row;
use crate::house_rules::Parameter;
use crate::outcome::{Outcome, State};
use crate::resolve::Basis;
use crate::{Setting, Subject, words};
use geometry::Occluder;
use measurement::{Feature, Quantity, Structure, Valve};
use std::fmt;

/// What is said of a size as a whole. It is said of geometry, not of a child.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// No limit is broken as read, and rarely one in the draws.
    Fits,
    /// Neither.
    Borderline,
    /// Excluded, a stop is broken as read, or too often in the draws.
    DoesNotFit,
}

impl Verdict {
    /// The word for it in output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fits => "fits",
            Self::Borderline => "borderline",
            Self::DoesNotFit => "does not fit",
        }
    }
}

impl fmt::Display for Verdict {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.word())
    }
}

/// A verdict and why it is no better.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// The verdict.
    pub verdict: Verdict,
    /// What keeps it from being better, worst first; empty: nothing.
    pub because: Vec<String>,
}

/// Judges a size by its outcomes and the chance that no stop is broken.
pub(crate) fn judge(
    setting: &Setting,
    occluder: &Occluder,
    rows: &[Row],
    outcomes: &[Outcome],
    chance: Option<f64>,
) -> Judged {
    let stops = against(setting, outcomes, chance);
    if !stops.is_empty() {
        return Judged {
            verdict: Verdict::DoesNotFit,
            because: stops,
        };
    }
    let doubts = doubts(setting, occluder, rows, outcomes, chance);
    let verdict = if doubts.is_empty() {
        Verdict::Fits
    } else {
        Verdict::Borderline
    };
    Judged {
        verdict,
        because: doubts,
    }
}

/// What makes a size not fit.
fn against(setting: &Setting, outcomes: &[Outcome], chance: Option<f64>) -> Vec<String> {
    let mut against: Vec<String> = crate::exclusion::excluded(setting)
        .map(|exclusion| exclusion.fact.clone())
        .collect();
    against.extend(said(outcomes, State::Stop));
    let least = setting.parameter(Parameter::ChanceDoesNotFit);
    if let Some(chance) = chance.filter(|&chance| chance < least) {
        against.push(format!(
            "a stop is broken in {} of the draws",
            words::percent(1.0 - chance)
        ));
    }
    against
}

/// What keeps a size from more than `borderline`.
fn doubts(
    setting: &Setting,
    occluder: &Occluder,
    rows: &[Row],
    outcomes: &[Outcome],
    chance: Option<f64>,
) -> Vec<String> {
    let mut doubts: Vec<String> = said(outcomes, State::Caution).collect();
    match chance {
        None => doubts.push("chances were not computed".into()),
        Some(chance) if chance < setting.parameter(Parameter::ChanceFits) => {
            doubts.push(format!(
                "no stop is broken in {} of the draws",
                words::percent(chance)
            ));
        }
        Some(_) => {}
    }
    for one in setting.disputed() {
        doubts.push(format!(
            "readings of {} contradict each other",
            one.quantity
        ));
    }
    // Cautions too: a reading taken away must never make a size fit.
    for (row, outcome) in rows.iter().zip(outcomes) {
        if outcome.state == State::NotAssessed {
            doubts.push(format!(
                "{} of {}: {}",
                outcome.title, outcome.of, outcome.says
            ));
        }
        for quantity in &row.second_choice {
            let doubt = format!("{quantity} was not read in the preferred way");
            if !doubts.contains(&doubt) {
                doubts.push(doubt);
            }
        }
    }
    doubts.extend(sag_of_a_prolapse(setting, rows));
    if occluder.discs.iter().any(Option::is_none) {
        doubts.push("no lip on one side or both".into());
    }
    doubts
}

/// The sag that is assumed where nobody read it is that of a cusp in its place: it
/// cannot speak for one that prolapses, or may.
fn sag_of_a_prolapse(setting: &Setting, rows: &[Row]) -> Option<String> {
    let sag = Quantity::find(Structure::Valve(Valve::Aortic), Feature::Sag)?;
    let is_assumed = matches!(setting.basis(sag), Basis::Assumed { .. });
    let counts = rows
        .iter()
        .any(|row| row.of == Subject::Valve(Valve::Aortic) && row.id() == "clearance");
    (setting.case().facts.prolapse.may_be() && is_assumed && counts)
        .then(|| format!("{sag} is assumed, and a cusp prolapses or may"))
}

/// The sentences of a state, that of the least margin first.
fn said(outcomes: &[Outcome], state: State) -> impl Iterator<Item = String> {
    let margin = |outcome: &Outcome| {
        let margin = match state {
            State::Stop => outcome.margin_stop(),
            _ => outcome.margin_caution(),
        };
        margin.map_or(f64::INFINITY, |margin| margin / outcome.scale)
    };
    let mut those: Vec<&Outcome> = outcomes
        .iter()
        .filter(|outcome| outcome.state == state)
        .collect();
    those.sort_by(|one, other| margin(one).total_cmp(&margin(other)));
    those.into_iter().map(Outcome::says_with_limit)
}
