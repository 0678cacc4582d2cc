//! Whether the defect matters, and what is still unmeasured.

mod at_a_glance;

use super::{List, Seen, said};
use crate::tui::draw::lines;
use crate::tui::theme::Theme;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Line;
use session::{Focus, Session};
use workup::{Banner, Indication, Section, State};

/// Draws the page.
pub(in crate::tui::draw) fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    seen: &mut Seen,
) {
    let worked_up = session.results().worked_up();
    let is_stale = worked_up.is_some_and(|it| session.shows_as_before(it.generation));
    let beside = lines::of_before(is_stale, "");
    let area = lines::headed(frame, "Work-up", beside, true, theme, area);
    let list = list(session, theme, area.width);
    let selected = session.view().selected[Focus::WorkUp];
    let on = (area, Focus::WorkUp);
    list.draw(frame, selected, (is_stale, theme), on, seen);
}

/// What the page says, line by line.
pub(in crate::tui::draw) fn list(session: &Session, theme: Theme, width: u16) -> List {
    let mut list = List::default();
    match session.results().worked_up() {
        Some(it) => {
            list.say(banner(&it.page.banner, theme, width));
            list.say(at_a_glance::lines(&it.page, theme, width));
            for section in &it.page.sections {
                add(
                    &mut list,
                    section,
                    session.view().selected[Focus::WorkUp],
                    theme,
                    width,
                );
            }
        }
        None => list.say(said("preparing the work-up …", theme.dim(), width)),
    }
    list
}

/// What the limits say of closing at all.
fn banner(banner: &Banner, theme: Theme, width: u16) -> Vec<Line<'static>> {
    if banner.indication == Indication::Met {
        return Vec::new();
    }
    let mut lines = said(
        &format!("!! {}", banner.says),
        theme.state(sizing::State::Stop),
        width,
    );
    for reason in &banner.reasons {
        lines.extend(said(&format!("- {reason}"), theme.text(), width));
    }
    lines
}

fn add(list: &mut List, section: &Section, selected: usize, theme: Theme, width: u16) {
    list.say(vec![Line::styled(section.title, theme.strong())]);
    if !section.says.is_empty() {
        list.say(said(&section.says, theme.dim(), width));
    }
    for line in &section.lines {
        let is_selected = list.entries.len() == selected;
        let standing = line.standing();
        let standing = if standing.is_empty() {
            line.state.word().to_owned()
        } else {
            standing
        };
        // Where nothing was measured the note is what is said.
        let note = if line.amount.is_none() && line.state == State::Plain {
            line.note.clone()
        } else {
            String::new()
        };
        let parts = [line.told(), standing, note.clone()];
        let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        let told = if parts.is_empty() {
            String::new()
        } else {
            format!(": {}", parts.join(", "))
        };
        let text = format!("{} {}{told}", line.state.glyph(), line.label);
        list.entry(
            said(&text, style(line.state, theme), width),
            selected,
            theme,
        );
        // What is to be said beside it, and its source, for the selected line.
        if is_selected {
            let note = if note.is_empty() {
                line.note.clone()
            } else {
                String::new()
            };
            let notes = [note, source(&line.source)];
            for note in notes.iter().filter(|note| !note.is_empty()) {
                list.say(said(note, theme.dim(), width));
            }
        }
    }
}

fn source(source: &str) -> String {
    if source.is_empty() {
        String::new()
    } else {
        format!("Source: {source}")
    }
}

fn style(state: State, theme: Theme) -> Style {
    match state {
        State::Plain | State::Met | State::NotMet => theme.text(),
        State::NotKnown | State::Warned => theme.state(sizing::State::Caution),
        State::Refused | State::Contradiction => theme.state(sizing::State::Stop),
    }
}
