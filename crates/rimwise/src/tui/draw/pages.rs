//! The pages beside the plan.

pub(super) mod doubt;
pub(super) mod fit_map;
pub(super) mod rules;
pub(super) mod shelf;
pub(super) mod trials;
pub(super) mod work_up;

use super::lines;
use super::seen::Seen;
use crate::text::wrapped;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Line;
use session::{Focus, Target};

/// A sentence in lines of a width.
fn said(text: &str, style: Style, width: u16) -> Vec<Line<'static>> {
    wrapped(&visible(text), usize::from(width))
        .into_iter()
        .map(|line| Line::styled(line, style))
        .collect()
}

/// A list of which some lines can be selected.
#[derive(Default)]
pub(in crate::tui::draw) struct List {
    lines: Vec<Line<'static>>,
    /// The first line of each entry that can be selected.
    entries: Vec<usize>,
}

impl List {
    /// All its lines.
    pub(in crate::tui::draw) fn into_lines(self) -> Vec<Line<'static>> {
        self.lines
    }

    /// Adds lines that cannot be selected.
    fn say(&mut self, lines: Vec<Line<'static>>) {
        self.lines.extend(lines);
    }

    /// Adds an entry, marked where it is the selected one.
    fn entry(&mut self, lines: Vec<Line<'static>>, selected: usize, theme: Theme) {
        let is_selected = self.entries.len() == selected;
        self.entries.push(self.lines.len());
        self.lines.extend(lines.into_iter().map(|line| {
            if is_selected {
                line.patch_style(theme.selected(true))
            } else {
                line
            }
        }));
    }

    /// Draws the list so that the selected entry is seen, dimmed where it is of
    /// before the last change; notes how many entries are seen.
    fn draw(
        self,
        frame: &mut Frame,
        selected: usize,
        (is_stale, theme): (bool, Theme),
        (area, focus): (Rect, Focus),
        seen: &mut Seen,
    ) {
        seen.note(area, Target::Panel(focus));
        let selected = selected.min(self.entries.len().saturating_sub(1));
        let count = self.lines.len();
        let (first, shown, entries) = self.shown(selected, usize::from(area.height));
        lines::draw(frame, lines::stale(shown, is_stale, theme), area);
        lines::draw_more(frame, theme, area, first, count);
        for &(entry, line) in &entries {
            seen.note_line(area, line, Target::Line(focus, entry));
        }
        seen.visible.panels[focus] = entries.len().max(1);
    }

    /// The first line that is shown and those from there, so that the selected entry is
    /// among them, and the entries that begin there with their lines.
    fn shown(self, selected: usize, room: usize) -> Shown {
        let at = self.entries.get(selected).copied().unwrap_or(0);
        // The first entry is shown with all that is said over it.
        let at = if selected == 0 { 0 } else { at };
        let first = lines::first_shown(at, self.lines.len(), room);
        let is_shown = |line: usize| (first..first + room).contains(&line);
        let entries = self.entries.iter().copied().enumerate();
        let entries = entries
            .filter(|&(_, line)| is_shown(line))
            .map(|(entry, line)| (entry, line - first))
            .collect();
        let shown = self.lines.into_iter().skip(first).take(room).collect();
        (first, shown, entries)
    }
}

/// The first line that is shown, the lines, and the entries that begin there with theirs.
type Shown = (usize, Vec<Line<'static>>, Vec<(usize, usize)>);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_selected_entry_is_among_those_shown() {
        for selected in 0..9 {
            let mut list = List::default();
            for entry in 0..9 {
                list.say(vec![Line::raw("said")]);
                list.entry(vec![Line::raw(entry.to_string())], selected, Theme::MONO);
            }
            let (_, shown, entries) = list.shown(selected, 5);
            assert!(
                shown
                    .iter()
                    .any(|line| line.to_string() == selected.to_string())
            );
            assert!((2..=3).contains(&entries.len()));
        }
    }
}
