//! Commands on the pinned candidates.

use super::{Change, Command, look};
use crate::bay::has_unequal_discs;
use crate::{Bay, Edit, Focus, Refused, Session};

const BAYS: &[Focus] = &[Focus::Bays];
const RANKING: &[Focus] = &[Focus::Ranking];

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "pin",
        name: "pin",
        says: "pin the selected candidate beside the others",
        focus: RANKING,
        keys: &["p", "enter"],
        in_footer: true,
        change: pin,
    },
    Command {
        id: "unpin",
        name: "unpin",
        says: "unpin the selected device",
        focus: BAYS,
        keys: &["p", "delete", "backspace"],
        in_footer: true,
        change: unpin,
    },
    Command {
        id: "next_size",
        name: "next size",
        says: "the next size of the shape in the selected bay",
        focus: Focus::PLAN,
        keys: &["."],
        in_footer: true,
        change: |session| step_size(session, true),
    },
    Command {
        id: "previous_size",
        name: "previous size",
        says: "the size before, of the shape in the selected bay",
        focus: Focus::PLAN,
        keys: &[","],
        in_footer: true,
        change: |session| step_size(session, false),
    },
    Command {
        id: "next_shape",
        name: "next shape",
        says: "the next shape for the selected bay, its waist nearest",
        focus: Focus::PLAN,
        keys: &[">", "shift-down"],
        in_footer: false,
        change: |session| step_shape(session, true),
    },
    Command {
        id: "previous_shape",
        name: "previous shape",
        says: "the shape before for the selected bay, its waist nearest",
        focus: Focus::PLAN,
        keys: &["<", "shift-up"],
        in_footer: false,
        change: |session| step_shape(session, false),
    },
    Command {
        id: "turn",
        name: "turn",
        says: "turn the offset disc by hand, 15° clockwise seen from the left",
        focus: Focus::PLAN,
        keys: &["t"],
        in_footer: true,
        change: |session| turn(session, HAND_STEP),
    },
    Command {
        id: "turn_back",
        name: "turn back",
        says: "turn the offset disc by hand, 15° counter-clockwise",
        focus: Focus::PLAN,
        keys: &["T"],
        in_footer: false,
        change: |session| turn(session, ROUND - HAND_STEP),
    },
    Command {
        id: "best_turn",
        name: "best turn",
        says: "let the ranking choose the rotation again",
        focus: Focus::PLAN,
        keys: &["b"],
        in_footer: false,
        change: best_turn,
    },
    Command {
        id: "swap_discs",
        name: "swap discs",
        says: "swap the discs: the left one to the right",
        focus: Focus::PLAN,
        keys: &["x"],
        in_footer: true,
        change: swap_discs,
    },
    Command {
        id: "next_bay",
        name: "next bay",
        says: "select the bay to the right",
        focus: BAYS,
        keys: &["right", "l"],
        in_footer: false,
        change: |session| {
            select(
                session,
                session.view().selected[Focus::Bays].saturating_add(1),
            )
        },
    },
    Command {
        id: "previous_bay",
        name: "previous bay",
        says: "select the bay to the left",
        focus: BAYS,
        keys: &["left", "h"],
        in_footer: false,
        change: |session| {
            select(
                session,
                session.view().selected[Focus::Bays].saturating_sub(1),
            )
        },
    },
];

/// Degrees of a turn by hand: the step the ranking tries.
const HAND_STEP: u16 = 15;
/// Degrees of a full round.
const ROUND: u16 = 360;

fn selected(session: &Session) -> Result<Bay, Refused> {
    let bays = session.document().bays();
    bays.get(session.view().selected[Focus::Bays])
        .copied()
        .ok_or(Refused::NothingPinned)
}

/// The selected bay, changed.
fn with(session: &Session, bay: Bay) -> Change {
    let mut bays = session.document().bays().to_vec();
    if let Some(selected) = bays.get_mut(session.view().selected[Focus::Bays]) {
        *selected = bay;
    }
    Change::Edit(Edit::Bays(bays))
}

fn pin(session: &Session) -> Result<Change, Refused> {
    let candidate = session.candidate().ok_or(Refused::NoCandidate)?;
    let mut bays = session.document().bays().to_vec();
    bays.push(Bay::new(candidate.place));
    Ok(Change::Edit(Edit::Bays(bays)))
}

fn unpin(session: &Session) -> Result<Change, Refused> {
    selected(session)?;
    let mut bays = session.document().bays().to_vec();
    bays.remove(session.view().selected[Focus::Bays]);
    Ok(Change::Edit(Edit::Bays(bays)))
}

/// The size beside; it stays turned, and swapped if its discs are unequal too.
pub(super) fn step_size(session: &Session, forward: bool) -> Result<Change, Refused> {
    let bay = selected(session)?;
    let shelf = session.document().shelf();
    let end = if forward { "last" } else { "first" };
    let place = shelf
        .beside(bay.place, forward)
        .ok_or(Refused::LastSize { end })?;
    let swapped = bay.swapped
        && shelf
            .at(place)
            .is_some_and(|(_, size)| has_unequal_discs(&size.occluder));
    Ok(with(
        session,
        Bay {
            place,
            swapped,
            ..bay
        },
    ))
}

fn step_shape(session: &Session, forward: bool) -> Result<Change, Refused> {
    let bay = selected(session)?;
    let end = if forward { "last" } else { "first" };
    let place = session
        .document()
        .shelf()
        .in_shape_beside(bay.place, forward);
    let place = place.ok_or(Refused::LastShape { end })?;
    Ok(with(session, Bay::new(place)))
}

fn turn(session: &Session, by: u16) -> Result<Change, Refused> {
    let bay = selected(session)?;
    let (_, size) = session
        .document()
        .shelf()
        .at(bay.place)
        .ok_or(Refused::NothingPinned)?;
    if !size.occluder.is_offset() {
        return Err(Refused::NotOffset);
    }
    let from = bay
        .turn
        .or_else(|| session.turn_degrees(session.view().selected[Focus::Bays]))
        .ok_or(Refused::NoBestTurnYet)?;
    Ok(with(
        session,
        Bay {
            turn: Some((from + by) % ROUND),
            ..bay
        },
    ))
}

fn best_turn(session: &Session) -> Result<Change, Refused> {
    let bay = selected(session)?;
    if bay.turn.is_none() {
        return Err(Refused::AtBestTurn);
    }
    Ok(with(session, Bay { turn: None, ..bay }))
}

fn swap_discs(session: &Session) -> Result<Change, Refused> {
    let bay = selected(session)?;
    let size = session
        .document()
        .shelf()
        .at(bay.place)
        .map(|(_, size)| size);
    if !size.is_some_and(|size| has_unequal_discs(&size.occluder)) {
        return Err(Refused::AlikeDiscs);
    }
    Ok(with(
        session,
        Bay {
            swapped: !bay.swapped,
            ..bay
        },
    ))
}

fn select(session: &Session, bay: usize) -> Result<Change, Refused> {
    selected(session)?;
    let last = session.document().bays().len().saturating_sub(1);
    Ok(look(session, |view| {
        view.selected[Focus::Bays] = bay.min(last);
    }))
}
