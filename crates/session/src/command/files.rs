//! Commands on the file of the case.

use super::{Change, Command, ask, open};
use crate::errand::{Errand, Save};
use crate::overlay::{Choice, Overlay, Prompt, Question};
use crate::{Home, Refused, Session};

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "save",
        name: "save",
        says: "save the case in its file; comments and layout stay",
        focus: &[],
        keys: &["w", "ctrl-s"],
        in_footer: false,
        change: |session| Ok(save(session, false)),
    },
    Command {
        id: "save_as",
        name: "save as",
        says: "save the case in another file and go on with that one",
        focus: &[],
        keys: &["W"],
        in_footer: false,
        change: |session| Ok(save_as(session, false)),
    },
    Command {
        id: "open",
        name: "open",
        says: "open a case: a recent one, one of this folder, one that came with it",
        focus: &[],
        keys: &["O", "ctrl-o"],
        in_footer: false,
        change: |session| {
            let choose = Change::Errand(Errand::Choose);
            if !session.is_unsaved() {
                return Ok(choose);
            }
            let asks = format!("Unsaved: {}. Open another?", session.case_name());
            let does = if session.has_journal() { KEPT } else { LOST };
            let choices = vec![
                Choice {
                    key: 's',
                    does: "save first",
                    change: save(session, false),
                },
                Choice {
                    key: 'n',
                    does,
                    change: choose,
                },
            ];
            Ok(open(
                session,
                Overlay::Question(Question::new(asks, choices)),
            ))
        },
    },
    Command {
        id: "reload",
        name: "reload",
        says: "read the file again; what was changed here can be had back by undo",
        focus: &[],
        keys: &["R", "ctrl-r"],
        in_footer: false,
        change: |session| match session.document().home() {
            Home::File(_) => Ok(Change::Errand(Errand::Reload)),
            Home::Shipped | Home::Nowhere => Err(Refused::InNoFile),
        },
    },
    Command {
        id: "leave",
        name: "leave",
        says: "leave the program",
        focus: &[],
        keys: &["q", "ctrl-c"],
        in_footer: false,
        change: |session| Ok(leave(session)),
    },
];

/// What becomes of changes that are not saved where a journal is kept.
const KEPT: &str = "without saving; the changes are kept and offered at the next start";
/// What becomes of them where none is.
const LOST: &str = "without saving; the changes are lost";

fn save(session: &Session, leaves: bool) -> Change {
    match session.document().home() {
        Home::File(path) => Change::Errand(Errand::Save(Save {
            to: path.clone(),
            over: false,
            leaves,
        })),
        Home::Shipped | Home::Nowhere => save_as(session, leaves),
    }
}

fn save_as(session: &Session, leaves: bool) -> Change {
    let home = session.document().home().file();
    let path = home.map_or_else(String::new, |path| path.display().to_string());
    ask(session, Prompt::SaveTo { leaves }, path)
}

/// The end of the program, asked about while something would be lost; asked for
/// again over that question, it is meant.
fn leave(session: &Session) -> Change {
    let asks = format!("Unsaved: {}. Leave?", session.case_name());
    let is_asked = session
        .view()
        .overlays
        .iter()
        .any(|layer| matches!(layer, Overlay::Question(question) if question.asks == asks));
    if is_asked || !session.is_unsaved() {
        return Change::Leave;
    }
    let does = if session.has_journal() { KEPT } else { LOST };
    let mut choices = vec![
        Choice {
            key: 's',
            does: "save and leave",
            change: save(session, true),
        },
        Choice {
            key: 'n',
            does,
            change: Change::Leave,
        },
    ];
    if session.has_journal() {
        choices.push(Choice {
            key: 'd',
            does: "drop the changes for good",
            change: Change::Errand(Errand::Abandon),
        });
    }
    open(session, Overlay::Question(Question::new(asks, choices)))
}
