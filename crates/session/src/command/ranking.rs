//! Commands on what the ranked list shows.

use super::{Change, Command, ask};
use crate::overlay::Prompt;
use crate::{DisplayOptions, Edit, Filter, Focus, Refused, Session};
use sizing::Verdict;

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "filter",
        name: "filter",
        says: "show only devices whose name contains a text",
        focus: &[Focus::Bays, Focus::Ranking],
        keys: &["/"],
        in_footer: true,
        change: |session| {
            let text = session.document().shown().filter.text.as_str();
            Ok(ask(session, Prompt::Filter, text))
        },
    },
    Command {
        id: "only_verdict",
        name: "only …",
        says: "show only what fits, only what is borderline, only what does not fit, only what is not rated, everything",
        focus: Focus::PLAN,
        keys: &["o"],
        in_footer: true,
        change: |session| Ok(only_verdict(session)),
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

/// The verdict shown after one, in the round of all.
fn only_verdict(session: &Session) -> Change {
    let filter = &session.document().shown().filter;
    let verdict = match filter.verdict {
        None => Some(Verdict::Fits),
        Some(Verdict::Fits) => Some(Verdict::Borderline),
        Some(Verdict::Borderline) => Some(Verdict::DoesNotFit),
        Some(Verdict::DoesNotFit) => Some(Verdict::NotRated),
        Some(Verdict::NotRated) => None,
    };
    show(
        session,
        Filter {
            verdict,
            ..filter.clone()
        },
    )
}

fn show_all(session: &Session) -> Result<Change, Refused> {
    if session.document().shown().filter.is_none() {
        return Err(Refused::EverySizeShown);
    }
    Ok(show(session, Filter::default()))
}

fn show(session: &Session, filter: Filter) -> Change {
    Change::Edit(Edit::Shown(DisplayOptions {
        filter,
        ..session.document().shown().clone()
    }))
}
