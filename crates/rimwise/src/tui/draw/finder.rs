//! Quantities found by the words of the trade, over the page.

use super::footer;
use super::lines;
use super::readings;
use crate::text::fitted;
use crate::tui::theme::Theme;
use files::visible;
use measurement::Quantity;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::{Finder, Session};

/// Columns of a name.
const NAME: usize = 26;
/// Columns of a value.
const VALUE: usize = 22;
/// Columns of what stands before the line that is typed.
const MARK: u16 = 7;

/// Draws the list over the page; says how many lines of it are seen.
pub(super) fn draw(
    frame: &mut Frame,
    session: &Session,
    finder: &Finder,
    theme: Theme,
    area: Rect,
) -> usize {
    frame.render_widget(Clear, area);
    let found = finder.found(session);
    let [top, body, foot] = Layout::vertical([
        Constraint::Length(2),
        Constraint::Min(1),
        Constraint::Length(1),
    ])
    .areas(area);
    let hint = match found.len() {
        0 => "nothing has that name".to_owned(),
        1 => "1 quantity".to_owned(),
        count => format!("{count} quantities"),
    };
    let typed = lines::headed(frame, "Find a quantity", &hint, true, theme, top);
    let mut spans = vec![Span::raw("find › ")];
    let room = usize::from(area.width.saturating_sub(MARK));
    spans.extend(lines::edited(&finder.filter.editor, theme, room));
    lines::draw(frame, vec![Line::from(spans)], typed);
    let choice = (finder.filter.selected, found.len());
    let room = lines::draw_choices(frame, theme, body, choice, |index| {
        row(session, found[index], theme, usize::from(body.width))
    });
    lines::draw(frame, vec![footer::keys(session, theme, foot.width)], foot);
    room
}

/// Its short name, what counts of it, and what else it is called.
fn row(session: &Session, quantity: Quantity, theme: Theme, width: usize) -> Line<'static> {
    let value = readings::in_a_line(session, quantity, theme);
    let called = match quantity.trade_words() {
        "" => quantity.label().to_owned(),
        words => format!("{quantity}; {words}"),
    };
    let rest = width.saturating_sub(NAME + VALUE);
    Line::from(vec![
        Span::styled(fitted(&quantity.short_name(), NAME), theme.text()),
        Span::styled(fitted(&visible(&value), VALUE), theme.text()),
        Span::styled(fitted(&called, rest), theme.dim()),
    ])
}
