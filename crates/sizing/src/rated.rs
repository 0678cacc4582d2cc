//! What must be known before any size of a case is rated.

use crate::house_rules::Need;
use crate::resolve::{Basis, neighbour_of};
use crate::{Answer, HouseRules, Setting, answered};
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
    pub(crate) fn find(setting: &Setting) -> Option<Self> {
        let rules = setting.rules();
        let mut found = Self::default();
        let is_met = |need: &Need| is_met(setting, need);
        for row in &rules.measured_first {
            if !row.is_asked_at(setting.case().site) {
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
        let all = setting.contradictions().iter();
        let impossible = all.filter(|one| one.is_impossible);
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

fn is_met(setting: &Setting, need: &Need) -> bool {
    let case = setting.case();
    match need {
        Need::Reading(quantity) => {
            let neighbour = neighbour_of(quantity.info().structure);
            neighbour.is_some_and(|neighbour| case.is_absent(neighbour))
                || is_measured(setting, *quantity)
        }
        Need::Fact(fact) => !case.facts.get(*fact).is_unknown(),
        Need::NoProlapse => !case.facts.prolapse.may_be(),
        Need::Exclusion(id) => {
            let mut all = setting.rules().exclusions.iter();
            all.find(|one| one.id == *id)
                .is_some_and(|one| answered(setting, one).answer != Answer::Unknown)
        }
    }
}

/// Whether a quantity was measured. One axis of a defect said to be round stands for
/// the other. With a prolapse the width of a jet is no axis of the defect, yet the
/// axes count as measured: what needs them says that the cusp hides the defect.
fn is_measured(setting: &Setting, quantity: Quantity) -> bool {
    let is_axis = quantity.info().structure == Structure::Defect;
    match setting.basis(quantity) {
        Basis::Read(_) => true,
        Basis::Follows(other) => is_axis && is_measured(setting, *other),
        Basis::Missing(unused) => {
            is_axis && !unused.is_empty() && setting.case().facts.prolapse.may_be()
        }
        _ => false,
    }
}
