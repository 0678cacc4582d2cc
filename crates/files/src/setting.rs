use crate::workup_input::{contradictions_of_workup, workup_input};
use sizing::{Against, Case, Circulation, Guidance, HouseRules, Setting};
use std::sync::Arc;
use workup::{AsMeasured, Figure, Limits};

/// The setting of a case under your centre's rules and guidance, so that the ranking knows
/// which guidance against closing is met and which exclusions the readings settle.
pub fn setting(case: Arc<Case>, rules: Arc<HouseRules>, limits: Option<&Limits>) -> Setting {
    worked_up(Setting::new(case, rules), limits)
}

/// A setting with what the work-up of its case says that bears on every size: a few
/// hundred draws, and so no work for between two keys.
pub fn worked_up(setting: Setting, limits: Option<&Limits>) -> Setting {
    match limits.and_then(|limits| guidance(&setting, limits)) {
        Some(guidance) => setting.with_guidance(guidance),
        None => setting,
    }
}

/// The results of a case's work-up that bear on every size.
fn guidance(setting: &Setting, limits: &Limits) -> Option<Guidance> {
    let input = workup_input(setting);
    // Without draws there is nothing to refuse.
    let measured = AsMeasured::new(&input, limits).ok()?;
    let figure = |figure| measured.figures.get(figure);
    let share = figure(Figure::RightToLeft)
        .zip(figure(Figure::SystemicFlow))
        .map(|(reversed, systemic)| reversed / systemic);
    Some(Guidance {
        circulation: Circulation {
            resistance_indexed: figure(Figure::PulmonaryResistanceIndexed),
            resistance_ratio: figure(Figure::ResistanceRatio),
            qp_qs: figure(Figure::QpQs),
            right_to_left_share: share,
        },
        against: measured
            .against
            .into_iter()
            .map(|row| Against {
                id: row.id,
                says: row.says,
                source: row.source,
            })
            .collect(),
        contradictions: contradictions_of_workup(&input, limits),
    })
}
