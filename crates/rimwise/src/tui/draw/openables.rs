//! The cases that can be opened, over the whole page.

use super::footer;
use super::lines;
use crate::text::{fitted, fitted_at_end, wrapped};
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::{Openable, Openables, Session};
use sizing::State;

/// Columns of where a case comes from.
const ORIGIN: usize = 14;
/// The most columns of a case's name beside its title.
const NAME: usize = 38;

/// Columns of what stands before the line that is typed.
const MARK: u16 = 7;

/// Draws the list over the page; says how many lines of it are seen.
pub(super) fn draw(
    frame: &mut Frame,
    session: &Session,
    list: &Openables,
    theme: Theme,
    area: Rect,
) -> usize {
    frame.render_widget(Clear, area);
    let wrong = list.error.as_deref().unwrap_or_default();
    let wrong: Vec<Line> = wrapped(&visible(wrong), usize::from(area.width))
        .into_iter()
        .filter(|line| !line.is_empty())
        .map(|line| Line::styled(line, theme.state(State::Caution)))
        .collect();
    let said = u16::try_from(wrong.len()).unwrap_or(u16::MAX);
    let [top, under, body, foot] = Layout::vertical([
        Constraint::Length(2),
        Constraint::Length(said.min(area.height / 3)),
        Constraint::Min(1),
        Constraint::Length(1),
    ])
    .areas(area);
    let hint = "type a part of a name, or the path of a file";
    let typed = lines::headed(frame, "Open a case", hint, true, theme, top);
    let mut spans = vec![Span::raw("open › ")];
    let room = usize::from(area.width.saturating_sub(MARK));
    spans.extend(lines::edited(&list.filter.editor, theme, room));
    lines::draw(frame, vec![Line::from(spans)], typed);
    lines::draw(frame, wrong, under);
    let found = list.found();
    let choice = (list.filter.selected, found.len());
    let room = lines::draw_choices(frame, theme, body, choice, |index| {
        row(&found[index], theme, usize::from(body.width))
    });
    lines::draw(frame, vec![footer::keys(session, theme, foot.width)], foot);
    room
}

fn row(case: &Openable, theme: Theme, width: usize) -> Line<'static> {
    let name = case.name();
    let room = width.saturating_sub(ORIGIN);
    let origin = Span::styled(fitted(case.origin(), ORIGIN), theme.dim());
    if case.title().is_empty() {
        // The end of a path tells more than its beginning.
        return Line::from(vec![
            origin,
            Span::raw(fitted_at_end(&visible(&name), room)),
        ]);
    }
    let beside = room.min(NAME);
    Line::from(vec![
        origin,
        Span::raw(fitted(&visible(&name), beside)),
        Span::styled(
            fitted(&visible(case.title()), room.saturating_sub(beside)),
            theme.dim(),
        ),
    ])
}
