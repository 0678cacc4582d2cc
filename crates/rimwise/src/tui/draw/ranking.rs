//! The ranked list.

use super::has_keys;
use super::lines::{self, first_shown};
use super::seen::Seen;
use crate::text::fitted;
use crate::told;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use session::{Focus, Session, Target};
use sizing::{Candidate, Ranking, Verdict};
use unicode_width::UnicodeWidthStr;

/// Columns of the rank.
const RANK: usize = 4;
/// Columns of the verdict's glyph and word.
const VERDICT: usize = 15;
/// Columns of them where there is little room.
const SHORT_VERDICT: usize = 13;
/// Columns of the verdict's glyph alone.
const GLYPH: usize = 3;
/// Columns of the chance, where it is no bound.
const CHANCE: usize = 6;
/// From this width on the heading says of what the sizes are.
const WITH_UNITS: u16 = 78;
/// Under this width the verdict is said in a short word.
const NARROW: usize = 44;

/// Draws the list as the filter leaves it.
pub(super) fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    seen: &mut Seen,
) {
    seen.note(area, Target::Panel(Focus::Ranking));
    let focused = has_keys(session, Focus::Ranking);
    let filter = &session.document().shown().filter;
    let listed = session.listed();
    let title = match (filter.text.is_empty(), filter.verdict) {
        (true, None) if area.width < WITH_UNITS => {
            "Ranked, inside limits (geometry only)".to_owned()
        }
        (true, None) => "Ranked (waist × length, mm); inside limits (geometry only)".to_owned(),
        (true, Some(verdict)) => format!("Ranked: only {}", verdict.word()),
        (false, None) => format!("Ranked: “{}”", visible(&filter.text)),
        (false, Some(verdict)) => {
            format!("Ranked: “{}”, {}", visible(&filter.text), verdict.word())
        }
    };
    let room = usize::from(area.height.saturating_sub(1));
    let selected = session.listed_place();
    let first = first_shown(selected.unwrap_or(0), listed.len(), room);
    let sizes = format!("{} sizes", lines::shown_of(first, room, listed.len()));
    let beside = lines::of_before(session.shows_stale(), &sizes);
    let area = lines::headed(frame, &title, beside, focused, theme, area);
    seen.visible.panels[Focus::Ranking] = room;
    let Some(assessed) = session.results().assessed() else {
        return;
    };
    let names = widest_name(&listed);
    let shown = listed
        .iter()
        .enumerate()
        .skip(first)
        .take(room)
        .map(|(index, candidate)| {
            let width = usize::from(area.width);
            let mut line = row(&assessed.ranking, candidate, theme, (width, names));
            if !candidate.is_on_shelf {
                line = line.patch_style(theme.dim());
            }
            if Some(index) == selected {
                line = line.patch_style(theme.selected(focused));
            }
            line
        });
    let shown = lines::stale(shown.collect(), session.shows_stale(), theme);
    lines::draw(frame, shown, area);
    for (line, candidate) in listed.iter().skip(first).take(room).enumerate() {
        seen.note_line(area, line, Target::Candidate(candidate.place));
    }
}

/// The whole list.
pub(super) fn all(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let Some(assessed) = session.results().assessed() else {
        return Vec::new();
    };
    let listed = session.listed();
    let columns = (usize::from(width), widest_name(&listed));
    let rows = listed
        .iter()
        .map(|candidate| row(&assessed.ranking, candidate, theme, columns));
    rows.collect()
}

/// Columns of the widest name of a list, no more than [`MOST_NAME`].
fn widest_name(listed: &[&Candidate]) -> usize {
    let names = listed.iter().map(|candidate| name(candidate).width());
    names.max().unwrap_or(0).min(MOST_NAME)
}

fn name(candidate: &Candidate) -> String {
    visible(&sizing::device_name(&candidate.name())).into_owned()
}

/// A candidate in so many columns, of them so many for its name at most.
fn row(
    ranking: &Ranking,
    candidate: &Candidate,
    theme: Theme,
    (width, most_name): (usize, usize),
) -> Line<'static> {
    let rank = rank(ranking, candidate);
    let verdict = candidate.judged.verdict;
    let is_narrow = width < NARROW;
    let chance = chance(candidate);
    // Where a bound takes the room, the glyph alone tells the verdict.
    let (word, said) = if is_narrow && chance.width() > CHANCE {
        ("", GLYPH)
    } else if is_narrow {
        (short_word(verdict), SHORT_VERDICT)
    } else {
        (verdict.word(), VERDICT)
    };
    let room = chance.width().max(CHANCE);
    let fixed = RANK + said + room;
    let columns = width.saturating_sub(fixed).min(most_name);
    let rest = width.saturating_sub(fixed + columns);
    let last = match ranking.aside(candidate) {
        Some(aside) => format!("– {aside}"),
        None => told::nearest_stop(candidate, rest.saturating_sub(GAP)).unwrap_or_default(),
    };
    let mark = if candidate.is_on_shelf { " " } else { "–" };
    Line::from(vec![
        Span::styled(format!("{rank:>3}{mark}"), theme.dim()),
        Span::raw(fitted(&name(candidate), columns)),
        Span::styled(
            fitted(&format!(" {} {word}", told::verdict_glyph(verdict)), said),
            theme.verdict(verdict),
        ),
        Span::raw(format!("{chance:>room$}")),
        Span::styled(fitted(&format!("  {last}"), rest), theme.dim()),
    ])
}

/// The rank of a candidate, from 1: those that nothing tells apart share one.
fn rank(ranking: &Ranking, candidate: &Candidate) -> usize {
    let mut all = ranking.candidates.iter();
    let index = all.position(|one| one.place == candidate.place);
    let group = index.and_then(|index| ranking.groups.get(index));
    let first = group.and_then(|group| ranking.groups.iter().position(|one| one == group));
    first.or(index).unwrap_or_default() + 1
}

/// Columns between the chance and the margin.
const GAP: usize = 2;
/// The longest name that is not cut.
const MOST_NAME: usize = 24;

/// A verdict in a short word.
const fn short_word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Fits => "fits",
        Verdict::Borderline => "borderline",
        Verdict::DoesNotFit => "no fit",
        Verdict::NotRated => "not rated",
    }
}

/// The chance as people read it; `…` while it is awaited.
pub(super) fn chance(candidate: &Candidate) -> String {
    if candidate.chances.is_none() && candidate.is_case_rated && !candidate.is_case_excluded {
        "…".to_owned()
    } else {
        told::chance(candidate)
    }
}
