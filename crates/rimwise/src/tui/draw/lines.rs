//! Lines of text, cut to their room, and the headings of panels.

use crate::tui::theme::Theme;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;
use unicode_width::UnicodeWidthStr;

/// Draws lines from the top of an area.
pub(super) fn draw(frame: &mut Frame, lines: Vec<Line>, area: Rect) {
    frame.render_widget(Paragraph::new(lines), area);
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
    let rule = usize::from(area.width)
        .saturating_sub(mark.width() + title.width() + beside.width() + 2);
    let line = Line::from(vec![
        Span::styled(format!("{mark}{title} "), theme.heading(focused)),
        Span::styled("─".repeat(rule), theme.dim()),
        Span::styled(format!(" {beside}"), theme.dim()),
    ]);
    draw(frame, vec![line], Rect { height: area.height.min(1), ..area });
    Rect { y: area.y + 1, height: area.height.saturating_sub(1), ..area }
}

/// Words broken into lines of a width at blanks; a word longer than a line is cut
/// into pieces.
pub(super) fn wrapped(text: &str, width: u16) -> Vec<String> {
    let width = usize::from(width.max(1));
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        for piece in pieces(word, width) {
            let Some(line) = lines.last_mut() else { continue };
            if line.is_empty() {
                line.push_str(&piece);
            } else if line.width() + 1 + piece.width() <= width {
                line.push(' ');
                line.push_str(&piece);
            } else {
                lines.push(piece);
            }
        }
    }
    lines
}

fn pieces(word: &str, width: usize) -> Vec<String> {
    let mut pieces = vec![String::new()];
    for letter in word.chars() {
        let Some(piece) = pieces.last_mut() else { continue };
        piece.push(letter);
        if piece.width() > width && piece.chars().count() > 1 {
            piece.pop();
            pieces.push(letter.to_string());
        }
    }
    pieces
}

/// A text of exactly a width: filled with blanks, or cut with `…`.
pub(super) fn fitted(text: &str, width: usize) -> String {
    if text.width() <= width {
        return format!("{text}{}", " ".repeat(width - text.width()));
    }
    let mut cut = String::new();
    for letter in text.chars() {
        cut.push(letter);
        if cut.width() + 1 > width {
            cut.pop();
            break;
        }
    }
    if width > 0 {
        cut.push('…');
    }
    let blanks = width.saturating_sub(cut.width());
    format!("{cut}{}", " ".repeat(blanks))
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

    #[test]
    fn words_wrap_and_long_ones_are_cut() {
        assert_eq!(wrapped("one two three", 7), ["one two", "three"]);
        assert_eq!(wrapped("abcdefgh", 3), ["abc", "def", "gh"]);
        assert_eq!(fitted("abcdef", 4), "abc…");
        assert_eq!(fitted("心室中隔", 5).width(), 5);
    }
}
