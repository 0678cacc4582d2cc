//! Lines of text, cut to their room, and the headings of panels.

use crate::text::fitted_at_end;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Modifier;
use ratatui::text::{Line, Span};
use session::Editor;
use unicode_width::UnicodeWidthStr;

/// Draws lines from the top of an area.
pub(super) fn draw(frame: &mut Frame, lines: Vec<Line>, area: Rect) {
    let area = area.intersection(frame.area());
    let buffer = frame.buffer_mut();
    for (row, line) in area.rows().zip(lines) {
        buffer.set_line(row.x, row.y, &line, row.width);
    }
}

/// A line of text as it is edited, its cursor reversed and, where the line is longer
/// than so many columns, in sight.
pub(super) fn edited(editor: &Editor, theme: Theme, room: usize) -> [Span<'static>; 3] {
    let whole = visible(editor.before()).into_owned();
    let behind = visible(editor.after()).width() + usize::from(editor.after().is_empty());
    let most = room.saturating_sub(behind).max(room / 2);
    let before = if whole.width() > most {
        fitted_at_end(&whole, most)
    } else {
        whole
    };
    if editor.is_selected() {
        let text = before;
        return [
            Span::styled(text, theme.text().add_modifier(Modifier::REVERSED)),
            Span::raw(""),
            Span::raw(""),
        ];
    }
    let letter = editor.under();
    let rest = editor.after().get(letter.len()..).unwrap_or_default();
    let under = if letter.is_empty() { " " } else { letter };
    [
        Span::raw(before),
        Span::styled(
            visible(under).into_owned(),
            theme.text().add_modifier(Modifier::REVERSED),
        ),
        Span::raw(visible(rest).into_owned()),
    ]
}

/// The heading of a panel with a rule behind it; the area under it.
pub(super) fn headed(
    frame: &mut Frame,
    title: &str,
    beside: &str,
    focused: bool,
    theme: Theme,
    area: Rect,
) -> Rect {
    let mark = if focused { "▌" } else { " " };
    let rule =
        usize::from(area.width).saturating_sub(mark.width() + title.width() + beside.width() + 2);
    let line = Line::from(vec![
        Span::styled(format!("{mark}{title} "), theme.heading(focused)),
        Span::styled("─".repeat(rule), theme.dim()),
        Span::styled(format!(" {beside}"), theme.dim()),
    ]);
    draw(
        frame,
        vec![line],
        Rect {
            height: area.height.min(1),
            ..area
        },
    );
    Rect {
        y: area.y + 1,
        height: area.height.saturating_sub(1),
        ..area
    }
}

/// A list of so many lines, as far as it has room: the selected one marked and in sight,
/// with how many stand above and below. Gives the lines there is room for.
pub(super) fn draw_choices(
    frame: &mut Frame,
    theme: Theme,
    area: Rect,
    (selected, count): (usize, usize),
    line: impl Fn(usize) -> Line<'static>,
) -> usize {
    let room = usize::from(area.height);
    let first = first_shown(selected, count, room);
    let shown = (first..count).take(room).map(|index| {
        let line = line(index);
        if index == selected {
            line.patch_style(theme.selected(true))
        } else {
            line
        }
    });
    draw(frame, shown.collect(), area);
    draw_more(frame, theme, area, first, count);
    room
}

/// At the right end of the first and the last line of a list how many lines stand above
/// and below those that are shown.
pub(super) fn draw_more(frame: &mut Frame, theme: Theme, area: Rect, first: usize, count: usize) {
    let area = area.intersection(frame.area());
    let room = usize::from(area.height);
    let below = count.saturating_sub(first + room);
    let marks = [
        (first, "↑", area.y),
        (below, "↓", area.bottom().saturating_sub(1)),
    ];
    for (more, arrow, y) in marks {
        let text = format!(" {arrow} {more} more");
        let width = u16::try_from(text.width()).unwrap_or(u16::MAX);
        if more == 0 || width > area.width || area.height < 2 {
            continue;
        }
        let x = area.right() - width;
        let buffer = frame.buffer_mut();
        buffer.set_stringn(x, y, &text, usize::from(width), theme.strong());
    }
}

/// Which of a list are shown, where not all are: `1–9 of 158`.
pub(super) fn shown_of(first: usize, room: usize, count: usize) -> String {
    if count <= room {
        return count.to_string();
    }
    format!("{}–{} of {count}", first + 1, (first + room).min(count))
}

/// What stands beside a heading: where what is under it is stale, that it is.
pub(super) const fn of_before(is_stale: bool, beside: &str) -> &str {
    if is_stale { OF_BEFORE } else { beside }
}

/// What is said of results that are not of the case as it stands.
pub(super) const OF_BEFORE: &str = "before the last change";

/// Lines of results, dimmed whole where they are stale.
pub(super) fn stale(
    mut lines: Vec<Line<'static>>,
    is_stale: bool,
    theme: Theme,
) -> Vec<Line<'static>> {
    if is_stale {
        for line in &mut lines {
            for span in &mut line.spans {
                span.style = theme.stale();
            }
            line.style = line.style.patch(theme.stale());
        }
    }
    lines
}

/// The first of `count` lines that are shown so that the selected one is among
/// them.
pub(super) fn first_shown(selected: usize, count: usize, room: usize) -> usize {
    let last_first = count.saturating_sub(room);
    selected.saturating_sub(room / 2).min(last_first)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_cursor_of_a_line_longer_than_its_room_is_in_sight() {
        let mut editor = Editor::new("/a/path/of/心/many/folders/to/a/case.ron");
        for room in [0, 1, 2, 9, 20, 60] {
            for key in ["end", "left", "home", "right"] {
                editor.key(key.parse().unwrap());
                let [before, under, _] = edited(&editor, Theme::MONO, room);
                let seen = before.width() + under.width();
                assert!(seen <= room.max(2), "{room} {key}: {before:?} {under:?}");
            }
        }
    }

    #[test]
    fn the_selected_line_is_always_shown() {
        for count in 0..20 {
            for room in 1..25 {
                for selected in 0..count {
                    let first = first_shown(selected, count, room);
                    assert!((first..first + room).contains(&selected));
                    assert!(first + room <= count || first == 0);
                }
            }
        }
    }
}
