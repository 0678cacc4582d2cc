//! Commands that move the selection.

use super::bays::step_size;
use super::fit_map::step;
use super::{Change, Command, look};
use crate::{Focus, Refused, Session, View};

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "next_open",
        name: "next missing",
        says: "select the next reading that a check misses, or question nobody answered",
        focus: &[],
        keys: &["m"],
        in_footer: true,
        change: next_open,
    },
    Command {
        id: "next_panel",
        name: "next panel",
        says: "go to the next panel",
        focus: &[],
        keys: &["tab"],
        in_footer: false,
        change: |session| Ok(look(session, View::next_panel)),
    },
    Command {
        id: "previous_panel",
        name: "panel before",
        says: "go to the panel before",
        focus: &[],
        keys: &["shift-tab"],
        in_footer: false,
        change: |session| Ok(look(session, View::previous_panel)),
    },
    Command {
        id: "down",
        name: "down",
        says: "the next line; in the bays, the next size; on the map, less overhang",
        focus: &[],
        keys: &["down", "j"],
        in_footer: true,
        change: |session| match session.view().focus {
            Focus::Bays => step_size(session, true),
            Focus::FitMap => step(session, 0, -1),
            _ => moved(session, |place, _, _| place.saturating_add(1)),
        },
    },
    Command {
        id: "up",
        name: "up",
        says: "the line before; in the bays, the size before; on the map, more overhang",
        focus: &[],
        keys: &["up", "k"],
        in_footer: true,
        change: |session| match session.view().focus {
            Focus::Bays => step_size(session, false),
            Focus::FitMap => step(session, 0, 1),
            _ => moved(session, |place, _, _| place.saturating_sub(1)),
        },
    },
    Command {
        id: "page_down",
        name: "page down",
        says: "a page on",
        focus: Focus::LISTS,
        keys: &["page-down"],
        in_footer: false,
        change: |session| moved(session, |place, page, _| place.saturating_add(page)),
    },
    Command {
        id: "page_up",
        name: "page up",
        says: "a page back",
        focus: Focus::LISTS,
        keys: &["page-up"],
        in_footer: false,
        change: |session| moved(session, |place, page, _| place.saturating_sub(page)),
    },
    Command {
        id: "first",
        name: "first",
        says: "the first line",
        focus: Focus::LISTS,
        keys: &["home", "g"],
        in_footer: false,
        change: |session| moved(session, |_, _, _| 0),
    },
    Command {
        id: "last",
        name: "last",
        says: "the last line",
        focus: Focus::LISTS,
        keys: &["end", "G"],
        in_footer: false,
        change: |session| moved(session, |_, _, last| last),
    },
];

/// Moves the selection of the list that takes keys, from where it is by pages or
/// to its last line, and not past its ends.
fn moved(session: &Session, to: fn(usize, usize, usize) -> usize) -> Result<Change, Refused> {
    let focus = session.view().focus;
    let lines = match focus {
        Focus::Readings => session.listed_rows().len(),
        _ => session.lines(focus),
    };
    let last = lines.checked_sub(1);
    let last = last.ok_or(Refused::NothingListed)?;
    let selected = session.view().selected[focus];
    let rows = session.listed_rows();
    let from = match focus {
        Focus::Readings => rows.iter().position(|row| *row == selected).unwrap_or(0),
        Focus::Ranking => session.listed_place().unwrap_or(0),
        Focus::Before | Focus::Trials | Focus::FollowUp => session.trial_place(focus),
        _ => selected,
    };
    let line = to(from, session.view().visible.panels[focus], last).min(last);
    let ranked = session.listed().get(line).map(|candidate| candidate.place);
    Ok(look(session, |view: &mut View| match focus {
        Focus::Ranking => view.ranked = ranked,
        Focus::Readings => {
            view.selected[focus] = rows.get(line).copied().unwrap_or_default();
            view.readings_are_open = true;
        }
        Focus::Before | Focus::Trials | Focus::FollowUp => {
            // What was offered on another row and not confirmed is let go.
            view.pick = None;
            view.select_trial_row(focus, session.trial_rows(focus).into_iter().nth(line));
        }
        _ => view.selected[focus] = line,
    }))
}

fn next_open(session: &Session) -> Result<Change, Refused> {
    let rows = session.rows();
    let from = session.view().selected[Focus::Readings] + 1;
    let place = (from..rows.len())
        .chain(0..from.min(rows.len()))
        .find(|&place| session.is_open(&rows[place]))
        .ok_or(Refused::NothingMissing)?;
    Ok(look(session, |view| {
        view.show_readings();
        view.selected[Focus::Readings] = place;
    }))
}
