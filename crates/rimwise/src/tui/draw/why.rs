//! The walk through the neighbours of a size, the picture moving with each step.

use super::footer;
use super::lines;
use super::pictures::Studio;
use crate::text::{fitted, wrapped};
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::{Session, WhyWalk};
use sizing::why::{DimensionStep, WhyStep};
use sizing::{Candidate, State, device_name};
use unicode_width::UnicodeWidthStr;

/// From this width on a picture stands beside the words.
const TWO_COLUMNS: u16 = 72;
/// From this height on it does.
const LEAST_HEIGHT: u16 = 15;
/// Columns of a way's name: the longest is `next waist down`.
const NAME: usize = 15;

/// Draws the walk over the whole page.
pub(super) fn draw(
    frame: &mut Frame,
    session: &Session,
    walk: &WhyWalk,
    theme: Theme,
    (area, studio): (Rect, &mut Studio),
) {
    frame.render_widget(Clear, area);
    let [top, under, body, foot] = Layout::vertical([
        Constraint::Length(1),
        Constraint::Length(2),
        Constraint::Min(1),
        Constraint::Length(footer::HEIGHT),
    ])
    .areas(area);
    let title = format!("Why {}", device_name(&walk.name));
    let beside = format!("step {} of {}", walk.index + 1, walk.steps.len());
    let room = usize::from(area.width).saturating_sub(beside.width() + 4);
    let title = visible(&title).into_owned();
    let title = fitted(&title, room.min(title.width()));
    lines::headed(frame, &title, &beside, true, theme, top);
    let case = visible(&session.document().case().title).into_owned();
    let said = format!("{case} · as measured, one dimension changed at a time");
    let said = fitted(&said, usize::from(area.width));
    lines::draw(frame, vec![Line::styled(said, theme.dim())], under);
    footer::draw(frame, session, theme, foot);
    let is_wide = area.width >= TWO_COLUMNS && area.height >= LEAST_HEIGHT;
    if !is_wide {
        lines::draw(frame, told(walk, theme, body.width), body);
        return;
    }
    let [words, picture] = Layout::horizontal([Constraint::Fill(11), Constraint::Fill(9)])
        .spacing(2)
        .areas(body);
    lines::draw(frame, told(walk, theme, words.width), words);
    let Some(candidate) = walk.step().and_then(|step| step.candidate.as_ref()) else {
        return;
    };
    let name = visible(&device_name(&candidate.name())).into_owned();
    let under = lines::headed(frame, &name, "", false, theme, picture);
    let shown = session.document().shown();
    let left = session.view().looks.section_left;
    studio.draw_up_one(&walk.setting, candidate, (shown.valve, shown.face), left);
    studio.draw(frame, theme, &[under]);
}

/// Every step in a line, the one that is shown marked, and its sentence.
fn told(walk: &WhyWalk, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let width = usize::from(width);
    let steps = walk.steps.iter().enumerate();
    let mut lines: Vec<Line> = steps
        .map(|(index, step)| in_a_line(step, index == walk.index, theme, width))
        .collect();
    let Some(step) = walk.step() else {
        return lines;
    };
    lines.push(Line::raw(""));
    let says = wrapped(&visible(&step.says), width).into_iter();
    lines.extend(says.map(|line| Line::styled(line, theme.strong())));
    if step.candidate.is_some() && !step.is_made {
        let says = "Not in the catalogue: nobody need make this form.";
        let says = wrapped(says, width).into_iter();
        lines.extend(says.map(|line| Line::styled(line, theme.dim())));
    }
    lines
}

/// A step: its glyph, what is changed, and how it stands.
fn in_a_line(step: &WhyStep, is_shown: bool, theme: Theme, width: usize) -> Line<'static> {
    let state = step.candidate.as_ref().map(worst);
    let glyph = match state {
        None => " ",
        Some(State::Ok) => "✓",
        Some(State::Caution) => "!",
        Some(State::Stop) => "✗",
        Some(State::NotAssessed) => "?",
    };
    let size = step
        .candidate
        .as_ref()
        .filter(|_| step.is_made || step.way == DimensionStep::AsItIs)
        .map_or_else(String::new, |it| device_name(&it.name()));
    let stands = state.map_or("no such form", |state| match state {
        State::Ok => "inside",
        State::Caution => "warning",
        State::Stop => "over a limit",
        State::NotAssessed => "not assessed",
    });
    let style = state.map_or(theme.dim(), |state| theme.state(state));
    let style = if is_shown {
        style.patch(theme.selected(true))
    } else {
        style
    };
    let name = fitted(step.way.name(), NAME);
    let line = format!("{glyph} {name} {stands}");
    let room = width.saturating_sub(line.width() + 2);
    // The title names the shape: where the name has no room its size says it whole.
    let size = visible(&size).into_owned();
    let size = if size.width() <= room {
        size
    } else {
        let own = step.candidate.as_ref().map_or("", |it| &it.shape);
        let label = step.candidate.as_ref().map_or("", |it| &it.size.label);
        let label = visible(&size_of(own, label)).into_owned();
        fitted(&label, room.min(label.width()))
    };
    Line::from(vec![
        Span::styled(line, style),
        Span::styled(format!("  {size}"), theme.dim()),
    ])
}

/// A size without its shape: `6.5 × 3`.
fn size_of(shape: &str, label: &str) -> String {
    let whole = device_name(&format!("{shape}/{label}"));
    let shape = device_name(&format!("{shape}/"));
    let size = whole.strip_prefix(shape.as_str()).unwrap_or(&whole);
    size.trim().to_owned()
}

/// The worst state of the checks that were assessed.
fn worst(candidate: &Candidate) -> State {
    let states = candidate.outcomes.iter().map(|one| one.state);
    let assessed = states.filter(|state| *state != State::NotAssessed);
    assessed.max().unwrap_or(State::NotAssessed)
}
