//! Commands of the fit map.

use super::{Change, Command, look};
use crate::{Focus, Refused, Session};

const FIT_MAP: &[Focus] = &[Focus::FitMap];

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "wider_waist",
        name: "wider waist",
        says: "read the map at the next wider waist",
        focus: FIT_MAP,
        keys: &["right", "l"],
        in_footer: true,
        change: |session| step(session, 1, 0),
    },
    Command {
        id: "narrower_waist",
        name: "narrower waist",
        says: "read the map at the next narrower waist",
        focus: FIT_MAP,
        keys: &["left", "h"],
        in_footer: true,
        change: |session| step(session, -1, 0),
    },
    Command {
        id: "best_cell",
        name: "highest chance",
        says: "read the map where the chance is highest",
        focus: FIT_MAP,
        keys: &["home", "g"],
        in_footer: true,
        change: |session| {
            session.cell()?;
            Ok(look(session, |view| {
                view.cell = None;
                view.map_at = None;
            }))
        },
    },
    Command {
        id: "next_mark",
        name: "next size",
        says: "read the map at the next size of the catalogue that lies on it",
        focus: FIT_MAP,
        keys: &["n", "."],
        in_footer: true,
        change: next_mark,
    },
];

/// Moves the cell that is read, and not past the edges of the map.
pub(super) fn step(session: &Session, right: isize, up: isize) -> Result<Change, Refused> {
    let (column, row) = session.cell()?;
    let mapped = session.results().mapped();
    let (columns, rows) = mapped.map_or((1, 1), |it| (it.map.waists.count, it.map.overhangs.count));
    let moved = |at: usize, by: isize, count: usize| {
        at.saturating_add_signed(by).min(count.saturating_sub(1))
    };
    let cell = (moved(column, right, columns), moved(row, up, rows));
    if cell == (column, row) {
        return Err(Refused::EdgeOfMap);
    }
    Ok(look(session, |view| view.cell = Some(cell)))
}

fn next_mark(session: &Session) -> Result<Change, Refused> {
    let from = session.cell()?;
    let mut cells: Vec<(usize, usize)> = session
        .results()
        .mapped()
        .into_iter()
        .flat_map(|it| it.marks.iter().filter_map(|mark| mark.cell(&it.map)))
        .collect();
    cells.sort_unstable();
    let next = cells.iter().find(|&&cell| cell > from).or(cells.first());
    let next = *next.ok_or(Refused::NothingOnMap)?;
    Ok(look(session, |view| view.cell = Some(next)))
}
