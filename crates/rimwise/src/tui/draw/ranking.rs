//! The ranked list.

use super::lines::{self, first_shown, fitted};
use super::has_keys;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use session::{Focus, Session};
use sizing::{Candidate, Outcome, Ranking, Subject, Verdict};

/// Columns of rank and group.
const NUMBERS: usize = 8;
/// Columns of the verdict.
const VERDICT: usize = 15;
/// Columns of the chance.
const CHANCE: usize = 6;

/// Draws the list as the filter leaves it.
pub(super) fn draw(frame: &mut Frame, session: &Session, theme: Theme, area: Rect) {
    let focused = has_keys(session, Focus::Ranking);
    let filter = &session.document().shown().filter;
    let listed = session.listed();
    let title = match (filter.text.is_empty(), filter.verdict) {
        (true, None) => "Ranked".to_owned(),
        (true, Some(verdict)) => format!("Ranked: only {}", verdict.word()),
        (false, None) => format!("Ranked: “{}”", visible(&filter.text)),
        (false, Some(verdict)) => format!("Ranked: “{}”, {}", visible(&filter.text), verdict.word()),
    };
    let area =
        lines::headed(frame, &title, &format!("{} sizes", listed.len()), focused, theme, area);
    let Some(assessed) = session.results().assessed() else { return };
    let selected = session.listed_place();
    let room = usize::from(area.height);
    let first = first_shown(selected.unwrap_or(0), listed.len(), room);
    let dimmed = session.results().is_stale();
    let shown = listed.iter().enumerate().skip(first).take(room).map(|(index, candidate)| {
        let mut line = row(&assessed.ranking, candidate, theme, usize::from(area.width));
        if dimmed {
            line = line.style(theme.dim());
        }
        if Some(index) == selected {
            line = line.patch_style(theme.selected(focused));
        }
        line
    });
    lines::draw(frame, shown.collect(), area);
}

fn row(ranking: &Ranking, candidate: &Candidate, theme: Theme, width: usize) -> Line<'static> {
    let index = ranking.candidates.iter().position(|one| one.place == candidate.place);
    let group = index.and_then(|index| ranking.groups.get(index)).copied().unwrap_or_default();
    let name = width.saturating_sub(NUMBERS + VERDICT + CHANCE + 2).clamp(8, 24);
    let verdict = candidate.judged.verdict;
    let rest = width.saturating_sub(NUMBERS + name + VERDICT + CHANCE + 2);
    Line::from(vec![
        Span::styled(
            format!("{:>3} {:<4}", index.unwrap_or_default() + 1, format!("g{group}")),
            theme.dim(),
        ),
        Span::raw(fitted(&visible(&candidate.name()), name)),
        Span::styled(
            fitted(&format!(" {} {}", glyph(verdict), verdict.word()), VERDICT),
            theme.verdict(verdict),
        ),
        Span::raw(format!("{:>CHANCE$}", chance(candidate))),
        Span::styled(fitted(&format!("  {}", nearest(candidate)), rest), theme.dim()),
    ])
}

/// A verdict's glyph: never told by colour alone.
pub(super) const fn glyph(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Fits => "●",
        Verdict::Tight => "◐",
        Verdict::DoesNotFit => "○",
    }
}

/// The geometry chance in per cent.
pub(super) fn chance(candidate: &Candidate) -> String {
    let chances = candidate.chances.as_ref();
    chances.map_or_else(|| "…".to_owned(), |it| format!("{:.0} %", 100.0 * it.chance.value))
}

/// The check with the least margin to its stop.
fn nearest(candidate: &Candidate) -> String {
    let least = candidate
        .outcomes
        .iter()
        .filter_map(|outcome| Some((outcome.scaled_margin()?, outcome)))
        .min_by(|(one, _), (other, _)| one.total_cmp(other));
    least.map_or_else(String::new, |(_, outcome)| {
        let margin = outcome.margin_stop().unwrap_or_default();
        format!("{margin:+.1} {} {}", outcome.unit, short(outcome))
    })
}

/// A check with its subject, as short as it can be told.
pub(super) fn short(outcome: &Outcome) -> String {
    let of = match outcome.of {
        Subject::Shape => "",
        Subject::Valve(valve) => valve.label().trim_end_matches(" valve"),
        Subject::Face(geometry::Face::Left) => "left",
        Subject::Face(geometry::Face::Right) => "right",
        Subject::Vein => "vein",
        Subject::Artery => "artery",
    };
    format!("{} {of}", outcome.title).trim_end().to_owned()
}
