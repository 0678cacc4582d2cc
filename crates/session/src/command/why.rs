//! The command that asks why.

use super::{Change, Command};
use crate::{Bay, Focus, Refused, Session, ShelfRow};

pub(super) const COMMANDS: &[Command] = &[Command {
    id: "why",
    name: "why",
    says: "walk through the neighbours of this size: which limit stops each",
    focus: &[
        Focus::Readings,
        Focus::Bays,
        Focus::Ranking,
        Focus::Doubt,
        Focus::Shelf,
    ],
    keys: &["i"],
    in_footer: false,
    change: |session| {
        selected(session)
            .map(Change::Why)
            .ok_or(Refused::NoCandidate)
    },
}];

/// The size that is selected where the keys are.
fn selected(session: &Session) -> Option<Bay> {
    match session.view().focus {
        Focus::Bays => {
            let bays = session.document().bays();
            let index = session.view().selected[Focus::Bays];
            bays.get(index).or_else(|| bays.first()).copied()
        }
        Focus::Shelf => match session.shelf_row()? {
            ShelfRow::Size(place) => Some(Bay::new(place)),
            ShelfRow::Shape(_) => return None,
        },
        _ => None,
    }
    .or_else(|| session.candidate().map(|one| Bay::new(one.place)))
}
