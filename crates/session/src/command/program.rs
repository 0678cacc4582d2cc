//! Commands on the program as a whole.

use super::{Change, Command, lay, look, open};
use crate::Refused;
use crate::clipboard::clipboard_text;
use crate::overlay::{CommandList, Overlay};

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "undo",
        name: "undo",
        says: "take the last step back",
        focus: &[],
        keys: &["u", "ctrl-z"],
        in_footer: true,
        change: |session| match session.history().last_done() {
            Some(_) => Ok(Change::Undo),
            None => Err(Refused::NothingToUndo),
        },
    },
    Command {
        id: "redo",
        name: "redo",
        says: "do again what was taken back",
        focus: &[],
        keys: &["U", "ctrl-y"],
        in_footer: false,
        change: |session| match session.history().last_undone() {
            Some(_) => Ok(Change::Redo),
            None => Err(Refused::NothingToRedo),
        },
    },
    Command {
        id: "close",
        name: "close",
        says: "close what lies over the panels",
        focus: &[],
        keys: &["esc"],
        in_footer: true,
        change: |session| {
            let view = session.view();
            let is_listed = view.visible.readings_lie_over && view.lists_readings();
            if session.overlays().is_empty() && is_listed {
                return Ok(look(session, |view| view.readings_are_open = false));
            }
            if session.overlays().is_empty() {
                return Err(Refused::NothingToClose);
            }
            Ok(lay(session, |overlays| {
                overlays.pop();
            }))
        },
    },
    Command {
        id: "copy",
        name: "copy",
        says: "copy what the page says in few lines, over ssh as well",
        focus: &[],
        keys: &["y"],
        in_footer: false,
        change: |session| Ok(Change::Copy(clipboard_text(session)?)),
    },
    Command {
        id: "suspend",
        name: "to the shell",
        says: "suspend to the shell; `fg` returns",
        focus: &[],
        keys: &["Z"],
        in_footer: false,
        change: |_| {
            if cfg!(unix) {
                Ok(Change::Suspend)
            } else {
                Err(Refused::NoJobs)
            }
        },
    },
    Command {
        id: "commands",
        name: "all keys",
        says: "every command with its keys: type to find one, Enter runs it",
        focus: &[],
        keys: &["?", ":"],
        in_footer: true,
        change: |session| Ok(open(session, Overlay::Commands(CommandList::default()))),
    },
];
