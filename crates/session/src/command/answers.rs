//! Commands that answer a question of fact.

use super::{Change, Command};
use crate::fact::{next, next_value};
use crate::{Edit, Focus, Refused, Row, Session};
use sizing::Answer;

const READINGS: &[Focus] = &[Focus::Readings];

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "answer",
        name: "answer",
        says: "answer the selected question: its answers in turn",
        focus: READINGS,
        keys: &["space"],
        in_footer: true,
        change: answer,
    },
    Command {
        id: "out_of_reach",
        name: "out of reach",
        says: "mark this neighbour as out of reach of any disc, or as in reach",
        focus: READINGS,
        keys: &["n"],
        in_footer: true,
        change: no_such_neighbour,
    },
];

fn answer(session: &Session) -> Result<Change, Refused> {
    let case = session.document().case();
    match session.row() {
        Some(Row::Fact(fact)) => Ok(Change::Edit(Edit::Fact(next_value(case.facts.get(*fact))))),
        Some(Row::Exclusion(id)) => {
            let answer: Answer = case.exclusions.get(id).copied().unwrap_or_default();
            Ok(Change::Edit(Edit::Exclusion(
                id.clone(),
                Some(next(answer)),
            )))
        }
        Some(Row::Finding(finding)) => {
            let answer = case.findings.get(finding).copied().unwrap_or_default();
            Ok(Change::Edit(Edit::Finding(*finding, Some(next(answer)))))
        }
        _ => Err(Refused::NoQuestion),
    }
}

fn no_such_neighbour(session: &Session) -> Result<Change, Refused> {
    let Some(neighbour) = session.row().and_then(Row::neighbour) else {
        return Err(Refused::NoNeighbour);
    };
    let is_absent = session.document().case().is_absent(neighbour);
    Ok(Change::Edit(Edit::Absent(neighbour, !is_absent)))
}
