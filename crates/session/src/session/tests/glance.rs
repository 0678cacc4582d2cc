//! A session in lines of plain text, and back.

use crate::fixture;
use crate::overlay::Overlay;
use crate::{Bay, Focus, Row, Session, Status, amount};
use measurement::Quantity;

/// A session in the state that a line describes, with its first result.
pub(super) fn opened(line: &str) -> Session {
    let (what, rest) = line.split_once(' ').unwrap();
    let mut case = fixture::case();
    let quantity = Quantity::from_address(what);
    if let Some(quantity) = quantity {
        case.readings
            .retain(|one| rest != "unread" || one.quantity != quantity);
        let first = case
            .readings
            .iter_mut()
            .find(|one| one.quantity == quantity);
        match (rest.parse(), first) {
            (Ok(value), Some(reading)) => reading.value = value,
            (Ok(value), None) => {
                let document = fixture::open(case.clone()).document().clone();
                case.readings
                    .push(crate::first_reading::reading(&document, quantity, value));
            }
            (Err(_), _) => {}
        }
    }
    let mut session = fixture::open(case);
    if what == "bays" {
        session.document.bays = bays(rest);
        session.bays_wait = false;
        session.view.focus = Focus::Bays;
    }
    if what == "ranking" {
        session.bays_wait = false;
        session.select_candidate(fixture::place(rest));
    }
    fixture::assess(&mut session);
    let row = session.rows().iter().position(|row| match (row, what) {
        (Row::Fact(fact), "fact") => format!("{fact:?}") == rest,
        (Row::Exclusion(id), "exclusion") => id == rest,
        (Row::Absent(neighbour), "absent") => neighbour.name() == rest,
        (row, _) => quantity.is_some() && row.quantity() == quantity,
    });
    if let Some(row) = row {
        session.select_row(row);
    }
    session
}

/// `shape/size`, each perhaps with `at` and its turn.
fn bays(line: &str) -> Vec<Bay> {
    let mut bays: Vec<Bay> = Vec::new();
    let mut words = line.split(' ');
    while let Some(word) = words.next() {
        match (word, bays.last_mut()) {
            ("at", Some(bay)) => bay.turn = words.next().map(|turn| turn.parse().unwrap()),
            _ => bays.push(Bay::new(fixture::place(word))),
        }
    }
    bays
}

/// What there is to say of a session.
pub(super) fn glance(session: &Session) -> Vec<String> {
    let document = session.document();
    let case = document.case();
    let mut lines = Vec::new();
    for reading in &case.readings {
        let address = reading.quantity.address();
        lines.push(format!(
            "{address} {}",
            amount::number(reading.quantity, reading.value)
        ));
        lines.push(format!("{address} {}", reading.value));
        lines.push(format!(
            "{address} sd {}",
            reading.sd.map_or("house".into(), |sd| sd.to_string())
        ));
        lines.extend(
            reading
                .set_aside
                .iter()
                .map(|why| format!("{address} aside {why}")),
        );
    }
    lines.extend(
        case.absent
            .iter()
            .map(|neighbour| format!("absent {}", neighbour.name())),
    );
    for row in session.rows() {
        let selected = if Some(row) == session.row() {
            " selected"
        } else {
            ""
        };
        let (name, answer) = match row {
            Row::Fact(fact) => (format!("fact {fact:?}"), Some(fact.of(&case.facts))),
            Row::Exclusion(id) => (
                format!("exclusion {id}"),
                Some(case.exclusions.get(id).copied().unwrap_or_default()),
            ),
            Row::Absent(neighbour) => (format!("absent {}", neighbour.name()), None),
            Row::Reading(_, quantity) | Row::Unread(quantity) => {
                (quantity.address().to_owned(), None)
            }
        };
        lines.extend(answer.map(|answer| format!("{name} {answer}")));
        lines.push(format!("{name}{selected}"));
    }
    let bays: Vec<String> = document
        .bays()
        .iter()
        .map(|bay| {
            let turn = bay.turn.map_or(String::new(), |turn| format!(" at {turn}"));
            format!(" {}{turn}", bay.name(document.shelf()))
        })
        .collect();
    lines.push(format!("bays{}", bays.concat()));
    let shown = document.shown();
    lines.push(format!("shown {:?} {:?}", shown.face, shown.valve));
    let verdict = shown.filter.verdict.map_or("", |verdict| verdict.word());
    lines.push(format!("filter {}{verdict}", shown.filter.text));
    let view = session.view();
    lines.push(format!("focus {:?}", view.focus));
    lines.push(format!("bay {}", view.bay));
    lines.push(format!("layers {}", view.overlays.len()));
    if let Some(Overlay::Field(field)) = view.overlays.last() {
        lines.extend(field.error.iter().map(|error| format!("error {error}")));
    }
    lines.extend(session.is_leaving().then(|| "leaving".into()));
    lines.extend(session.status().map(|status| match status {
        Status::Done(what) => format!("says {what}"),
        Status::Undone(what) => format!("says undone: {what}"),
        Status::Refused(why) => format!("says {why}"),
    }));
    lines
}
