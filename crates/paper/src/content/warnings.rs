use super::SheetRequest;
use crate::{Line, Mark, Section, Topic};
use sizing::{Candidate, Harm, Outcome, State, device_name};
use std::cmp::Ordering;

/// Something told of sizes, with what it is ordered by.
struct Warning<'a> {
    outcome: Option<&'a Outcome>,
    says: String,
    /// The names of the sizes that it is true of.
    of: Vec<String>,
}

impl SheetRequest<'_> {
    /// Broken limits and warnings of the sizes drawn, the gravest harm first; what is
    /// true of several is said once.
    pub(super) fn warnings(&self) -> Section {
        let mut all: Vec<Warning> = Vec::new();
        for &candidate in &self.shown {
            let outcomes = candidate.outcomes.iter();
            let broken = outcomes.filter(|one| one.state != State::Ok);
            let said: Vec<(Option<&Outcome>, String)> =
                broken.map(|one| (Some(one), told(one))).collect();
            let others = others(candidate, &said);
            for (outcome, says) in said.into_iter().chain(others) {
                let name = device_name(&candidate.name());
                match all.iter_mut().find(|known| known.says == says) {
                    Some(known) => known.of.push(name),
                    None => all.push(Warning {
                        outcome,
                        says,
                        of: vec![name],
                    }),
                }
            }
        }
        all.sort_by(Warning::told_before);
        let lines = all.iter().map(|warning| self.warning(warning)).collect();
        let heading = "Warnings, the gravest first";
        let mut section = Section::lines(Topic::Warnings, heading, lines);
        if section.is_empty() {
            let says = "No limit or warning is broken on the values as measured.";
            section = Section::lines(Topic::Warnings, heading, vec![Line::plain(says)]);
        }
        section
    }

    fn warning(&self, warning: &Warning) -> Line {
        let (mark, word) = match warning.outcome.map(|outcome| outcome.state) {
            Some(State::Stop) => (Some(Mark::Beyond), "Beyond a limit · "),
            Some(State::Caution) => (Some(Mark::Warning), "Warning · "),
            Some(State::NotAssessed) => (Some(Mark::NotKnown), "Not assessed · "),
            Some(State::Ok) | None => (None, ""),
        };
        let of = if warning.of.len() == self.shown.len() && self.shown.len() > 1 {
            String::new()
        } else {
            format!("{}: ", warning.of.join(", "))
        };
        let text = self.in_column(&format!("{word}{of}{}", warning.says), 4);
        let harm = warning.outcome.map(|outcome| outcome.harm);
        Line {
            mark,
            text,
            // AV block is never the line that is cut.
            is_kept: harm == Some(Harm::AvBlock),
        }
    }
}

impl Warning<'_> {
    fn told_before(&self, other: &Self) -> Ordering {
        let gravity = |one: &Self| match one.outcome.map(|outcome| outcome.state) {
            Some(State::Stop) => 0,
            Some(State::Caution) => 1,
            None => 2,
            Some(State::NotAssessed) => 3,
            Some(State::Ok) => 4,
        };
        let graver = gravity(self).cmp(&gravity(other));
        graver.then_with(|| match (self.outcome, other.outcome) {
            (Some(one), Some(other)) => one.by_harm(other),
            _ => Ordering::Equal,
        })
    }
}

/// An outcome with its limit and what is always said beside it.
fn told(outcome: &Outcome) -> String {
    let says = match outcome.state {
        State::NotAssessed => format!("{} of {}: {}", outcome.title, outcome.of, outcome.says),
        _ => outcome.says_with_limit(),
    };
    match outcome.aside {
        Some(aside) => format!("{says} ({aside})"),
        None => says,
    }
}

/// Why a size is judged no better, besides its outcomes.
fn others<'a>(
    candidate: &'a Candidate,
    said: &[(Option<&'a Outcome>, String)],
) -> Vec<(Option<&'a Outcome>, String)> {
    let is_said = |because: &String| {
        let mut outcomes = said.iter();
        outcomes.any(|(_, says)| says.starts_with(because.as_str()))
    };
    let because = candidate.judged.because.iter();
    because
        .filter(|because| !is_said(because))
        .map(|because| (None, because.clone()))
        .collect()
}
