//! A field for one line, over the page.

use super::lines;
use crate::text::wrapped;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Modifier;
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::Field;
use sizing::State;

/// Draws a field at the foot of the page.
pub(super) fn draw(frame: &mut Frame, field: &Field, theme: Theme, area: Rect) {
    let mut told = vec![Line::styled(
        visible(&field.prompt.title()).into_owned(),
        theme.strong(),
    )];
    let (behind, rest) = split_first(field.editor.after());
    told.push(Line::from(vec![
        Span::raw("› "),
        Span::raw(visible(field.editor.before()).into_owned()),
        Span::styled(
            visible(behind).into_owned(),
            theme.text().add_modifier(Modifier::REVERSED),
        ),
        Span::raw(visible(rest).into_owned()),
    ]));
    let help = field.error.as_deref().map_or_else(
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

/// The character under the cursor, a blank behind the last, and the rest.
fn split_first(text: &str) -> (&str, &str) {
    let end = text.chars().next().map_or(0, char::len_utf8);
    if end == 0 {
        (" ", "")
    } else {
        text.split_at(end)
    }
}
