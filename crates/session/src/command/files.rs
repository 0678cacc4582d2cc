//! Commands on the file of the case.

use super::{Change, Command, ask, open};
use crate::errand::{Errand, Save};
use crate::overlay::{Choice, Overlay, Prompt, Question, Task};
use crate::{Home, Refused, Session};

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "save",
        name: "save",
        says: "save the case in its file; comments and layout stay",
        focus: &[],
        keys: &["w", "ctrl-s"],
        in_footer: false,
        change: |session| Ok(save(session, false).into()),
    },
    Command {
        id: "save_as",
        name: "save as",
        says: "save the case in another file and go on with that one",
        focus: &[],
        keys: &["W"],
        in_footer: false,
        change: |_| Ok(Change::AskPath { leaves: false }),
    },
    Command {
        id: "sheet",
        name: "sheet",
        says: "write the sheet for the team: the pinned sizes, or those shown first",
        focus: &[],
        keys: &["E"],
        in_footer: false,
        change: sheet,
    },
    Command {
        id: "open",
        name: "open",
        says: "open a case: recent, in this folder, or shipped",
        focus: &[],
        keys: &["O", "ctrl-o"],
        in_footer: false,
        change: |session| Ok(unless_unsaved(session, Errand::Choose)),
    },
    Command {
        id: "next_case",
        name: "next case",
        says: "open the next of the cases that were opened together",
        focus: &[],
        keys: &["ctrl-n"],
        in_footer: false,
        change: |session| case_beside(session, true),
    },
    Command {
        id: "previous_case",
        name: "case before",
        says: "open the case before, of those that were opened together",
        focus: &[],
        keys: &["ctrl-p"],
        in_footer: false,
        change: |session| case_beside(session, false),
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

fn case_beside(session: &Session, forward: bool) -> Result<Change, Refused> {
    let path = session.case_beside(forward)?;
    Ok(unless_unsaved(session, Errand::Open(path)))
}

/// Opens another case; asks first while something of this one is not saved.
fn unless_unsaved(session: &Session, errand: Errand) -> Change {
    if !session.is_unsaved() {
        return Change::Errand(errand);
    }
    let asks = format!("Unsaved: {}. Open another?", session.case_name());
    let does = if session.has_journal() { KEPT } else { LOST };
    let choices = vec![
        Choice {
            key: 's',
            does: "save first",
            task: save(session, false),
        },
        Choice {
            key: 'n',
            does,
            task: Task::Errand(errand),
        },
    ];
    open(session, Overlay::Question(Question::new(asks, choices)))
}

/// Asks for the file of a sheet of the list that is shown. No sheet is made of one
/// that is not the open case's or not whole: it would hang on the wall.
fn sheet(session: &Session) -> Result<Change, Refused> {
    let results = session.results();
    if let Some(why) = results.failure() {
        return Err(Refused::NoList(why.to_owned()));
    }
    if results.is_awaited() {
        return Err(Refused::NoListYet);
    }
    let home = session.document().home().file();
    let path = home.map_or_else(String::new, |path| {
        path.with_extension("pdf").display().to_string()
    });
    Ok(ask(session, Prompt::SheetTo, path))
}

fn save(session: &Session, leaves: bool) -> Task {
    match session.document().home() {
        Home::File(path) => Task::Errand(Errand::Save(Save {
            to: path.clone(),
            over: false,
            leaves,
        })),
        Home::Shipped | Home::Nowhere => Task::AskPath { leaves },
    }
}

/// The end of the program, asked about while something would be lost; asked for
/// again over that question, it is meant.
fn leave(session: &Session) -> Change {
    let asks = format!("Unsaved: {}. Leave?", session.case_name());
    let is_asked = session
        .overlays()
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
            task: save(session, true),
        },
        Choice {
            key: 'n',
            does,
            task: Task::Leave,
        },
    ];
    if session.has_journal() {
        choices.push(Choice {
            key: 'd',
            does: "drop the changes for good",
            task: Task::Errand(Errand::Abandon),
        });
    }
    open(session, Overlay::Question(Question::new(asks, choices)))
}
