mod settled;
#[cfg(test)]
mod tests;

use crate::house_rules::Exclusion;
use crate::{Answer, ResolvedCase};
use settled::holds;

/// How it stands with an exclusion: a state of the patient. What is known of the
/// case settles it, whatever was answered; of two the graver counts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExclusionState {
    /// What counts.
    pub answer: Answer,
    /// What was answered to the question itself.
    pub typed: Answer,
    /// What readings, findings and facts make of it.
    pub settled: Answer,
    /// What is known that settles it, each in words; empty where nothing does.
    pub because: Vec<String>,
}

impl ExclusionState {
    /// Whether what was answered is against what is known.
    pub fn is_denied(&self) -> bool {
        use Answer::{No, Yes};
        matches!((self.typed, self.settled), (No, Yes) | (Yes, No))
    }
}

/// How it stands with an exclusion.
pub fn answered(resolved: &ResolvedCase, exclusion: &Exclusion) -> ExclusionState {
    let (case, guidance) = (resolved.case(), resolved.guidance());
    let given = case.exclusions.get(&exclusion.id).copied();
    let typed = given.unwrap_or_default();
    let is_met = |settles| holds(settles, case, guidance) == Answer::Yes;
    let (settled, settles) = if is_met(&exclusion.yes_if) {
        (Answer::Yes, Some(&exclusion.yes_if))
    } else if is_met(&exclusion.no_if) {
        (Answer::No, Some(&exclusion.no_if))
    } else {
        (Answer::Unknown, None)
    };
    let mut because: Vec<String> = Vec::new();
    for one in settles.into_iter().flatten().flatten() {
        let says = one.says(case, guidance);
        if one.holds(case, guidance) == Answer::Yes && !because.contains(&says) {
            because.push(says);
        }
    }
    ExclusionState {
        answer: match (typed, settled) {
            (Answer::Yes, _) => Answer::Yes,
            (typed, Answer::Unknown) => typed,
            (_, settled) => settled,
        },
        typed,
        settled,
        because,
    }
}

/// The exclusions that hold for a case: each stops every shape before any
/// geometry. A yes counts whether or not the site is one that asks for it.
pub fn excluded(resolved: &ResolvedCase) -> impl Iterator<Item = &Exclusion> {
    let all = resolved.rules().exclusions.iter();
    all.filter(|exclusion| answered(resolved, exclusion).answer == Answer::Yes)
}

/// The exclusions asked for the site that nothing has answered.
pub fn unanswered(resolved: &ResolvedCase) -> impl Iterator<Item = &Exclusion> {
    let asked = resolved.rules().exclusions_for(resolved.case().site);
    asked.filter(|exclusion| answered(resolved, exclusion).answer == Answer::Unknown)
}
