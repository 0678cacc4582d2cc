//! The guide: one question, and the list of all beside it.

use super::footer;
use super::lines::{self, first_shown};
use crate::text::{fitted, wrapped};
use crate::tui::theme::Theme;
use files::visible;
use paper::CAUTION_IN_A_LINE;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::{Guide, GuideLine, Mark, Session};
use sizing::State;
use unicode_width::UnicodeWidthStr;

/// From this width on all questions stand beside the one that is asked.
const TWO_COLUMNS: u16 = 76;
/// From this width on they stand there under their full names.
const ROOMY: u16 = 110;
/// Columns of an answer in the list.
const ANSWER: usize = 10;
/// Columns of the word before what is said of a question.
const WORD: usize = 10;

/// Draws a guide over the whole page.
pub(super) fn draw(frame: &mut Frame, session: &Session, guide: &Guide, theme: Theme, area: Rect) {
    frame.render_widget(Clear, area);
    let width = usize::from(area.width);
    let caution = wrapped(CAUTION_IN_A_LINE, width);
    let [top, under, body, foot] = Layout::vertical([
        Constraint::Length(1),
        Constraint::Length(u16::try_from(caution.len()).unwrap_or(0).min(2)),
        Constraint::Min(1),
        Constraint::Length(footer::HEIGHT),
    ])
    .areas(area);
    let case = session.document().case();
    let title = format!("Guide · {} · {}", case.title, case.site.label());
    let (open, all) = guide.open_of(session);
    let beside = format!("{open} of {all} open");
    let room = width.saturating_sub(beside.width() + 4);
    let title = fitted(&visible(&title), room);
    lines::headed(frame, title.trim_end(), &beside, true, theme, top);
    let caution = caution
        .into_iter()
        .map(|line| Line::styled(line, theme.dim()));
    lines::draw(frame, caution.collect(), under);
    footer::draw(frame, session, theme, foot);
    if area.width < TWO_COLUMNS {
        lines::draw(frame, question(session, guide, theme, body.width), body);
        return;
    }
    let left = if area.width < ROOMY { 31 } else { 54 };
    let [list, right] = Layout::horizontal([Constraint::Length(left), Constraint::Min(1)])
        .spacing(2)
        .areas(body);
    lines::draw(frame, listed(session, guide, theme, list), list);
    lines::draw(frame, question(session, guide, theme, right.width), right);
}

/// Draws the question alone, where there is room for nothing else.
pub(super) fn small(frame: &mut Frame, session: &Session, guide: &Guide, theme: Theme, area: Rect) {
    frame.render_widget(Clear, area);
    let [body, foot] = Layout::vertical([Constraint::Min(1), Constraint::Length(1)]).areas(area);
    lines::draw(frame, question(session, guide, theme, body.width), body);
    lines::draw(frame, vec![footer::keys(session, theme, foot.width)], foot);
}

/// The questions under their chapters, the one that is asked now among them.
fn listed(session: &Session, guide: &Guide, theme: Theme, area: Rect) -> Vec<Line<'static>> {
    let width = usize::from(area.width);
    let mut all = Vec::new();
    let mut chapter = None;
    let mut asked = 0;
    for (place, one) in guide.listed(session).into_iter().enumerate() {
        if chapter != Some(one.chapter) {
            chapter = Some(one.chapter);
            all.push(Line::styled(one.chapter.title(), theme.strong()));
        }
        let is_asked = place == guide.place();
        if is_asked {
            asked = all.len();
        }
        all.push(in_a_line(&one, is_asked, theme, width));
    }
    let room = usize::from(area.height);
    let first = first_shown(asked, all.len(), room);
    all.into_iter().skip(first).take(room).collect()
}

fn in_a_line(one: &GuideLine, is_asked: bool, theme: Theme, width: usize) -> Line<'static> {
    let (glyph, style) = mark(one.mark, theme);
    let answer = visible(&one.answer).into_owned();
    let answer = if answer.is_empty() {
        answer
    } else {
        format!(" {}", fitted(&answer, ANSWER.min(answer.width())))
    };
    let room = width.saturating_sub(2 + answer.width());
    let name = visible(&one.name).into_owned();
    let name = if name.width() <= room {
        name
    } else {
        visible(&one.short).into_owned()
    };
    let style = if is_asked {
        style.patch(theme.selected(true))
    } else {
        style
    };
    Line::styled(format!("{glyph} {}{answer}", fitted(&name, room)), style)
}

fn mark(mark: Mark, theme: Theme) -> (&'static str, Style) {
    match mark {
        Mark::Given => ("✓", theme.text()),
        Mark::Open => ("?", theme.state(State::Caution)),
        Mark::Assumed => ("~", theme.dim()),
        Mark::Not => ("–", theme.text()),
        Mark::Stops => ("✗", theme.state(State::Stop)),
        Mark::Left => (" ", theme.dim()),
    }
}

/// The question that is asked now with what is to be known of it.
fn question(session: &Session, guide: &Guide, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let width = usize::from(width);
    let told = guide.told(session);
    let mut lines = wrapped_in(&told.title, theme.strong(), width);
    if let Some(unit) = told.unit {
        // What was typed may bring a unit of its own: 11 months are no 11 years.
        let has_unit = guide.editor.text().contains(char::is_alphabetic);
        let unit = if has_unit { "" } else { unit };
        let mut field = vec![Span::raw("› ")];
        let taken = unit.width() + 3;
        let room = width.saturating_sub(taken);
        field.extend(lines::edited(&guide.editor, theme, room));
        field.push(Span::styled(format!(" {unit}"), theme.text()));
        lines.push(Line::from(field));
    }
    if let Some(asked) = &guide.asks {
        let question = format!("? {}", asked.asks);
        lines.extend(wrapped_in(&question, theme.strong(), width));
    }
    if let Some(error) = &guide.error {
        let style = theme.state(State::Caution);
        lines.extend(wrapped_in(&format!("! {error}"), style, width));
    }
    if let Some(grave) = told.grave {
        lines.extend(wrapped_in(grave, theme.state(State::Stop), width));
    }
    if let Some(remark) = &guide.remark {
        let remark = format!("! Noted, but {remark}. Up goes back.");
        lines.extend(wrapped_in(&remark, theme.state(State::Caution), width));
    }
    lines.push(Line::raw(""));
    for (word, says) in &told.says {
        let says = wrapped(&visible(says), width.saturating_sub(WORD));
        for (index, line) in says.into_iter().enumerate() {
            let before = if index == 0 { *word } else { "" };
            lines.push(Line::from(vec![
                Span::styled(fitted(before, WORD), theme.dim()),
                Span::raw(line),
            ]));
        }
    }
    lines
}

fn wrapped_in(text: &str, style: Style, width: usize) -> Vec<Line<'static>> {
    let lines = wrapped(&visible(text), width).into_iter();
    lines.map(|line| Line::styled(line, style)).collect()
}
