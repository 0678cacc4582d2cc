//! Commands of the doubt page.

use super::{Change, Command, look};
use crate::{Focus, Refused, Session};

const DOUBT: &[Focus] = &[Focus::Doubt];

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "go_to_reading",
        name: "go to reading",
        says: "select the reading of this line on the plan page",
        focus: DOUBT,
        keys: &["enter"],
        in_footer: true,
        change: go_to_reading,
    },
    Command {
        id: "next_candidate",
        name: "next size",
        says: "the doubts of the next candidate of the ranked list",
        focus: DOUBT,
        keys: &["right", "l"],
        in_footer: true,
        change: |session| candidate(session, true),
    },
    Command {
        id: "previous_candidate",
        name: "size before",
        says: "the doubts of the candidate before",
        focus: DOUBT,
        keys: &["left", "h"],
        in_footer: true,
        change: |session| candidate(session, false),
    },
];

fn go_to_reading(session: &Session) -> Result<Change, Refused> {
    let doubt = session.doubt().ok_or(Refused::NoLine)?;
    let place = session
        .row_of(doubt.quantity(), doubt.reading())
        .ok_or(Refused::NotAmongReadings)?;
    Ok(look(session, |view| {
        view.show_readings();
        view.selected[Focus::Readings] = place;
    }))
}

fn candidate(session: &Session, forward: bool) -> Result<Change, Refused> {
    let listed = session.listed();
    let place = session.listed_place().ok_or(Refused::NothingListed)?;
    let (beside, end) = if forward {
        (place.checked_add(1), "last")
    } else {
        (place.checked_sub(1), "first")
    };
    let candidate = beside
        .and_then(|beside| listed.get(beside))
        .ok_or(Refused::EndOfList { end })?;
    let place = candidate.place;
    Ok(look(session, |view| view.ranked = Some(place)))
}
