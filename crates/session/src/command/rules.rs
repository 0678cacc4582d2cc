//! Commands that except a case from a rule of the house.

use super::{Change, Command, look, open};
use crate::overlay::{ExceptionForm, Overlay};
use crate::{Edit, Focus, HouseRule, Refused, Session};
use sizing::house_rules::Rule;
use sizing::{Outcome, State};

const RULES: &[Focus] = &[Focus::Rules];

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "except",
        name: "exception",
        says: "set an exception from the selected rule for this case, with the reason",
        focus: RULES,
        keys: &["enter", "e"],
        in_footer: true,
        change: except,
    },
    Command {
        id: "no_exception",
        name: "as your centre",
        says: "remove the exception; your centre's rule counts again",
        focus: RULES,
        keys: &["x", "delete"],
        in_footer: true,
        change: no_exception,
    },
    Command {
        id: "rule_of_check",
        name: "its rule",
        says: "the rule of your centre that keeps the selected device from a better verdict",
        focus: &[Focus::Bays, Focus::Ranking],
        keys: &["r"],
        in_footer: false,
        change: rule_of_check,
    },
];

/// The selected rule, and the house's own where a case may except it.
fn selected(session: &Session) -> Result<(HouseRule, Rule), Refused> {
    let selected = session.house_rule();
    let selected = selected.ok_or(Refused::NoRule)?;
    match selected.rule.clone() {
        Some(rule) => Ok((selected, rule)),
        None => Err(Refused::RuleFixed(selected.why_fixed())),
    }
}

fn except(session: &Session) -> Result<Change, Refused> {
    let (selected, rule) = selected(session)?;
    let form = ExceptionForm::new(rule, selected.exception.as_ref());
    Ok(open(session, Overlay::Exception(form)))
}

fn no_exception(session: &Session) -> Result<Change, Refused> {
    let (_, rule) = selected(session)?;
    let mut all = session.document().case().exceptions.clone();
    let count = all.len();
    let (rules, site) = (session.document().rules(), session.document().case().site);
    // A rule may be excepted by an older name of it.
    all.retain(|exception| {
        let its = rules.rule(&exception.rule, site);
        its.is_none_or(|its| its.address != rule.address)
    });
    if all.len() == count {
        return Err(Refused::NoException);
    }
    Ok(Change::Edit(Edit::Exceptions(all)))
}

fn rule_of_check(session: &Session) -> Result<Change, Refused> {
    let candidate = match session.view().focus {
        Focus::Bays => session.bay_candidate(session.view().selected[Focus::Bays]),
        _ => session.candidate(),
    };
    let candidate = candidate.ok_or(Refused::NoCandidate)?;
    let of = |state: State| candidate.outcomes.iter().find(|one| one.state == state);
    let outcome = of(State::Stop).or_else(|| of(State::Caution));
    let outcome = outcome.ok_or(Refused::BreaksNoLimit)?;
    let place = rule_broken(session, outcome).ok_or(Refused::LimitNotARule)?;
    Ok(look(session, |view| {
        view.focus = Focus::Rules;
        view.selected[Focus::Rules] = place;
    }))
}

/// Where the rule stands whose limit an outcome breaks: limits come first.
fn rule_broken(session: &Session, outcome: &Outcome) -> Option<usize> {
    let site = session.document().case().site;
    let is_stop = outcome.state == State::Stop;
    let band = if is_stop {
        outcome.stop
    } else {
        outcome.caution
    };
    let limit = band.broken(outcome.value?)?;
    let limits = session.setting().rules().limits.iter();
    let mut here = limits.filter(|row| row.sites.is_empty() || row.sites.contains(&site));
    here.position(|row| {
        let band = if is_stop { row.stop } else { row.caution };
        row.speaks_of(outcome.check, outcome.of, site)
            && [band.low, band.high].contains(&Some(limit))
    })
}
