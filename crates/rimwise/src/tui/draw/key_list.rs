//! Every command with its keys, to be filtered and run; the caution beside it.

use super::lines::{self, first_shown};
use crate::text::{fitted, wrapped};
use crate::tui::theme::Theme;
use files::visible;
use paper::CAUTION;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::{Command, CommandList, Session};
use sizing::State;

/// Columns of the keys.
const KEYS: usize = 20;
/// Columns of a command's name.
const NAME: usize = 17;

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
    let ids = list.found(session.keymap()).into_iter();
    let found: Vec<&Command> = ids.filter_map(Command::named).collect();
    let width = usize::from(area.width);
    let mut caution = wrapped(CAUTION, width);
    if area.height >= ROOMY {
        // What is cut in its line is told whole under the list.
        let selected = found.get(list.filter.selected);
        let whole = selected.map(|command| visible(&says(session, command)).into_owned());
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
    let title = format!("{} commands · Enter runs one, Esc closes", found.len());
    let under = lines::headed(frame, "All keys", &title, true, theme, top);
    let typed = Line::from(vec![
        Span::raw("find › "),
        Span::styled(
            visible(&list.filter.editor.text()).into_owned(),
            theme.strong(),
        ),
    ]);
    lines::draw(frame, vec![typed], under);
    let room = usize::from(body.height);
    let first = first_shown(list.filter.selected, found.len(), room);
    let shown = found
        .iter()
        .enumerate()
        .skip(first)
        .take(room)
        .map(|(index, command)| {
            let line = row(session, command, theme, usize::from(body.width));
            if index == list.filter.selected {
                line.patch_style(theme.selected(true))
            } else {
                line
            }
        });
    lines::draw(frame, shown.collect(), body);
    let caution = caution
        .into_iter()
        .map(|line| Line::styled(line, theme.dim()))
        .collect();
    lines::draw(frame, caution, foot);
    room
}

fn row(session: &Session, command: &'static Command, theme: Theme, width: usize) -> Line<'static> {
    let keys: Vec<String> = session
        .keymap()
        .keys(command.id)
        .iter()
        .map(ToString::to_string)
        .collect();
    let says = says(session, command);
    let style = if command.ready(session).is_err() {
        theme.state(State::NotAssessed)
    } else {
        theme.text()
    };
    let rest = width.saturating_sub(KEYS + NAME);
    Line::from(vec![
        Span::styled(fitted(&keys.join(" "), KEYS - 1) + " ", theme.strong()),
        Span::styled(fitted(command.name, NAME), style),
        Span::styled(fitted(&visible(&says), rest), style),
    ])
}

/// What a command does; in which panels, where not in this one; why not now.
fn says(session: &Session, command: &Command) -> String {
    match command.ready(session) {
        Err(why) => format!("{} (not now: {why})", command.says),
        Ok(()) if command.counts_in(session.view().focus) => command.says.to_owned(),
        Ok(()) => format!("{}: {}", command.panel_names(), command.says),
    }
}
