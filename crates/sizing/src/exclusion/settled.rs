use crate::house_rules::{Evidence, Grade, Settles};
use crate::{Answer, Case, FactValue, Guidance};
use measurement::{Prolapse, Regurgitation};

/// Whether one of each list holds; unknown where that hangs on what nobody knows.
pub(super) fn holds(all: &Settles, case: &Case, guidance: &Guidance) -> Answer {
    if all.is_empty() {
        return Answer::Unknown;
    }
    let of_one = |any: &Vec<Evidence>| {
        let mut says = Answer::No;
        for one in any {
            match one.holds(case, guidance) {
                Answer::Yes => return Answer::Yes,
                Answer::Unknown => says = Answer::Unknown,
                Answer::No => {}
            }
        }
        says
    };
    let mut says = Answer::Yes;
    for any in all {
        match of_one(any) {
            Answer::No => return Answer::No,
            Answer::Unknown => says = Answer::Unknown,
            Answer::Yes => {}
        }
    }
    says
}

impl Evidence {
    /// Whether it holds of a case.
    pub(super) fn holds(self, case: &Case, guidance: &Guidance) -> Answer {
        match self {
            Self::AtLeast(fact, grade) => {
                let (best, worst) = grades(case.facts.get(fact));
                between(best >= grade, worst < grade)
            }
            Self::AtMost(fact, grade) => {
                let (best, worst) = grades(case.facts.get(fact));
                between(worst <= grade, best > grade)
            }
            Self::Is(finding, wanted) => match case.finding(finding) {
                Answer::Unknown => Answer::Unknown,
                answer => between(answer == wanted, answer != wanted),
            },
            Self::IsNot(finding, unwanted) => {
                let answer = case.finding(finding);
                between(answer != unwanted, answer == unwanted)
            }
            Self::Figure(figure, bounds) => match guidance.circulation.get(figure) {
                None => Answer::Unknown,
                Some(value) => between(bounds.hold(value), !bounds.hold(value)),
            },
        }
    }

    /// What is known of a case that makes it hold, in words.
    pub(super) fn says(self, case: &Case, guidance: &Guidance) -> String {
        match self {
            Self::AtLeast(fact, _) | Self::AtMost(fact, _) => {
                format!("{} is {}", fact.label(), case.facts.get(fact).says())
            }
            Self::Is(finding, _) | Self::IsNot(finding, _) => {
                format!("{}: {}", finding.label(), case.finding(finding))
            }
            Self::Figure(figure, _) => {
                let value = guidance.circulation.get(figure).unwrap_or_default();
                format!("{} is {value:.2}", figure.label())
            }
        }
    }
}

/// An answer from what makes it a yes and what makes it a no.
const fn between(yes: bool, no: bool) -> Answer {
    match (yes, no) {
        (true, _) => Answer::Yes,
        (false, true) => Answer::No,
        (false, false) => Answer::Unknown,
    }
}

/// The best and the worst that a graded fact may be; of one that has no grades
/// nothing is known.
const fn grades(value: FactValue) -> (Grade, Grade) {
    match value {
        FactValue::Prolapse(value) => match value {
            Prolapse::None => (Grade::None, Grade::None),
            Prolapse::Mild => (Grade::Mild, Grade::Mild),
            Prolapse::Moderate => (Grade::Moderate, Grade::Moderate),
            Prolapse::Severe => (Grade::Severe, Grade::Severe),
            Prolapse::Ungraded => (Grade::Mild, Grade::Severe),
            Prolapse::Unknown => (Grade::None, Grade::Severe),
        },
        FactValue::AorticRegurgitation(value) | FactValue::PulmonaryRegurgitation(value) => {
            match value {
                Regurgitation::None => (Grade::None, Grade::None),
                Regurgitation::Trivial => (Grade::Trivial, Grade::Trivial),
                Regurgitation::Mild => (Grade::Mild, Grade::Mild),
                Regurgitation::Moderate => (Grade::Moderate, Grade::Moderate),
                Regurgitation::Severe => (Grade::Severe, Grade::Severe),
                Regurgitation::Unknown => (Grade::None, Grade::Severe),
            }
        }
        _ => (Grade::None, Grade::Severe),
    }
}
