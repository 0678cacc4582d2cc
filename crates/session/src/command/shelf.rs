//! Commands on the shelf: shapes and sizes there are, and what is put aside.

use super::{Change, Command, open};
use crate::overlay::{Overlay, ShelfForm};
use crate::{Edit, Focus, Origin, Refused, Session, ShelfRow};
use sizing::Shape;

const SHELF: &[Focus] = &[Focus::Shelf];

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "out_of_stock",
        name: "out of stock",
        says: "mark a size or a shape as not in stock today, or as back in stock",
        focus: &[Focus::Bays, Focus::Ranking, Focus::Shelf],
        keys: &["S"],
        in_footer: true,
        change: |session| Ok(Change::Edit(put_aside(session)?)),
    },
    Command {
        id: "edit_shape",
        name: "edit",
        says: "edit the selected size or shape; a shipped one is first copied to your own",
        focus: SHELF,
        keys: &["enter", "e"],
        in_footer: true,
        change: edit,
    },
    Command {
        id: "add_size",
        name: "add size",
        says: "add a size of the shape, like the selected one",
        focus: SHELF,
        keys: &["a"],
        in_footer: true,
        change: |session| {
            let (shape, index) = selected(session)?;
            let last = shape.sizes.len().saturating_sub(1);
            let form = ShelfForm::new_size(shape, index.unwrap_or(last));
            Ok(open(session, Overlay::Shelf(form)))
        },
    },
    Command {
        id: "new_shape",
        name: "new shape",
        says: "add a new shape with its first size",
        focus: SHELF,
        keys: &["n"],
        in_footer: true,
        change: |session| Ok(open(session, Overlay::Shelf(ShelfForm::new_shape()))),
    },
    Command {
        id: "copy_shape",
        name: "copy",
        says: "add a shape: a copy of the selected one under another name",
        focus: SHELF,
        keys: &["c"],
        in_footer: true,
        change: |session| {
            let (shape, _) = selected(session)?;
            Ok(open(session, Overlay::Shelf(ShelfForm::copy(shape))))
        },
    },
    Command {
        id: "remove_shape",
        name: "remove",
        says: "remove a size or a shape of your own; the shipped one returns",
        focus: SHELF,
        keys: &["delete", "backspace"],
        in_footer: true,
        change: |session| Ok(Change::Edit(remove(session)?)),
    },
];

/// The selected shape, and the index of the size if one is selected.
fn selected(session: &Session) -> Result<(Shape, Option<usize>), Refused> {
    let shelf = session.document().shelf();
    let found = match session.shelf_row() {
        None => None,
        Some(ShelfRow::Shape(id)) => {
            let shape = shelf.shapes().find(|(_, shape)| shape.id == id);
            shape.map(|(_, shape)| (shape.clone(), None))
        }
        Some(ShelfRow::Size(place)) => {
            let shape = shelf.shapes().find(|(places, _)| places.contains(&place));
            shape.map(|(places, shape)| (shape.clone(), Some(place - places.start)))
        }
    };
    found.ok_or(Refused::NothingInStock)
}

fn edit(session: &Session) -> Result<Change, Refused> {
    let form = match selected(session)? {
        (shape, None) => ShelfForm::shape(shape),
        (shape, Some(index)) => ShelfForm::size(shape, index),
    };
    Ok(open(session, Overlay::Shelf(form)))
}

fn put_aside(session: &Session) -> Result<Edit, Refused> {
    let shelf = session.document().shelf();
    let (called, names) = named(session)?;
    let is_aside = names.iter().all(|name| shelf.is_aside(name));
    if is_aside && names.iter().any(|name| shelf.came_aside(name)) {
        return Err(Refused::OutOfStockElsewhere);
    }
    let word = if is_aside {
        "in stock again"
    } else {
        "out of stock"
    };
    let changed = shelf.with_aside(&names, !is_aside);
    Ok(session.reshelved(changed, format!("{word}: {called}")))
}

/// What is selected, by its name, and the names of its sizes.
fn named(session: &Session) -> Result<(String, Vec<String>), Refused> {
    let shelf = session.document().shelf();
    let nothing = || Refused::NoSize;
    let place = match session.view().focus {
        Focus::Bays => {
            let bays = session.document().bays();
            bays.get(session.view().selected[Focus::Bays])
                .map(|bay| bay.place)
        }
        Focus::Ranking => session.candidate().map(|candidate| candidate.place),
        _ => match selected(session)? {
            (shape, None) => {
                let name = |size: &sizing::Size| format!("{}/{}", shape.id, size.label);
                return Ok((shape.id.clone(), shape.sizes.iter().map(name).collect()));
            }
            (shape, Some(index)) => {
                let label = shape.sizes.get(index).map(|size| &size.label);
                let name = label.map(|label| format!("{}/{label}", shape.id));
                name.and_then(|name| shelf.place(&name))
            }
        },
    };
    let name = place
        .and_then(|place| shelf.name(place))
        .ok_or_else(nothing)?;
    Ok((name.clone(), vec![name]))
}

fn remove(session: &Session) -> Result<Edit, Refused> {
    let shelf = session.document().shelf();
    let (mut shape, index) = selected(session)?;
    if shelf.origin(&shape.id) == Origin::Came {
        return Err(Refused::NotYours);
    }
    match index {
        Some(index) if shape.sizes.len() > 1 => {
            let size = shape.sizes.remove(index);
            let called = format!("removed {}/{}", shape.id, size.label);
            Ok(session.reshelved(shelf.with_shape(shape), called))
        }
        _ => {
            let called = format!("removed {}", shape.id);
            Ok(session.reshelved(shelf.without_shape(&shape.id), called))
        }
    }
}
