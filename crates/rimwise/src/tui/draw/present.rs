//! The plan for a room: the pictures as large as the page lets them, and one sentence
//! a device.

use super::pictures::Studio;
use super::seen::Seen;
use super::{bay, has_keys, lines};
use crate::text::wrapped;
use crate::told::{self, told_before};
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::Line;
use session::{Focus, Session, Target};
use sizing::{Candidate, Outcome};

/// Most candidates shown at once.
const MOST: usize = 2;
/// Most lines of the sentence under a picture.
const SENTENCE: usize = 2;

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
    let columns = Layout::horizontal(bays.iter().map(|_| Constraint::Fill(1))).spacing(bay::GAP);
    let rooms = columns.split(area);
    let is_stale = session.shows_stale();
    let height = |lines: &[Line]| u16::try_from(lines.len()).unwrap_or(u16::MAX);
    let candidates: Vec<Option<&Candidate>> = bays
        .iter()
        .map(|bay| session.results().assessed()?.candidate(bay))
        .collect();
    let heads: Vec<Vec<Line>> = candidates
        .iter()
        .enumerate()
        .map(|(index, candidate)| {
            let name = bay::name(session, &bays[index], *candidate);
            let is_selected = has_keys(session, Focus::Bays)
                && bays.len() > 1
                && first + index == session.view().selected[Focus::Bays];
            heading((&name, is_selected), *candidate, theme, rooms[index].width)
        })
        .collect();
    let feet: Vec<Vec<Line>> = candidates
        .iter()
        .zip(rooms.iter())
        .enumerate()
        .map(|(index, (candidate, room))| {
            let legend = studio.legend(index, room.width);
            let legend = legend.map(|says| Line::styled(says, theme.dim()));
            let told = candidate.map(|it| foot(it, is_stale, theme, room.width));
            legend
                .into_iter()
                .chain(told.into_iter().flatten())
                .collect()
        })
        .collect();
    // All pictures lie between the longest words, so that their levels are one.
    let tallest = |all: &[Vec<Line>]| all.iter().map(|one| height(one)).max().unwrap_or(0);
    let (head_height, foot_height) = (tallest(&heads), tallest(&feet));
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
    let style = if is_selected {
        theme.selected(true)
    } else {
        theme.strong()
    };
    let name = wrapped(&visible(name), usize::from(width)).into_iter();
    let name = name.map(|line| Line::styled(line, style));
    let verdict = candidate.map(|candidate| {
        let verdict = candidate.judged.verdict;
        let said = format!("{} {}", told::verdict_glyph(verdict), verdict.word());
        Line::styled(said, theme.verdict(verdict))
    });
    name.chain(verdict).collect()
}

/// How often it stays inside the limits, and what is gravest of it; a warning of AV
/// block beside it where that is another.
fn foot(candidate: &Candidate, is_stale: bool, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let width = usize::from(width);
    let before = if is_stale {
        format!(", {}", lines::OF_BEFORE)
    } else {
        String::new()
    };
    let inside = candidate.chance_in_hundred().map(|count| {
        format!("inside every geometric limit in {count} simulated variations{before}")
    });
    let inside = inside.map_or_else(Vec::new, |says| wrapped(&says, width));
    let mut foot: Vec<Line> = inside
        .into_iter()
        .map(|line| Line::styled(line, theme.text()))
        .collect();
    let gravest = candidate
        .outcomes
        .iter()
        .min_by(|one, other| told_before(one, other));
    let av_block = told::av_block(candidate);
    let also = av_block.filter(|one| gravest.is_none_or(|it| it.check != one.check));
    let says = |outcome: &Outcome| {
        let glyph = told::state_glyph(outcome.state);
        let says = format!("{glyph} {}", told::phrase(outcome, SENTENCE * width));
        let lines = wrapped(&visible(&says), width).into_iter().take(SENTENCE);
        let style = theme.state(outcome.state);
        lines
            .map(|line| Line::styled(line, style))
            .collect::<Vec<_>>()
    };
    foot.extend(gravest.into_iter().chain(also).flat_map(says));
    foot
}
