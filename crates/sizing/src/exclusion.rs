use crate::house_rules::Exclusion;
use crate::{Answer, Setting};

/// The exclusions that hold for a case: each stops every shape before any
/// geometry. A yes counts whether or not the site is one that asks for it.
pub fn excluded(setting: &Setting) -> impl Iterator<Item = &Exclusion> {
    let all = setting.rules().exclusions.iter();
    all.filter(|exclusion| answer(setting, exclusion) == Answer::Yes)
}

/// The exclusions asked for the site that nobody has answered.
pub fn unanswered(setting: &Setting) -> impl Iterator<Item = &Exclusion> {
    let asked = setting.rules().exclusions_for(setting.case().site);
    asked.filter(|exclusion| answer(setting, exclusion) == Answer::Unknown)
}

fn answer(setting: &Setting, exclusion: &Exclusion) -> Answer {
    setting
        .case()
        .exclusions
        .get(&exclusion.id)
        .copied()
        .unwrap_or_default()
}
