//! A field for one line, over the page.

use super::lines;
use crate::text::wrapped;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::Field;
use sizing::State;

/// Columns of what stands before the line.
const MARK: u16 = 2;

/// Draws a field at the foot of the page.
pub(super) fn draw(frame: &mut Frame, field: &Field, theme: Theme, area: Rect) {
    let mut told = vec![Line::styled(
        visible(&field.prompt.title()).into_owned(),
        theme.strong(),
    )];
    let mut edited = vec![Span::raw("› ")];
    let room = usize::from(area.width.saturating_sub(MARK));
    edited.extend(lines::edited(&field.editor, theme, room));
    told.push(Line::from(edited));
    let asked = field.asks.as_ref().map(|asked| asked.asks.as_str());
    let help = asked.or(field.error.as_deref()).map_or_else(
        || vec![Line::styled("Enter accepts, Esc cancels", theme.dim())],
        |error| {
            let lines = wrapped(&visible(error), usize::from(area.width));
            lines
                .into_iter()
                .map(|line| Line::styled(line, theme.state(State::Caution)))
                .collect()
        },
    );
    told.extend(help);
    let height = u16::try_from(told.len())
        .unwrap_or(u16::MAX)
        .min(area.height);
    let room = Rect {
        y: area.bottom() - height,
        height,
        ..area
    };
    frame.render_widget(Clear, room);
    lines::draw(frame, told, room);
}
