//! What the cases of a folder say together, over the whole page.

use super::footer;
use super::lines;
use crate::text::{fitted_at_end, wrapped};
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::{LookBackPage, Session};
use sizing::State;

const TITLE: &str = "Look-back: foretold and seen";

/// Draws the look-back over the page; says how many of its lines are seen.
pub(super) fn draw(
    frame: &mut Frame,
    session: &Session,
    page: &LookBackPage,
    theme: Theme,
    area: Rect,
) -> usize {
    frame.render_widget(Clear, area);
    let width = usize::from(area.width);
    let proposed = proposed(session, page, theme, width);
    let height = u16::try_from(proposed.len()).unwrap_or(u16::MAX);
    let [top, body, under, foot] = Layout::vertical([
        Constraint::Length(1),
        Constraint::Min(1),
        Constraint::Length(height.min(area.height / 2)),
        Constraint::Length(1),
    ])
    .areas(area);
    let folder = visible(&page.folder.display().to_string()).into_owned();
    let room = width.saturating_sub(TITLE.len() + 4).min(folder.len());
    let folder = fitted_at_end(&folder, room);
    lines::headed(frame, TITLE, &folder, true, theme, top);
    let seen = usize::from(body.height);
    let shown = page.lines.iter().skip(page.above).take(seen);
    let shown = shown.map(|line| {
        let line = visible(line).into_owned();
        let is_heading = line.starts_with(|first: char| !first.is_whitespace());
        let style = if is_heading {
            theme.text()
        } else {
            theme.dim()
        };
        Line::styled(line, style)
    });
    let shown: Vec<Line> = match &page.found {
        None => vec![Line::styled(reading(session), theme.dim())],
        Some(Err(why)) => told(why, theme, width),
        Some(Ok(_)) => shown.collect(),
    };
    lines::draw(frame, shown, body);
    lines::draw(frame, proposed, under);
    lines::draw(frame, vec![footer::keys(session, theme, foot.width)], foot);
    seen
}

fn reading(session: &Session) -> &'static str {
    if session.is_unsaved() {
        "reading the cases …; what is not saved of this one is not counted"
    } else {
        "reading the cases …"
    }
}

fn told(why: &str, theme: Theme, width: usize) -> Vec<Line<'static>> {
    let why = wrapped(&visible(why), width).into_iter();
    let style = theme.state(State::Caution);
    why.map(|line| Line::styled(line, style)).collect()
}

/// What is proposed for your centre's rules, each on its key.
fn proposed(
    session: &Session,
    page: &LookBackPage,
    theme: Theme,
    width: usize,
) -> Vec<Line<'static>> {
    let Some(Ok(_)) = &page.found else {
        return Vec::new();
    };
    let proposals = page.proposals(session.document().rules());
    let title = if proposals.is_empty() {
        "Nothing is proposed for your centre's rules."
    } else {
        "Proposed for your centre's rules; a person decides"
    };
    let mut all = vec![Line::raw(""), Line::styled(title, theme.strong())];
    for one in proposals {
        let (key, style) = if one.is_there {
            ("✓ ".to_owned(), theme.dim())
        } else {
            (format!("{} ", one.key), theme.strong())
        };
        all.push(Line::from(vec![
            Span::styled(key, style),
            Span::styled(visible(&one.label).into_owned(), theme.text()),
        ]));
        let says = if one.is_there {
            "in the rules already".to_owned()
        } else {
            one.says
        };
        all.push(Line::styled(format!("  {says}"), theme.dim()));
    }
    if !page.refused.is_empty() {
        all.extend(told(&format!("! {}", page.refused), theme, width));
    }
    all
}
