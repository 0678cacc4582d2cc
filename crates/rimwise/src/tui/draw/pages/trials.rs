//! Trials: release criteria written before, what is seen of an open device, and what it
//! changes. No word, state or colour here says or advises to release.

mod again;
mod head;
mod later;
mod row;

use super::{List, Seen, said};
use crate::tui::draw::lines;
use crate::tui::theme::Theme;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use session::{Focus, Session, Target};
use sizing::State;

/// From this width on what was seen has a wide column beside it.
const WIDE: u16 = 110;
/// Columns of what follows from what was seen, where there is little room.
const NARROW_BESIDE: u16 = 29;
/// From this height on the rows have air between them.
const ROOMY: u16 = 30;
/// Deployments that are past, at most.
const MOST_PAST: usize = 4;

/// What no figure of the page can say.
const CAUTION: &str =
    "No figure here says to release or to stop; where the device lies is a model.";

/// Draws the page.
pub(in crate::tui::draw) fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    seen: &mut Seen,
) {
    let head = head::lines(session, theme, area.width);
    let most = area.height / 3;
    let head_height = u16::try_from(head.len()).unwrap_or(u16::MAX).min(most);
    let is_roomy = area.height + 6 >= ROOMY;
    let most_past = if is_roomy { MOST_PAST } else { 1 };
    let past = past(session, theme, area.width, most_past);
    let past_height = u16::try_from(past.len()).unwrap_or(u16::MAX);
    let [top, names, body, foot] = Layout::vertical([
        Constraint::Length(head_height),
        Constraint::Length(1),
        Constraint::Min(1),
        Constraint::Length(past_height),
    ])
    .areas(area);
    lines::draw(frame, head, top);
    panels(frame, session, theme, names, seen);
    lines::draw(frame, past, foot);
    let beside = if area.width < WIDE {
        Constraint::Length(NARROW_BESIDE)
    } else {
        Constraint::Percentage(38)
    };
    let [rows, beside] = Layout::horizontal([Constraint::Min(1), beside])
        .spacing(1)
        .areas(body);
    let focus = focus(session);
    let list = rows_of(session, focus, theme, rows.width, is_roomy);
    let place = session.trial_place(focus);
    list.draw(frame, place, (false, theme), (rows, focus), seen);
    let most = usize::from(beside.height);
    let follows = match focus {
        Focus::FollowUp => later::lines(session, theme, beside.width, most),
        _ => again::lines(session, theme, beside.width, most),
    };
    lines::draw(frame, follows, beside);
}

/// The panel that is shown.
fn focus(session: &Session) -> Focus {
    match session.view().focus {
        of_trials @ (Focus::Before | Focus::FollowUp) => of_trials,
        _ => Focus::Trials,
    }
}

/// The names of the panels, the shown one marked.
fn panels(frame: &mut Frame, session: &Session, theme: Theme, area: Rect, seen: &mut Seen) {
    let shown = focus(session);
    let mut spans = Vec::new();
    let mut x = area.x;
    for &panel in Focus::OF_TRIALS {
        let span = if panel == shown {
            Span::styled(format!("[ {} ]", panel.name()), theme.heading(true))
        } else {
            Span::styled(format!("  {}  ", panel.name()), theme.dim())
        };
        let width = u16::try_from(span.width()).unwrap_or(0);
        let room = Rect { x, width, ..area };
        seen.note(room.intersection(area), Target::Panel(panel));
        x = x.saturating_add(width);
        spans.push(span);
    }
    lines::draw(frame, vec![Line::from(spans)], area);
}

/// The rows of a panel.
fn rows_of(session: &Session, focus: Focus, theme: Theme, width: u16, is_roomy: bool) -> List {
    let mut list = List::default();
    let rows = session.trial_rows(focus);
    let selected = session.trial_place(focus);
    if focus == Focus::FollowUp && session.day().is_none() {
        let says = "No device was released: a follow-up begins with its release.";
        list.say(said(says, theme.text(), width));
    }
    if rows.is_empty() {
        let says = "No size is pinned: pin what is to be opened on the plan page ([plan_page]), \
                    then [write_criteria] writes its release criteria.";
        let says = &session.with_keys(says);
        list.say(said(says, theme.text(), width));
    }
    let mut over = None;
    for row in &rows {
        let heading = row::heading(session, row);
        if over != heading {
            over = heading;
            let heading = over.unwrap_or_default();
            list.say(vec![Line::styled(heading, theme.heading(false))]);
        }
        list.entry(row::lines(session, row, theme, width), selected, theme);
        if is_roomy && row::is_tall(row) {
            list.say(vec![Line::default()]);
        }
    }
    list
}

/// So many deployments that are closed, the room, and what no figure can say: that is
/// never cut.
fn past(session: &Session, theme: Theme, width: u16, most: usize) -> Vec<Line<'static>> {
    let mut lines: Vec<Line<'static>> = head::closed(session)
        .into_iter()
        .take(most)
        .map(|says| Line::styled(crate::text::fitted(&says, usize::from(width)), theme.text()))
        .collect();
    lines.extend(said(CAUTION, theme.dim(), width));
    lines
}

/// The page as lines of text, both panels whole.
pub(in crate::tui::draw) fn text(
    session: &Session,
    theme: Theme,
    width: u16,
) -> Vec<Line<'static>> {
    let mut lines = head::lines(session, theme, width);
    for &panel in Focus::OF_TRIALS {
        lines.push(Line::raw(panel.name()));
        lines.extend(rows_of(session, panel, theme, width, false).into_lines());
    }
    lines.extend(again::lines(session, theme, width, usize::MAX));
    lines.extend(later::lines(session, theme, width, usize::MAX));
    lines.extend(past(session, theme, width, usize::MAX));
    lines
}

/// What holds every verdict, or is not as it was when criteria were written.
fn warnings(session: &Session) -> Vec<String> {
    let mut says = Vec::new();
    if session.changed_since_planned() {
        says.push(
            "! The readings, the rules or the catalogue changed since the criteria were written."
                .to_owned(),
        );
    }
    let assessed = session.results().assessed();
    let held = assessed
        .into_iter()
        .flat_map(|it| it.ranking.setting.held_by_trials());
    says.extend(held.map(|held| format!("! Held at borderline: {held}")));
    says
}

/// How a warning looks.
fn warning(theme: Theme) -> ratatui::style::Style {
    theme.state(State::Caution)
}
