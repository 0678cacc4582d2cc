//! What follows from what was seen: the list if a size is opened again, what moved most,
//! what opening more would reach.

use super::said;
use crate::text::fitted;
use crate::told;
use crate::tui::draw::lines::{self, of_before};
use crate::tui::theme::Theme;
use files::visible;
use measurement::{Law, Quantity, Unit};
use ratatui::text::{Line, Span};
use session::{Session, TrialsResult};
use sizing::trial::{REPEATED_CROSSINGS, Weighing, WhatNext};
use sizing::{Candidate, Ranking, Setting};

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
        shown.extend(moved(session.setting(), weighing, theme, width));
    }
    if let Some(next) = &tried.next {
        shown.extend(unions(&tried.ranking, next, theme, width));
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
fn moved(measured: &Setting, weighing: &Weighing, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let by_sd = |quantity: Quantity, by: f64| {
        let law = measured.resolved()[quantity.index()].law.as_ref();
        law.map(Law::sd)
            .filter(|sd| *sd > 0.0)
            .map_or(0.0, |sd| (by / sd).abs())
    };
    let shifts = weighing.shifts.iter();
    let mut shifts: Vec<(Quantity, f64, f64)> = shifts
        .map(|&(quantity, by)| (quantity, by, by_sd(quantity, by)))
        .collect();
    shifts.sort_by(|(.., one), (.., other)| other.total_cmp(one));
    let told = shifts.into_iter().filter_map(|(quantity, by, sds)| {
        let from = measured.nominal(quantity)?;
        let (from, to) = (format!("{from:.1}"), format!("{:.1}", from + by));
        let label = quantity.label();
        let both = match quantity.unit() {
            Unit::Degrees => format!("{from}° → {to}°"),
            unit => format!("{from} → {to} {}", unit.symbol()),
        };
        // A change that rounds to nothing is not told.
        (from != to).then(|| format!("{label} {both} ({sds:.1} SD)"))
    });
    let errors = weighing
        .error_shifts
        .iter()
        .map(|(error, by)| error.says(*by));
    let told: Vec<String> = told.take(MOVED).chain(errors).collect();
    let mut lines = vec![Line::default()];
    let room = usize::from(width);
    if !told.is_empty() {
        lines.push(Line::styled(
            "What was seen moved most",
            theme.heading(false),
        ));
    }
    for says in told {
        lines.extend(said(&says, theme.text(), width));
    }
    let says = format!(
        "{:.0} of {} simulated variations count",
        weighing.effective, weighing.drawn
    );
    lines.push(Line::styled(fitted(&says, room), theme.dim()));
    lines
}

/// What opening one, two or three more would reach, a line for each with what would be
/// opened under it; nothing where no size is left.
fn unions(ranking: &Ranking, next: &WhatNext, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let Some(unions) = &next.unions else {
        return Vec::new();
    };
    let name = |place: usize| sizing::device_name(&ranking.candidates[next.untried[place]].name());
    let two = unions
        .two
        .map(|(pair, share)| (pair.map(name).join(", "), share));
    let three = unions.three.map(|(three, share)| {
        let third = name(three[2]);
        (format!("those two and {third}"), share)
    });
    let each = [
        ("one more", Some((name(unions.one.0), unions.one.1))),
        ("two more", two),
        ("three more", three),
        ("none in stock", Some((String::new(), unions.none))),
    ];
    let room = usize::from(width);
    let mut lines = vec![
        Line::default(),
        Line::styled(
            fitted("If more sizes are opened", room),
            theme.heading(false),
        ),
    ];
    lines.extend(said(
        "inside limits in so many of 100, if every size lay alike",
        theme.dim(),
        width,
    ));
    for (label, found) in each {
        let Some((names, share)) = found else {
            continue;
        };
        let share = format!("{:.0}", 100.0 * share);
        let label = fitted(label, room.saturating_sub(share.chars().count() + 1));
        lines.push(Line::from(vec![
            Span::styled(label, theme.text()),
            Span::raw(" "),
            Span::styled(share, theme.strong()),
        ]));
        if !names.is_empty() {
            lines.extend(said(&visible(&names), theme.dim(), width));
        }
    }
    let note = "Each opening lies differently, which usually raises the figures for two and \
                three; opening the same size again is not counted.";
    lines.extend(said(note, theme.dim(), width));
    lines.extend(said(REPEATED_CROSSINGS, theme.dim(), width));
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tui::draw::tests::stage;
    use session::Looks;
    use sizing::Work;
    use sizing::trial::weigh;
    use std::sync::Arc;
    use std::sync::atomic::AtomicBool;

    /// A defect wider than measured is told with where its axes went.
    #[test]
    fn what_was_seen_moved_is_told_with_both_values() {
        let case = Arc::new(stage::case("pulled-through"));
        let measured = Setting::new(case, Arc::new(stage::house_rules()));
        let never = AtomicBool::new(false);
        let work = Work {
            threads: 1,
            cancel: &never,
        };
        let weighed = weigh(&measured, &[stage::shapes()], 4096, 1, &work);
        let weighing = weighed.unwrap().unwrap();
        let lines = moved(&measured, &weighing, Theme::of(Looks::default()), 60);
        let lines: Vec<String> = lines.iter().map(ToString::to_string).collect();
        assert_eq!(lines[1], "What was seen moved most");
        let of_axis = |line: &&String| line.contains("axis") && line.contains(" → ");
        assert!(lines.iter().any(|line| of_axis(&line)), "{lines:#?}");
        assert!(lines.last().unwrap().contains("simulated variations count"));
    }
}
