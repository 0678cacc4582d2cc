//! What is offered for a row of the page of trials, and what Enter writes.

mod pick;
mod write;

pub(crate) use pick::{Step, stepped};
pub(crate) use write::{
    close, criteria, edit, hangs, looked_at, name, note_amount, note_room, observed, opened,
    row_of, seen_later, set_aside, with_because, with_view,
};
