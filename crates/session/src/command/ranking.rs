//! Commands on what the ranked list shows.

use super::{Change, Command, look};
use crate::overlay::{Field, Overlay, Prompt};
use crate::{Edit, Filter, Focus, Refused, Session, Shown};
use sizing::Verdict;

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "filter",
        name: "filter",
        says: "show only shapes whose name holds a text",
        focus: &[],
        keys: &["/"],
        in_footer: false,
        change: filter,
    },
    Command {
        id: "only_verdict",
        name: "only …",
        says: "show only what fits, only what is tight, only what does not fit, everything",
        focus: &[],
        keys: &["o"],
        in_footer: false,
        change: only_verdict,
    },
    Command {
        id: "show_all",
        name: "show all",
        says: "show every size again",
        focus: &[Focus::Ranking],
        keys: &["c"],
        in_footer: true,
        change: show_all,
    },
];

fn filter(session: &Session) -> Result<Change, Refused> {
    let text = session.document().shown().filter.text.clone();
    look(session, |view| view.overlays.push(Overlay::Field(Field::new(Prompt::Filter, text))))
}

fn only_verdict(session: &Session) -> Result<Change, Refused> {
    let filter = &session.document().shown().filter;
    let verdict = match filter.verdict {
        None => Some(Verdict::Fits),
        Some(Verdict::Fits) => Some(Verdict::Tight),
        Some(Verdict::Tight) => Some(Verdict::DoesNotFit),
        Some(Verdict::DoesNotFit) => None,
    };
    Ok(show(session, Filter { verdict, ..filter.clone() }))
}

fn show_all(session: &Session) -> Result<Change, Refused> {
    if session.document().shown().filter.is_none() {
        return Err(Refused::new("every size is shown"));
    }
    Ok(show(session, Filter::default()))
}

fn show(session: &Session, filter: Filter) -> Change {
    Change::Edit(Edit::Shown(Shown { filter, ..session.document().shown().clone() }))
}
