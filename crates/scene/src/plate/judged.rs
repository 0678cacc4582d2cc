//! What the engine says of the lengths in a picture.

use crate::stroke::Role;
use crate::words;
use geometry::{Face, Mm, PerFace};
use measurement::Valve;
use sizing::{Candidate, Outcome, State, Subject, Verdict};

/// The outcomes of one size that a picture tells of.
#[derive(Clone, Copy, Debug)]
pub(super) struct Judgement<'a>(pub(super) &'a Candidate);

impl<'a> Judgement<'a> {
    fn find(self, ids: &[&str], of: Subject) -> Option<&'a Outcome> {
        let outcomes = &self.0.outcomes;
        outcomes
            .iter()
            .find(|one| one.of == of && ids.contains(&one.check))
    }

    pub(super) fn clearance(self, valve: Valve) -> Option<&'a Outcome> {
        self.find(&["clearance"], Subject::Valve(valve))
    }

    /// The least rim overlap away from the hinges of a face.
    pub(super) fn rim_overlap(self, face: Face) -> Option<&'a Outcome> {
        self.find(
            &[PerFace::new("rim_overlap_left", "rim_overlap_right")[face]],
            Subject::Face(face),
        )
    }

    /// The open share of the outflow tract of a face.
    pub(super) fn open_share(self, face: Face) -> Option<&'a Outcome> {
        let ids = PerFace::new("outflow_share_left", "outflow_share_right");
        self.find(&[ids[face]], Subject::Face(face))
    }
}

/// The role of a value by its state; a value that no limit speaks of is a plain
/// dimension.
pub(super) fn role(outcome: Option<&Outcome>) -> Role {
    match outcome.map(|outcome| outcome.state) {
        Some(State::Stop) => Role::Beyond,
        Some(State::Caution) => Role::Warning,
        Some(State::Ok) => Role::Ok,
        Some(State::NotAssessed) | None => Role::Dimension,
    }
}

/// The role of a verdict.
pub(super) const fn verdict_role(verdict: Verdict) -> Role {
    match verdict {
        Verdict::Fits => Role::Ok,
        Verdict::Borderline => Role::Warning,
        Verdict::DoesNotFit => Role::Beyond,
        Verdict::NotRated => Role::Dimension,
    }
}

/// What stands before a value that is not well, so that colour alone never tells:
/// `!` within a warning margin, `×` beyond a limit.
pub(super) fn mark(outcome: Option<&Outcome>) -> &'static str {
    match outcome.map(|outcome| outcome.state) {
        Some(State::Stop) => "× ",
        Some(State::Caution) => "! ",
        _ => "",
    }
}

/// A value as it is shown elsewhere, with its unit.
pub(super) fn value(outcome: &Outcome) -> Option<String> {
    outcome.value_amount()
}

/// A least rim overlap in words; below 0 the disc leaves the edge bare.
pub(super) fn overlap_words(least: Mm, outcome: Option<&Outcome>) -> String {
    let length = outcome
        .and_then(value)
        .unwrap_or_else(|| format!("{} mm", words::tenths(least)));
    if least < 0.0 {
        let length = length.trim_start_matches('-');
        format!("{length} of the edge bare")
    } else {
        format!("rim overlap {length}")
    }
}
