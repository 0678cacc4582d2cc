//! What follows from what was seen: the list if a size is opened again, what moved most,
//! what opening more would reach.

use super::said;
use crate::text::fitted;
use crate::told;
use crate::tui::draw::lines::{self, of_before};
use crate::tui::theme::Theme;
use files::visible;
use measurement::{Law, Quantity};
use ratatui::text::{Line, Span};
use session::{Session, TrialsResult};
use sizing::trial::{REPEATED_CROSSINGS, Weighing};
use sizing::{Candidate, Setting};

/// Sizes that are shown beside those that were tried.
const BEST: usize = 3;
/// Quantities that are said to have moved.
const MOVED: usize = 3;

/// The lines of the column.
pub(super) fn lines(
    session: &Session,
    theme: Theme,
    width: u16,
    most: usize,
) -> Vec<Line<'static>> {
    let Some(tried) = session.results().tried() else {
        return vec![Line::styled("weighing what was seen …", theme.dim())];
    };
    let is_stale = session.shows_as_before(tried.generation);
    let has_seen = tried.weighing.as_ref().is_some_and(|it| it.any_counted);
    let heading = if has_seen {
        "If opened again, after trials"
    } else {
        "If opened, by readings alone"
    };
    let mut shown = vec![
        Line::styled(fitted(heading, usize::from(width)), theme.heading(false)),
        Line::styled(
            fitted(
                of_before(is_stale, "inside limits (geometry only)"),
                usize::from(width),
            ),
            theme.dim(),
        ),
    ];
    shown.extend(list(session, tried, theme, width));
    if let Some(weighing) = tried.weighing.as_deref().filter(|it| it.any_counted) {
        let believed = &tried.ranking.setting;
        shown.extend(moved(session.setting(), believed, weighing, theme, width));
    }
    if let Some(says) = tried
        .next
        .as_ref()
        .and_then(|next| next.says(&tried.ranking))
    {
        shown.push(Line::default());
        shown.extend(said(&says, theme.text(), width));
        shown.extend(said(REPEATED_CROSSINGS, theme.dim(), width));
    }
    shown.truncate(most);
    lines::stale(shown, is_stale, theme)
}

/// The best sizes and those that were tried, each before and if opened again.
fn list(session: &Session, tried: &TrialsResult, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let trials = &session.document().case().procedure.trials;
    let last = |one: &Candidate| trials.iter().rposition(|trial| trial.size == one.name());
    let best = tried.ranking.on_shelf().take(BEST);
    let best: Vec<&Candidate> = best.collect();
    let others = tried.ranking.candidates.iter();
    let others =
        others.filter(|one| last(one).is_some() && !best.iter().any(|it| it.place == one.place));
    let mut lines = Vec::new();
    for one in best.iter().copied().chain(others) {
        lines.extend(size(tried, one, theme, width));
        let Some(index) = last(one) else {
            lines.extend(dominated(tried, one).map(|says| {
                Line::styled(fitted(&visible(&says), usize::from(width)), theme.dim())
            }));
            continue;
        };
        let outcome = trials[index].came_of_it.map_or("open now", |it| it.name());
        let lies = tried
            .weighing
            .as_ref()
            .and_then(|it| it.trials.get(index)?.as_it_lies);
        let lies = lies.map_or_else(String::new, |share| {
            format!(", as it lies {:.0} %", 100.0 * share)
        });
        let says = format!("  {outcome}{lies}");
        lines.push(Line::styled(fitted(&says, usize::from(width)), theme.dim()));
    }
    lines
}

fn size(tried: &TrialsResult, one: &Candidate, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let before = tried.before.find(&one.name()).map(told::chance);
    let before = before.unwrap_or_default();
    let now = told::chance(one);
    let change = if before == now {
        now.clone()
    } else {
        format!("{before} → {now}")
    };
    let room = usize::from(width).saturating_sub(change.chars().count() + 1);
    let name = fitted(&visible(&sizing::device_name(&one.name())), room);
    let word = fitted(
        &format!("  {}", one.judged.verdict.word()),
        usize::from(width),
    );
    vec![
        Line::from(vec![
            Span::styled(name, theme.strong()),
            Span::raw(" "),
            Span::styled(change, theme.strong()),
        ]),
        Line::styled(word, theme.verdict(one.judged.verdict)),
    ]
}

/// Which size holds wherever another one does.
fn dominated(tried: &TrialsResult, one: &Candidate) -> Option<String> {
    let better = tried.next.as_ref()?.better_than(&tried.ranking, one)?;
    let name = sizing::device_name(&better.name());
    Some(format!("  {name} holds wherever it does"))
}

/// What was seen moved most, and how many variations count.
fn moved(
    measured: &Setting,
    believed: &Setting,
    weighing: &Weighing,
    theme: Theme,
    width: u16,
) -> Vec<Line<'static>> {
    let by_sd = |quantity: Quantity, by: f64| {
        let law = measured.resolved()[quantity.index()].law.as_ref();
        law.map(Law::sd)
            .filter(|sd| *sd > 0.0)
            .map_or(0.0, |sd| by / sd)
    };
    let mut shifts: Vec<(Quantity, f64)> = weighing
        .shifts
        .iter()
        .map(|&(quantity, by)| (quantity, by_sd(quantity, by)))
        .collect();
    shifts.sort_by(|(_, one), (_, other)| other.abs().total_cmp(&one.abs()));
    let mut lines = vec![Line::default()];
    let room = usize::from(width);
    if !(shifts.is_empty() && weighing.error_shifts.is_empty()) {
        lines.push(Line::styled(
            "What was seen moved most",
            theme.heading(false),
        ));
    }
    for (quantity, by) in shifts.into_iter().take(MOVED) {
        let Some((from, to)) = measured.nominal(quantity).zip(believed.nominal(quantity)) else {
            continue;
        };
        let (from, to) = (format!("{from:.1}"), format!("{to:.1}"));
        // A change that rounds to nothing is not told.
        if from == to {
            continue;
        }
        let unit = quantity.unit().symbol();
        let label = quantity.label();
        let says = format!("{label} {from} → {to} {unit} ({:.1} SD)", by.abs());
        lines.extend(said(&says, theme.text(), width));
    }
    for (error, by) in &weighing.error_shifts {
        lines.extend(said(&error.says(*by), theme.text(), width));
    }
    let says = format!(
        "{:.0} of {} simulated variations count",
        weighing.effective, weighing.drawn
    );
    lines.push(Line::styled(fitted(&says, room), theme.dim()));
    lines
}
