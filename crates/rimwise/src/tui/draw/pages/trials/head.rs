//! What stands over the rows: the open deployment, the minute, what was used.

use super::{row, said, warning, warnings};
use crate::tui::draw::readings::modality;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::text::Line;
use session::Session;
use sizing::trial::{Trial, UsedKind};

/// The lines over the rows.
pub(super) fn lines(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let mut lines = said(&now(session), theme.strong(), width);
    for says in warnings(session) {
        lines.extend(said(&says, warning(theme), width));
    }
    lines
}

/// Where the procedure stands, in one line.
fn now(session: &Session) -> String {
    let procedure = &session.document().case().procedure;
    let count = procedure.trials.len();
    let mut parts = Vec::new();
    match procedure.open() {
        Some(open) => parts.push(format!(
            "Deployment {count}, {}, open since minute {:.0}",
            sizing::device_name(&open.size),
            open.opened_min
        )),
        None if count == 0 => parts.push("No deployment yet".to_owned()),
        None => parts.push(format!("{count} deployed, none open")),
    }
    parts.extend(session.minute().map(|now| format!("minute {now:.0} now")));
    let weight = session.setting().weight();
    for kind in UsedKind::ALL {
        let Some(amount) = procedure.used.get(kind) else {
            continue;
        };
        let unit = kind.unit();
        let each = |kg: f64| amount / kg;
        parts.push(match (kind, weight) {
            (UsedKind::Contrast, Some(kg)) => {
                format!("contrast {amount} mL ({:.1} mL/kg)", each(kg))
            }
            (UsedKind::DoseArea, Some(kg)) => format!("{amount} {unit} ({:.2} per kg)", each(kg)),
            _ => format!("{} {amount} {unit}", kind.label()),
        });
    }
    parts.join(" · ")
}

/// Each closed deployment in a line, the last first.
pub(super) fn closed(session: &Session) -> Vec<String> {
    let trials = session
        .document()
        .case()
        .procedure
        .trials
        .iter()
        .enumerate();
    let closed = trials.filter(|(_, trial)| trial.came_of_it.is_some());
    closed
        .rev()
        .map(|(index, trial)| told(index, trial))
        .collect()
}

fn told(index: usize, trial: &Trial) -> String {
    let closed = trial.closed_min.unwrap_or(trial.opened_min);
    let counted = trial.seen.iter().filter(|one| one.set_aside.is_none());
    let seen = counted.map(|one| {
        let by = one
            .by
            .map_or_else(String::new, |by| format!(" ({})", modality(by)));
        let what = row::name(one.what, one.of);
        format!("{what}: {}{by}", one.seen.says(one.what))
    });
    let seen: Vec<String> = seen.collect();
    let outcome = trial.came_of_it.map_or("open", |it| it.name());
    let because = trial.because.as_deref().unwrap_or_default();
    let because = if because.is_empty() {
        String::new()
    } else {
        format!(", {because}")
    };
    let says = format!(
        "Deployment {}  {}, minute {:.0} to {closed:.0}, {outcome}{because}. {}",
        index + 1,
        sizing::device_name(&trial.size),
        trial.opened_min,
        seen.join("; ")
    );
    visible(&says).into_owned()
}
