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
        visible(&field.of.title()).into_owned(),
        theme.strong(),
    )];
    let mut edited = vec![Span::raw("› ")];
    let room = usize::from(area.width.saturating_sub(MARK));
    let editor = field.editor();
    edited.extend(
        editor
            .into_iter()
            .flat_map(|it| lines::edited(it, theme, room)),
    );
    told.push(Line::from(edited));
    let asked = field.asks.as_ref().map(|asked| asked.asks.as_str());
    let (help, style) = match (asked, field.error.as_deref()) {
        (Some(asked), _) => (asked, theme.strong()),
        (None, Some(error)) => (error, theme.state(State::Caution)),
        (None, None) => ("Enter accepts, Esc cancels", theme.dim()),
    };
    let help = wrapped(&visible(help), usize::from(area.width));
    let help = help.into_iter().map(|line| Line::styled(line, style));
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
