use crate::house_rules::Exclusion;
use crate::{Answer, Setting};

/// The exclusions that hold for a case: each stops every shape before any
/// geometry.
pub fn excluded(setting: &Setting) -> impl Iterator<Item = &Exclusion> {
    answered(setting, Answer::Yes)
}

/// The exclusions that nobody has answered for a case.
pub fn unanswered(setting: &Setting) -> impl Iterator<Item = &Exclusion> {
    answered(setting, Answer::Unknown)
}

fn answered(setting: &Setting, answer: Answer) -> impl Iterator<Item = &Exclusion> {
    let case = setting.case();
    setting
        .rules()
        .exclusions_for(case.site)
        .filter(move |exclusion| {
            case.exclusions
                .get(&exclusion.id)
                .copied()
                .unwrap_or_default()
                == answer
        })
}
