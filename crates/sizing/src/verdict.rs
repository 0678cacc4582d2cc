#[cfg(test)]
mod tests;

use crate::house_rules::Parameter;
use crate::outcome::Outcome;
use crate::resolve::Basis;
use crate::{NotRated, Row, Setting, State, Subject, words};
use geometry::Occluder;
use measurement::Quantity;
use std::fmt;

/// What is said of a size as a whole. It is said of geometry, not of a child.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// The size keeps every limit and warning as measured and in most draws, and
    /// nothing holds it back.
    Fits,
    /// The size keeps every limit as measured, yet a warning, a doubt or a cap holds
    /// it back.
    Borderline,
    /// The case is excluded, or the size breaks a limit as measured or in too many
    /// draws.
    DoesNotFit,
    /// The case lacks what its site needs measured first, or its readings contradict
    /// each other so that no defect has them; and nothing that was measured rules the
    /// size out.
    NotRated,
}

impl Verdict {
    /// The word for it in output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fits => "fits",
            Self::Borderline => "borderline",
            Self::DoesNotFit => "does not fit",
            Self::NotRated => "not rated",
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
    if let Some(not_rated) = setting.not_rated() {
        return on_what_is_measured(setting, rows, outcomes, not_rated);
    }
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

/// Judges a size of a case that is not rated: it does not fit where it is excluded
/// or breaks a stop on values that were measured and contradict nothing.
fn on_what_is_measured(
    setting: &Setting,
    rows: &[Row],
    outcomes: &[Outcome],
    not_rated: &NotRated,
) -> Judged {
    let is_measured = |row: &Row| {
        let mut impossible = setting.contradictions().iter();
        row.unmeasured.is_empty()
            && !impossible.any(|one| one.is_impossible && one.bears_on(&row.needs))
    };
    let rows = rows.iter().zip(outcomes);
    let measured: Vec<Outcome> = rows
        .filter(|(row, _)| is_measured(row))
        .map(|(_, outcome)| outcome.clone())
        .collect();
    let stops = against(setting, &measured, None);
    if stops.is_empty() {
        Judged {
            verdict: Verdict::NotRated,
            because: not_rated.says(),
        }
    } else {
        Judged {
            verdict: Verdict::DoesNotFit,
            because: stops,
        }
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
            "a limit is broken in {} of the simulated variations",
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
                "inside every limit in {} of the simulated variations",
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
    for outcome in in_order_of_harm(outcomes, State::NotAssessed) {
        doubts.push(format!(
            "{} of {}: {}",
            outcome.title, outcome.of, outcome.says
        ));
    }
    for row in rows {
        for quantity in &row.second_choice {
            once(
                &mut doubts,
                format!("{quantity} was not measured the preferred way"),
            );
        }
        for &quantity in &row.unmeasured {
            once(&mut doubts, unmeasured(setting, quantity));
        }
    }
    doubts.extend(one_plane(setting));
    for contradiction in setting.contradictions() {
        if rows.iter().any(|row| contradiction.bears_on(&row.needs)) {
            doubts.push(contradiction.says.clone());
        }
    }
    let open = crate::exclusion::unanswered(setting);
    doubts.extend(open.map(|exclusion| format!("not answered: {}", exclusion.fact)));
    let against = setting.guidance().against.iter();
    doubts.extend(against.map(|one| format!("guidance against closing is met: {}", one.says)));
    doubts.extend(setting.held_by_trials().iter().cloned());
    doubts.extend(capped(setting, occluder));
    doubts
}

/// A defect of which one cut was measured may be longer than it.
fn one_plane(setting: &Setting) -> Option<String> {
    let mut axes = [Quantity::DEFECT_LONG_AXIS, Quantity::DEFECT_SHORT_AXIS].into_iter();
    let is_round = axes.any(|axis| matches!(setting.basis(axis), Basis::Follows(_)));
    is_round.then(|| {
        "one axis of the defect stands for both: one cut may miss the long axis, and published \
         ovals are 2:1 and more"
            .to_owned()
    })
}

/// Adds what was not said yet.
fn once(said: &mut Vec<String>, says: String) {
    if !said.contains(&says) {
        said.push(says);
    }
}

/// That a quantity was not measured, and what stands in for it.
fn unmeasured(setting: &Setting, quantity: Quantity) -> String {
    let assumed = setting.resolved()[quantity.index()].law;
    assumed.map_or_else(
        || format!("the {quantity} was not measured"),
        |law| {
            let assumed = words::assumed(law, quantity.unit());
            format!("the {quantity} was not measured: {assumed} is assumed")
        },
    )
}

/// What the house says keeps every verdict of the site, or that of such a shape, at
/// `borderline` at best.
fn capped(setting: &Setting, occluder: &Occluder) -> impl Iterator<Item = String> {
    let site = setting.case().site;
    let at = setting.circumstances();
    let mut caps = Vec::new();
    for cap in setting.rules().caps.iter().filter(|cap| cap.is_of(site)) {
        let mut when = cap.when.iter();
        if when.all(|when| when.holds(&at, occluder, Subject::Shape)) {
            caps.push(format!("borderline at best: {}", cap.says));
        }
    }
    caps.into_iter()
}

/// The sentences of a state, that of the gravest harm first.
fn said(outcomes: &[Outcome], state: State) -> impl Iterator<Item = String> {
    in_order_of_harm(outcomes, state)
        .into_iter()
        .map(Outcome::says_with_limit)
}

/// The outcomes of a state, that of the gravest harm first.
fn in_order_of_harm(outcomes: &[Outcome], state: State) -> Vec<&Outcome> {
    let mut those: Vec<&Outcome> = outcomes
        .iter()
        .filter(|outcome| outcome.state == state)
        .collect();
    those.sort_by(|one, other| one.by_harm(other));
    those
}
