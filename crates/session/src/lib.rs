//! Everything of the terminal program that is not its terminal: the open
//! document, commands with their inverse, history, key map, worker.
//!
//! The terminal gives keys and draws; it decides nothing:
//!
//! ```text
//! terminal event ─→ Key ─→ Session::key ─→ Command ─→ Change ─→ Edit ─→ Document
//!                                                                          │
//!  screen ←─ Session (rows, bays, listed, footer) ←─ Reply ←─ Worker ←─ Request
//! ```
//!
//! A command is a pure function from the session to a change; an edit gives its
//! inverse when it is made. Nothing here reads or writes a file.

mod amount;
mod bay;
mod command;
mod document;
mod edit;
mod editor;
mod fact;
mod first_reading;
mod footer;
mod history;
mod key;
mod keymap;
mod overlay;
mod refused;
mod results;
mod row;
mod session;
mod shelf;
mod shown;
mod view;
mod worker;

#[cfg(test)]
mod fixture;

pub use amount::{Nudge, amount, nudged, number};
pub use bay::{Bay, MOST_BAYS};
pub use command::{Change, Command};
pub use document::Document;
pub use edit::Edit;
pub use editor::Editor;
pub use fact::Fact;
pub use footer::Hint;
pub use history::History;
pub use key::{Key, KeyCode, NoSuchKey};
pub use keymap::{KeyMap, KeyMapError};
pub use overlay::{CommandList, Field, Overlay, Prompt};
pub use refused::Refused;
pub use results::Results;
pub use row::Row;
pub use session::{Session, Status};
pub use shelf::Shelf;
pub use shown::{Filter, Shown};
pub use view::{Focus, View};
pub use worker::{Assessed, Reply, Request, Worker};

/// Lines by which Page Up and Page Down move.
pub(crate) const PAGE: usize = 10;
