//! The follow-up: what a row says of it, and what stands beside it: what was foretold,
//! what growth moves, what was published of later years.

use super::said;
use crate::text::fitted;
use crate::told;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::text::{Line, Span};
use session::{Session, TrialRow};
use sizing::growth::{GrownCheck, Growth};
use sizing::trial::{Forecast, ObservationKind, worse_than_at_release};
use sizing::{Outcome, State, Subject};

/// What a row of the follow-up says beside its name.
pub(super) struct LaterRow {
    /// What was seen, where something was.
    pub(super) seen: String,
    /// How it is looked at.
    pub(super) how: String,
    /// What is to be said of it.
    pub(super) state: String,
}

/// Whether a row is due on the day of the schedule that is looked at.
pub(super) fn is_due(session: &Session, row: &TrialRow) -> bool {
    let visit = session.visit_of_day();
    let mut due = visit.iter().flat_map(|visit| &visit.due);
    due.any(|due| *row == TrialRow::Later(due.what, due.of))
}

/// The day that is looked at, and which of the schedule it serves.
pub(super) fn day(session: &Session) -> String {
    let Some(day) = session.day() else {
        return String::new();
    };
    match session.visit_of_day() {
        Some(visit) if visit.day != day => format!("{day}, for day {}", visit.day),
        _ => day.to_string(),
    }
}

/// What is said of one thing on the day that is looked at.
pub(super) fn row(
    session: &Session,
    (what, of): (ObservationKind, Subject),
    is_offered: bool,
) -> LaterRow {
    let setting = session.setting();
    let case = setting.case();
    let mut rows = setting.rules().schedule.iter();
    let row = rows.find(|row| row.what == what && row.is_of(case.site));
    let today = session.seen_on_day().into_iter().flat_map(|day| &day.seen);
    let aside = today
        .filter(|one| one.what == what && one.of == of)
        .find_map(|one| one.set_aside.as_deref());
    let released = case.procedure.released();
    let at_release = released.and_then(|trial| trial.last_seen(what, of));
    let before = case.procedure.before(what, of);
    let state = if is_offered {
        session.with_keys("[seen_now] confirms")
    } else if let Some(why) = aside {
        format!("set aside: {why}")
    } else if let Some(seen) = at_release {
        format!("at release: {}", seen.seen.says(what))
    } else if let Some(before) = before {
        format!("before: {}", before.says(what))
    } else {
        String::new()
    };
    LaterRow {
        seen: "not done".to_owned(),
        how: row.map_or_else(String::new, |row| row.how.clone()),
        state,
    }
}

/// What of a day of the schedule was done and what was not.
pub(super) fn visit(session: &Session, day: u32) -> String {
    let visits = session.visits();
    let Some(visit) = visits.iter().find(|visit| visit.day == day) else {
        return String::new();
    };
    let all = visit.due.len();
    let missing: Vec<String> = visit.not_done().map(sizing::trial::Due::name).collect();
    match (missing.len(), missing.len() == all) {
        (0, _) => "all seen".to_owned(),
        (_, true) => "not done".to_owned(),
        _ => format!("not done: {}", missing.join("; ")),
    }
}

/// How the child has grown, or how to say it.
pub(super) fn grown(session: &Session) -> String {
    session.view().grown.map_or_else(
        || session.with_keys("[seen_now]: later weight, height"),
        |then| format!("{} kg, {} cm", then.weight, then.height),
    )
}

/// The column beside the follow-up.
pub(super) fn lines(
    session: &Session,
    theme: Theme,
    width: u16,
    most: usize,
) -> Vec<Line<'static>> {
    let mut lines = growth(session, theme, width);
    for one in worse_than_at_release(&session.document().case().procedure) {
        let says = format!("! Worse than at release, {}", one.says());
        lines.extend(said(&says, theme.state(State::Caution), width));
    }
    lines.extend(foretold(session, theme, width));
    lines.extend(late(session, theme, width));
    lines.truncate(most);
    lines
}

/// The device today and in the grown child.
fn growth(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let Some((name, growth)) = session.growth() else {
        return Vec::new();
    };
    let mut lines = vec![Line::styled(
        fitted(&visible(&sizing::device_name(&name)), usize::from(width)),
        theme.heading(false),
    )];
    match growth {
        Err(error) => lines.extend(said(&error.to_string(), theme.state(State::Caution), width)),
        Ok(growth) => {
            lines.extend(grown_checks(&growth, theme, width));
            lines.extend(said(
                "Today → grown → grown with its rim. Limits are those of today.",
                theme.dim(),
                width,
            ));
        }
    }
    lines.push(Line::default());
    lines
}

fn grown_checks(growth: &Growth, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let mut lines = Vec::new();
    for row in &growth.rows {
        let title = format!("{}, {}", row.now.title, row.now.of.label());
        lines.push(Line::styled(
            fitted(&title, usize::from(width)),
            theme.text(),
        ));
        lines.extend(values(row, theme, width));
    }
    lines
}

/// The three values in a line, or one under the other where that is too long.
fn values(row: &GrownCheck, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let value = |outcome: &Outcome| {
        let says = told::value_with_name(outcome);
        let says = says.unwrap_or_else(|| "not measured".to_owned());
        let mark = match outcome.state {
            State::Stop => " ! limit",
            State::Caution => " ! warning",
            State::Ok | State::NotAssessed => "",
        };
        Span::styled(format!("{says}{mark}"), theme.state(outcome.state))
    };
    let each = [&row.now, &row.rims_of_today, &row.rims_grown].map(value);
    let mut spans = vec![Span::raw("  ")];
    for (index, span) in each.iter().enumerate() {
        if index > 0 {
            spans.push(Span::styled(" → ", theme.dim()));
        }
        spans.push(span.clone());
    }
    let line = Line::from(spans);
    if line.width() <= usize::from(width) {
        return vec![line];
    }
    let under = each.into_iter().enumerate().map(|(index, span)| {
        let arrow = if index > 0 { "  → " } else { "    " };
        Line::from(vec![Span::styled(arrow, theme.dim()), span])
    });
    under.collect()
}

/// What was foretold of the released device when it closed.
fn foretold(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let procedure = &session.document().case().procedure;
    let Some(trial) = procedure.released() else {
        return Vec::new();
    };
    let Some(forecast) = &trial.forecast.closed else {
        return Vec::new();
    };
    let mut lines = vec![Line::styled(
        fitted("Foretold at release", usize::from(width)),
        theme.heading(false),
    )];
    let inside = format!(
        "inside limits (geometry only) {:.0} %",
        100.0 * forecast.inside
    );
    lines.extend(said(&inside, theme.text(), width));
    for says in each_foretold(forecast) {
        lines.extend(said(&says, theme.text(), width));
    }
    lines.push(Line::default());
    lines
}

/// Which percentile is the middle, and which bound nine of ten.
const MIDDLE: usize = 9;
const NINE_OF_TEN: [usize; 2] = [0, 18];

/// Everything that was foretold, as it would be seen.
fn each_foretold(forecast: &Forecast) -> Vec<String> {
    let each = forecast.seen.iter().filter_map(|one| {
        let name = one.what.name_of(one.of);
        let value = |value: f64| sizing::trial::Seen::Value(value).says(one.what);
        if let Some(of) = &one.value {
            let [low, high] = NINE_OF_TEN.map(|index| of.percentiles[index]);
            let middle = value(of.percentiles[MIDDLE]);
            return Some(format!(
                "{name}: {middle}, 90 % from {} to {}",
                value(low),
                value(high)
            ));
        }
        one.yes
            .map(|yes| format!("{name}: seen in {:.0} %", 100.0 * yes))
    });
    each.collect()
}

/// What was published of later years.
fn late(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let facts = session.setting().late();
    if facts.is_empty() {
        return Vec::new();
    }
    let heading = "Of cohorts, not of this child";
    let mut lines = vec![Line::styled(
        fitted(heading, usize::from(width)),
        theme.heading(false),
    )];
    for fact in facts {
        lines.extend(said(&fact.says, theme.text(), width));
        lines.extend(said(&fact.source, theme.dim(), width));
    }
    lines
}
