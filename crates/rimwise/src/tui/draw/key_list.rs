//! Every command with its keys, to be filtered and run, with what else was found; the
//! caution beside it.

use super::lines;
use super::readings;
use crate::text::{fitted, wrapped};
use crate::tui::theme::Theme;
use files::visible;
use paper::CAUTION;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::{Command, CommandList, CommandMatch, Session};
use sizing::State;

/// Columns of the keys.
const KEYS: usize = 20;
/// Columns of a command's name.
const NAME: usize = 17;
/// Columns of another name.
const WIDE_NAME: usize = 26;

/// From this height on there is room for hints.
const ROOMY: u16 = 20;
/// What is not a key of the program.
const HINTS: &str = "Shift and the mouse mark text in most terminals. Esc comes late in tmux? \
                     There: set -s escape-time 10";

/// Draws the list over the whole page; says how many lines of it are seen.
pub(super) fn draw(
    frame: &mut Frame,
    session: &Session,
    list: &CommandList,
    theme: Theme,
    area: Rect,
) -> usize {
    frame.render_widget(Clear, area);
    let found = list.found(session);
    let width = usize::from(area.width);
    let mut caution = wrapped(CAUTION, width);
    if area.height >= ROOMY {
        // What is cut in its line is told whole under the list.
        let selected = found.get(list.filter.selected);
        let whole = selected.map(|it| visible(&in_words(session, it, theme)).into_owned());
        let whole = whole.map_or_else(Vec::new, |says| wrapped(&says, width));
        caution.splice(0..0, whole.into_iter().chain(wrapped(HINTS, width)));
    }
    let [top, body, foot] = Layout::vertical([
        Constraint::Length(2),
        Constraint::Min(1),
        Constraint::Length(
            u16::try_from(caution.len())
                .unwrap_or(0)
                .min(area.height / 3),
        ),
    ])
    .areas(area);
    let is_command = |it: &&CommandMatch| matches!(it, CommandMatch::Command(_));
    let commands = found.iter().filter(is_command).count();
    let title = match found.len() - commands {
        0 => format!("{commands} commands · Enter runs one, Esc closes"),
        others => format!("{commands} commands, {others} quantities and sizes · Esc closes"),
    };
    let under = lines::headed(frame, "All keys", &title, true, theme, top);
    let typed = Line::from(vec![
        Span::raw("find › "),
        Span::styled(
            visible(&list.filter.editor.text()).into_owned(),
            theme.strong(),
        ),
    ]);
    lines::draw(frame, vec![typed], under);
    let choice = (list.filter.selected, found.len());
    let room = lines::draw_choices(frame, theme, body, choice, |index| {
        row(session, &found[index], theme, usize::from(body.width))
    });
    let caution = caution
        .into_iter()
        .map(|line| Line::styled(line, theme.dim()))
        .collect();
    lines::draw(frame, caution, foot);
    room
}

fn row(session: &Session, found: &CommandMatch, theme: Theme, width: usize) -> Line<'static> {
    let (keys, name, is_ready) = match found {
        CommandMatch::Command(id) => {
            let keys = session.keymap().keys(id).iter();
            let keys: Vec<String> = keys.map(ToString::to_string).collect();
            let command = Command::named(id);
            let name = command.map_or("", |it| it.name);
            let is_ready = command.is_some_and(|it| it.ready(session).is_ok());
            (keys.join(" "), name.to_owned(), is_ready)
        }
        CommandMatch::Quantity(quantity) => ("quantity".to_owned(), quantity.short_name(), true),
        CommandMatch::Size(place) => {
            let shelf = session.document().shelf();
            (
                "size".to_owned(),
                shelf.name(*place).unwrap_or_default(),
                true,
            )
        }
    };
    let style = if is_ready {
        theme.text()
    } else {
        theme.state(State::NotAssessed)
    };
    // Only a command's name is made for its column.
    let columns = match found {
        CommandMatch::Command(_) => NAME,
        _ => WIDE_NAME,
    };
    let rest = width.saturating_sub(KEYS + columns);
    Line::from(vec![
        Span::styled(fitted(&keys, KEYS - 1) + " ", theme.strong()),
        Span::styled(fitted(&visible(&name), columns), style),
        Span::styled(
            fitted(&visible(&in_words(session, found, theme)), rest),
            style,
        ),
    ])
}

/// What stands behind a name.
fn in_words(session: &Session, found: &CommandMatch, theme: Theme) -> String {
    match found {
        CommandMatch::Command(id) => {
            Command::named(id).map_or_else(String::new, |it| says(session, it))
        }
        CommandMatch::Quantity(quantity) => {
            let value = readings::in_a_line(session, *quantity, theme);
            format!("{quantity}: {value}")
        }
        CommandMatch::Size(place) => {
            let listed = session.listed();
            let candidate = listed.iter().find(|one| one.place == *place);
            candidate.map_or_else(String::new, |one| one.judged.verdict.word().to_owned())
        }
    }
}

/// What a command does; in which panels, where not in this one; why not now.
fn says(session: &Session, command: &Command) -> String {
    match command.ready(session) {
        Err(why) => format!("{} (not now: {why})", command.says),
        Ok(()) if command.counts_in(session.view().focus) => command.says.to_owned(),
        Ok(()) => format!("{}: {}", command.panel_names(), command.says),
    }
}
