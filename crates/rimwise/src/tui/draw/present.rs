//! The plan for a room: large, and few words.

use super::pictures::Studio;
use super::seen::Seen;
use super::{bay, has_keys, lines, ranking};
use crate::alike::{differing, outcome};
use crate::text::{fitted, fitted_at_end, wrapped};
use crate::told;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use session::{Focus, Session, Target};
use sizing::Candidate;

/// Most candidates shown at once.
const MOST: usize = 2;
/// Lines of name, verdict and what the chance is of.
const HEAD: u16 = 3;
/// Lines of a chance in large figures.
const LARGE: u16 = 5;
/// The least lines of the pictures beside large figures.
const PICTURE: u16 = 4;
/// Lines of the page for each difference that is shown.
const LINES_A_DIFFERENCE: u16 = 6;
/// The least differences that are shown, where there are as many.
const LEAST: usize = 2;
/// The most differences that are shown: few words.
const MOST_DIFFERENCES: usize = 8;
/// Columns of a value.
const VALUE: usize = 9;
/// Lines of the reason under a picture.
const REASON: usize = 3;

/// Draws two bays, the selected one among them.
pub(super) fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    (seen, studio): (&mut Seen, &mut Studio),
) {
    seen.note(area, Target::Panel(Focus::Bays));
    let (first, bays) = bay::window(session, MOST);
    if bays.is_empty() {
        return bay::wait(frame, theme, area);
    }
    studio.draw_up(session, &bays);
    let shown = bays.iter().filter_map(|bay| {
        let assessed = session.results().assessed()?;
        assessed.candidate(bay)
    });
    let shown: Vec<&Candidate> = shown.collect();
    let most = usize::from(area.height / LINES_A_DIFFERENCE).clamp(LEAST, MOST_DIFFERENCES);
    let columns = Layout::horizontal(bays.iter().map(|_| Constraint::Fill(1))).spacing(2);
    let rooms = columns.split(area);
    let is_stale = session.shows_stale();
    let height = |lines: &[Line]| u16::try_from(lines.len()).unwrap_or(u16::MAX);
    let candidates: Vec<Option<&Candidate>> = bays
        .iter()
        .map(|bay| session.results().assessed()?.candidate(bay))
        .collect();
    let feet: Vec<Vec<Line>> = candidates
        .iter()
        .zip(rooms.iter())
        .map(|(candidate, room)| {
            let mut foot = match candidate {
                None => Vec::new(),
                Some(it) if shown.len() < MOST => reason(it, theme, room.width),
                Some(it) => differences(it, &shown, most, theme, room.width),
            };
            foot.extend(candidate.and_then(|it| av_block(it, &foot, theme, room.width)));
            foot
        })
        .collect();
    // All pictures lie between the longest words, so that their levels are one.
    let foot_height = feet.iter().map(|foot| height(foot)).max().unwrap_or(0);
    // A figure that is cut is another figure.
    let is_large = area.height.saturating_sub(foot_height) >= HEAD + LARGE + PICTURE;
    let heads: Vec<Vec<Line>> = candidates
        .iter()
        .enumerate()
        .map(|(index, candidate)| {
            let width = rooms[index].width;
            let name = bay::name(session, &bays[index], *candidate);
            let is_selected = has_keys(session, Focus::Bays)
                && bays.len() > 1
                && first + index == session.view().selected[Focus::Bays];
            let mut head = heading((&name, is_selected), *candidate, theme, width);
            if let Some(it) = candidate {
                head.extend(chance(it, is_large, is_stale, theme, width));
            }
            head
        })
        .collect();
    let head_height = heads.iter().map(|head| height(head)).max().unwrap_or(0);
    let mut pictures = Vec::new();
    for (index, (head, foot)) in heads.into_iter().zip(feet).enumerate() {
        bay::note(session, &bays[index], rooms[index], seen);
        let [top, picture, bottom] = Layout::vertical([
            Constraint::Length(head_height),
            Constraint::Min(1),
            Constraint::Length(foot_height),
        ])
        .areas(rooms[index]);
        lines::draw(frame, lines::stale(head, is_stale, theme), top);
        pictures.push(picture);
        lines::draw(frame, lines::stale(foot, is_stale, theme), bottom);
    }
    studio.draw_alone(frame, theme, &pictures);
}

/// Name and verdict.
fn heading(
    (name, is_selected): (&str, bool),
    candidate: Option<&Candidate>,
    theme: Theme,
    width: u16,
) -> Vec<Line<'static>> {
    let name = fitted_at_end(&visible(name), usize::from(width));
    let style = if is_selected {
        theme.selected(true)
    } else {
        theme.strong()
    };
    let verdict = candidate.map(|candidate| {
        let verdict = candidate.judged.verdict;
        let said = format!("{} {}", told::verdict_glyph(verdict), verdict.word());
        Line::styled(said, theme.verdict(verdict))
    });
    let name = Line::styled(name, style);
    std::iter::once(name).chain(verdict).collect()
}

/// What the chance is of.
const INSIDE: &str = "inside limits (geometry only)";

/// The chance, in large figures where there is room for them.
fn chance(
    candidate: &Candidate,
    is_large: bool,
    is_stale: bool,
    theme: Theme,
    width: u16,
) -> Vec<Line<'static>> {
    let Some(chances) = candidate.chances else {
        return Vec::new();
    };
    let style = theme.verdict(candidate.judged.verdict);
    let of = if is_stale {
        format!("{INSIDE} {}", lines::OF_BEFORE)
    } else {
        INSIDE.to_owned()
    };
    let of = fitted(&of, usize::from(width));
    // Large figures leave no room for what makes them a bound.
    let is_bound = !told::at_most(candidate).is_empty();
    if !is_large || is_bound {
        return vec![Line::from(vec![
            Span::styled(ranking::chance(candidate), style),
            Span::styled(format!(" {of}"), theme.dim()),
        ])];
    }
    let text = format!("{:.0}%", 100.0 * chances.chance.value);
    let rows = (0..LARGE).map(|row| {
        let row: Vec<&str> = text.chars().map(|letter| large(letter, row)).collect();
        Line::styled(row.join(" "), style)
    });
    rows.chain([Line::styled(of, theme.dim())]).collect()
}

/// What a candidate says where it is not like the other, line by line as the other
/// does, and in how many checks they are alike.
fn differences(
    candidate: &Candidate,
    all: &[&Candidate],
    most: usize,
    theme: Theme,
    width: u16,
) -> Vec<Line<'static>> {
    let (differ, alike) = differing(all);
    let width = usize::from(width);
    let mut lines: Vec<Line> = differ
        .iter()
        .take(most)
        .map(|&asked| match outcome(candidate, asked) {
            None => Line::styled("–", theme.dim()),
            Some(outcome) => {
                let glyph = told::state_glyph(outcome.state);
                let value = told::value(outcome).unwrap_or_else(|| "–".to_owned());
                let name = told::name(outcome, width.saturating_sub(VALUE + 2));
                let text = format!("{glyph} {name}{value:>VALUE$}");
                Line::styled(text, theme.state(outcome.state))
            }
        })
        .collect();
    let more = match differ.len().saturating_sub(most) {
        0 => String::new(),
        more => format!("; differ in {more} more"),
    };
    let says = format!("alike in {alike} checks{more}");
    lines.push(Line::styled(fitted(&says, width), theme.dim()));
    lines
}

/// What keeps it from being better, in the first sentence.
fn reason(candidate: &Candidate, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let because = candidate.judged.because.first();
    // Few words: the first clause.
    let because = because.and_then(|because| because.split(';').next());
    let because = because.unwrap_or("no limit is broken as measured");
    wrapped(&visible(because), usize::from(width))
        .into_iter()
        .take(REASON)
        .map(|line| Line::styled(line, theme.text()))
        .collect()
}

/// The warning of AV block, where the lines under a picture leave it out.
fn av_block(
    candidate: &Candidate,
    foot: &[Line],
    theme: Theme,
    width: u16,
) -> Option<Line<'static>> {
    let outcome = told::av_block(candidate)?;
    let says = format!("{} {}", told::state_glyph(outcome.state), outcome.says);
    let title = outcome.title.split(',').next().unwrap_or_default();
    let is_there = foot.iter().any(|line| line.to_string().contains(title));
    let says = fitted(&visible(&says), usize::from(width));
    (!is_there).then(|| Line::styled(says, theme.state(outcome.state)))
}

/// One row of a large figure.
fn large(letter: char, row: u16) -> &'static str {
    let rows: [&str; LARGE as usize] = match letter {
        '0' => ["███", "█ █", "█ █", "█ █", "███"],
        '1' => [" █ ", "██ ", " █ ", " █ ", "███"],
        '2' => ["███", "  █", "███", "█  ", "███"],
        '3' => ["███", "  █", "███", "  █", "███"],
        '4' => ["█ █", "█ █", "███", "  █", "  █"],
        '5' => ["███", "█  ", "███", "  █", "███"],
        '6' => ["███", "█  ", "███", "█ █", "███"],
        '7' => ["███", "  █", "  █", " █ ", " █ "],
        '8' => ["███", "█ █", "███", "█ █", "███"],
        '9' => ["███", "█ █", "███", "  █", "███"],
        '%' => ["█  █", "  █ ", " █  ", "█  █", "    "],
        _ => ["   "; LARGE as usize],
    };
    rows[usize::from(row)]
}
