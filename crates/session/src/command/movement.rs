//! Commands that move the selection.

use super::bays::step_size;
use super::{Change, Command, look};
use crate::{Focus, PAGE, Refused, Session, View};

const LISTS: &[Focus] = &[Focus::Readings, Focus::Ranking];

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
        change: |session| Ok(look(session, |view| view.focus = view.focus.next())),
    },
    Command {
        id: "previous_panel",
        name: "panel before",
        says: "go to the panel before",
        focus: &[],
        keys: &["shift-tab"],
        in_footer: false,
        change: |session| Ok(look(session, |view| view.focus = view.focus.previous())),
    },
    Command {
        id: "down",
        name: "down",
        says: "the next line; in the bays, the next size",
        focus: &[],
        keys: &["down", "j"],
        in_footer: false,
        change: |session| match session.view().focus {
            Focus::Bays => step_size(session, true),
            _ => moved(session, |place, _| place.saturating_add(1)),
        },
    },
    Command {
        id: "up",
        name: "up",
        says: "the line before; in the bays, the size before",
        focus: &[],
        keys: &["up", "k"],
        in_footer: false,
        change: |session| match session.view().focus {
            Focus::Bays => step_size(session, false),
            _ => moved(session, |place, _| place.saturating_sub(1)),
        },
    },
    Command {
        id: "page_down",
        name: "page down",
        says: "ten lines on",
        focus: LISTS,
        keys: &["page-down"],
        in_footer: false,
        change: |session| moved(session, |place, _| place.saturating_add(PAGE)),
    },
    Command {
        id: "page_up",
        name: "page up",
        says: "ten lines back",
        focus: LISTS,
        keys: &["page-up"],
        in_footer: false,
        change: |session| moved(session, |place, _| place.saturating_sub(PAGE)),
    },
    Command {
        id: "first",
        name: "first",
        says: "the first line",
        focus: LISTS,
        keys: &["home", "g"],
        in_footer: false,
        change: |session| moved(session, |_, _| 0),
    },
    Command {
        id: "last",
        name: "last",
        says: "the last line",
        focus: LISTS,
        keys: &["end", "G"],
        in_footer: false,
        change: |session| moved(session, |_, last| last),
    },
];

/// Moves the selection of the list that takes keys, and not past its ends.
fn moved(session: &Session, to: fn(usize, usize) -> usize) -> Result<Change, Refused> {
    let listed = session.listed();
    let (place, len) = match session.view().focus {
        Focus::Readings => (session.view().row, session.rows().len()),
        Focus::Ranking => (session.listed_place().unwrap_or(0), listed.len()),
        Focus::Bays => return Err(Refused::new("the bays are no list")),
    };
    let Some(last) = len.checked_sub(1) else {
        return Err(Refused::new("nothing is listed"));
    };
    let place = to(place, last).min(last);
    Ok(look(session, |view: &mut View| match view.focus {
        Focus::Readings => view.row = place,
        _ => view.ranked = listed.get(place).map(|candidate| candidate.place),
    }))
}

fn next_open(session: &Session) -> Result<Change, Refused> {
    let rows = session.rows();
    let from = session.view().row + 1;
    let place = (from..rows.len())
        .chain(0..from.min(rows.len()))
        .find(|&place| session.is_open(&rows[place]))
        .ok_or_else(|| Refused::new("nothing is missing"))?;
    Ok(look(session, |view| {
        view.focus = Focus::Readings;
        view.row = place;
    }))
}
