//! What must be known before any size of a case is rated.

use crate::house_rules::Need;
use crate::resolve::{Basis, neighbour_of};
use crate::{Answer, Contradiction, HouseRules, ResolvedCase, answered};
use measurement::{Quantity, Structure};

/// Why no size of a case is rated.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NotRated {
    /// What has not been measured; of several that each would do, the first.
    pub unmeasured: Vec<Quantity>,
    /// The questions that are not answered, as ends of sentences.
    pub unanswered: Vec<String>,
    /// What contradicts itself so that no defect has this geometry.
    pub impossible: Vec<String>,
}

impl NotRated {
    /// Looks for what keeps a case from being rated; `None`: it is rated.
    pub(crate) fn find(resolved: &ResolvedCase, contradictions: &[Contradiction]) -> Option<Self> {
        let rules = resolved.rules();
        let mut found = Self::default();
        let is_met = |need: &Need| is_met(resolved, need);
        for row in &rules.measured_first {
            if !row.is_asked_at(resolved.case().site) {
                continue;
            }
            for need in row.all.iter().filter(|need| !is_met(need)) {
                found.add(rules, need);
            }
            if !row.one_of.iter().any(is_met)
                && let Some(first) = row.one_of.first()
            {
                found.add(rules, first);
            }
        }
        let impossible = contradictions.iter().filter(|one| one.is_impossible);
        found.impossible = impossible.map(|one| one.says.clone()).collect();
        (found != Self::default()).then_some(found)
    }

    fn add(&mut self, rules: &HouseRules, need: &Need) {
        let question = match need {
            Need::Reading(quantity) => {
                if !self.unmeasured.contains(quantity) {
                    self.unmeasured.push(*quantity);
                }
                return;
            }
            Need::Fact(fact) => fact.label().to_owned(),
            Need::NoProlapse => "that no cusp prolapses".to_owned(),
            Need::Exclusion(id) => {
                let mut all = rules.exclusions.iter();
                let fact = all.find(|one| one.id == *id).map(|one| one.fact.as_str());
                format!("whether {}", fact.unwrap_or(id))
            }
        };
        if !self.unanswered.contains(&question) {
            self.unanswered.push(question);
        }
    }

    /// What is missing or impossible, a phrase for each kind. Labels may hold a comma,
    /// so that what is listed stands between semicolons.
    pub fn says(&self) -> Vec<String> {
        let mut says = Vec::new();
        if !self.unmeasured.is_empty() {
            let named: Vec<&str> = self.unmeasured.iter().map(|one| one.label()).collect();
            says.push(format!("not measured: {}", named.join("; ")));
        }
        if !self.unanswered.is_empty() {
            says.push(format!("not answered: {}", self.unanswered.join("; ")));
        }
        says.extend(self.impossible.iter().cloned());
        says
    }

    /// The same as sentences.
    pub fn sentences(&self) -> String {
        let each = self.says().into_iter().map(|says| {
            let mut letters = says.chars();
            let first: String = letters
                .next()
                .into_iter()
                .flat_map(char::to_uppercase)
                .collect();
            format!("{first}{}.", letters.as_str())
        });
        each.collect::<Vec<_>>().join(" ")
    }
}

fn is_met(resolved: &ResolvedCase, need: &Need) -> bool {
    let case = resolved.case();
    match need {
        Need::Reading(quantity) => {
            let neighbour = neighbour_of(quantity.info().structure);
            neighbour.is_some_and(|neighbour| case.is_absent(neighbour))
                || is_measured(resolved, *quantity)
        }
        Need::Fact(fact) => !case.facts.get(*fact).is_unknown(),
        Need::NoProlapse => !case.facts.prolapse.may_be(),
        Need::Exclusion(id) => {
            let mut all = resolved.rules().exclusions.iter();
            all.find(|one| one.id == *id)
                .is_some_and(|one| answered(resolved, one).answer != Answer::Unknown)
        }
    }
}

/// Whether a quantity was measured. One axis of a defect said to be round stands for
/// the other. With a prolapse the width of a jet is no axis of the defect, yet the
/// axes count as measured: what needs them says that the cusp hides the defect.
fn is_measured(resolved: &ResolvedCase, quantity: Quantity) -> bool {
    let is_axis = quantity.info().structure == Structure::Defect;
    match resolved.basis(quantity) {
        Basis::Read(_) => true,
        Basis::Follows(other) => is_axis && is_measured(resolved, *other),
        Basis::Missing(unused) => {
            is_axis && !unused.is_empty() && resolved.case().facts.prolapse.may_be()
        }
        _ => false,
    }
}
