//! A session in lines of plain text, and back.

use crate::effect::Effect;
use crate::fixture;
use crate::overlay::{Ask, Overlay};
use crate::{Bay, FitMapResult, Focus, Reply, Row, Session, ShelfRow, Status, amount};
use measurement::Quantity;
use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

/// A session in the state that a line describes, with its first result; made once.
pub(super) fn opened(line: &str) -> Session {
    static OPENED: Mutex<BTreeMap<String, Session>> = Mutex::new(BTreeMap::new());
    let mut opened = OPENED.lock().unwrap_or_else(PoisonError::into_inner);
    opened
        .entry(line.to_owned())
        .or_insert_with(|| open(line))
        .clone()
}

fn open(line: &str) -> Session {
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
    if what == "file" {
        session.saved(crate::Home::File(rest.into()));
    }
    if what == "trials" || what == "released" {
        session.model.document.bays = bays(rest);
        session.bays_wait = false;
        fixture::press(&mut session, "7");
    }
    if what == "released" {
        fixture::press(&mut session, "F enter enter end left enter");
    }
    if what == "bays" {
        session.model.document.bays = bays(rest);
        session.bays_wait = false;
        session.model.view.focus = Focus::Bays;
    }
    if what == "ranking" {
        session.bays_wait = false;
        session.select_candidate(fixture::place(rest));
    }
    if what == "work_up" {
        // It is asked for with the list.
        fixture::answer(&mut session);
    }
    fixture::assess(&mut session);
    match what {
        "shelf" => {
            fixture::press(&mut session, "6");
            let shelf = session.document().shelf();
            let is_it = |row: &ShelfRow| match row {
                ShelfRow::Shape(id) => id == rest,
                ShelfRow::Size(place) => shelf.name(*place).as_deref() == Some(rest),
            };
            session.model.view.selected[Focus::Shelf] =
                shelf.rows().iter().position(is_it).unwrap();
        }
        "doubt" => {
            fixture::press(&mut session, "2");
            fixture::answer(&mut session);
            session.model.view.selected[Focus::Doubt] = rest.parse().unwrap();
        }
        "map" => {
            fixture::press(&mut session, "3");
            session.receive(Reply::Mapped(Arc::clone(&MAP)));
            let (column, row) = rest.split_once(' ').unwrap();
            session.model.view.cell = Some((column.parse().unwrap(), row.parse().unwrap()));
        }
        "work_up" => {
            fixture::press(&mut session, "4");
            session.model.view.selected[Focus::WorkUp] = rest.parse().unwrap();
        }
        "rule" => {
            fixture::press(&mut session, "5");
            let rules = session.house_rules();
            let place = rules.iter().position(|rule| rule.about == rest);
            session.model.view.selected[Focus::Rules] = place.unwrap();
        }
        _ => {}
    }
    let row = session.rows().iter().position(|row| match (row, what) {
        (Row::Fact(fact), "fact") => format!("{fact:?}") == rest,
        (Row::Exclusion(id), "exclusion") => id == rest,
        (Row::Finding(finding), "finding") => finding.name() == rest,
        (Row::Absent(neighbour), "absent") => neighbour.name() == rest,
        (row, _) => quantity.is_some() && row.quantity() == quantity,
    });
    if let Some(row) = row {
        session.select_line(Focus::Readings, row);
    }
    session
}

/// The map of the demonstration, made once.
static MAP: LazyLock<Arc<FitMapResult>> = LazyLock::new(|| {
    let mut session = fixture::infant();
    fixture::press(&mut session, "3");
    fixture::answer(&mut session);
    Arc::clone(session.results().mapped().unwrap())
});

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
    lines.push(format!(
        "case {} with {} readings",
        case.site.name(),
        case.readings.len()
    ));
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
            Row::Fact(fact) => {
                let value = case.facts.get(*fact);
                lines.push(format!("fact {fact:?} {}", value.says()));
                (format!("fact {fact:?}"), None)
            }
            Row::Exclusion(id) => (
                format!("exclusion {id}"),
                Some(case.exclusions.get(id).copied().unwrap_or_default()),
            ),
            Row::Finding(finding) => (
                format!("finding {}", finding.name()),
                Some(case.findings.get(finding).copied().unwrap_or_default()),
            ),
            Row::Absent(neighbour) => (format!("absent {}", neighbour.name()), None),
            Row::Reading(_, quantity) | Row::Quantity(quantity) => {
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
    lines.extend(seen(session));
    lines.extend(procedure(session));
    lines.extend(layer(session));
    lines.extend(shelf(session));
    lines.extend(
        session
            .house_rule()
            .map(|it| format!("reads {}: {}", it.about, it.says)),
    );
    lines.extend(
        case.exceptions
            .iter()
            .map(|one| format!("excepted {} because {}", one.rule, one.because)),
    );
    lines.extend(session.outbox.iter().filter_map(|effect| match effect {
        Effect::File(errand) => Some(format!("errand {errand:?}")),
        Effect::LookBack(order) => Some(format!("looks back over {}", order.folder.display())),
        Effect::Leave => Some("leaving".into()),
        Effect::Suspend => Some("suspending".into()),
        _ => None,
    }));
    lines.extend(session.status().map(|status| match status {
        Status::Done(what) => format!("says {what}"),
        Status::Undone(what) => format!("says undone: {what}"),
        Status::Refused(why) => format!("says {why}"),
    }));
    lines
}

/// What is written of the procedure, and what the page of trials offers.
fn procedure(session: &Session) -> Vec<String> {
    let procedure = &session.document().case().procedure;
    let mut lines: Vec<String> = procedure
        .criteria
        .iter()
        .map(|one| {
            let reasons: Vec<&str> = one.changes.iter().map(|it| it.reason.as_str()).collect();
            let (row, of) = (one.row.name(), one.of.name());
            let says = one.bounds.says(one.row);
            format!("criterion {row} of {of} {says} {}", reasons.join(", "))
                .trim_end()
                .to_owned()
        })
        .collect();
    lines.extend(procedure.trials.iter().map(|trial| {
        let outcome = trial.came_of_it.map_or("open", |it| it.name());
        format!("deployed {} at {} {outcome}", trial.size, trial.opened_min)
    }));
    if procedure.trials.is_empty() {
        lines.push("deployed none".to_owned());
    }
    for trial in &procedure.trials {
        lines.push(format!(
            "lies {} {:?} {}",
            trial.wire_across, trial.cable, trial.seat_as_modelled
        ));
        lines.extend(trial.view.iter().map(|view| format!("view {view}")));
        lines.extend(trial.because.iter().map(|why| format!("because {why}")));
    }
    let seen: Vec<_> = procedure.trials.iter().flat_map(|it| &it.seen).collect();
    if seen.is_empty() {
        lines.push("seen none".to_owned());
    }
    for one in seen {
        let at = one
            .clock_position
            .map_or_else(String::new, |at| format!(" at {at}"));
        let by = one
            .by
            .map_or_else(String::new, |by| format!(" by {}", by.label()));
        let (row, of) = (one.what.name(), one.of.name());
        let says = one.seen.says(one.what);
        lines.push(format!("seen {row} of {of} {says}{at}{by}"));
        lines.extend(
            one.set_aside
                .iter()
                .map(|why| format!("not counted because {why}")),
        );
    }
    if procedure.follow_up.is_empty() {
        lines.push("later none".to_owned());
    }
    for day in &procedure.follow_up {
        for one in &day.seen {
            let (row, of, says) = (one.what.name(), one.of.name(), one.seen.says(one.what));
            lines.push(format!("later day {} {row} of {of} {says}", day.day));
            let aside = one.set_aside.iter();
            lines.extend(aside.map(|why| format!("later not counted because {why}")));
        }
    }
    let view = session.view();
    lines.extend(view.day.map(|day| format!("day {day}")));
    lines.extend(
        view.grown
            .map(|it| format!("grown {} kg {} cm", it.weight, it.height)),
    );
    lines.extend(procedure.before.iter().map(|one| {
        let says = one.seen.says(one.row);
        format!("was {} of {} {says}", one.row.name(), one.of.name())
    }));
    lines.extend(procedure.room.iter().map(|one| {
        let value = one
            .value
            .map_or_else(String::new, |value| format!(" {value}"));
        format!("room {}{value}", one.what.label())
    }));
    lines.extend(
        procedure
            .used
            .contrast_ml
            .map(|amount| format!("used {amount} mL")),
    );
    lines.extend(session.minute().map(|minute| format!("minute {minute}")));
    if let Some((row, pick)) = &session.view().pick {
        lines.push(format!("offers {}", pick.says(row)));
    }
    lines
}

/// What lies over the panels, and what is wrong with it.
fn layer(session: &Session) -> Vec<String> {
    let mut lines = Vec::new();
    let error = match session.overlays().last() {
        Some(Overlay::Field(field)) => field.error.clone(),
        Some(Overlay::Case(form)) => form.error.clone(),
        Some(Overlay::Reading(form)) => form.error.clone(),
        Some(Overlay::Exception(form)) => form.error.clone(),
        Some(Overlay::Criterion(form)) => form.error.clone(),
        Some(Overlay::Observation(form)) => form.error.clone(),
        Some(Overlay::Shelf(form)) => form.error.clone(),
        Some(Overlay::Guide(guide)) => {
            lines.push(match guide.ask() {
                Ask::Quantity(quantity) => format!("asked Quantity({})", quantity.address()),
                ask => format!("asked {ask:?}"),
            });
            guide.error.clone()
        }
        Some(Overlay::Question(question)) => {
            lines.push(format!("asks {}", question.asks));
            None
        }
        _ => None,
    };
    lines.extend(error.map(|error| format!("error {error}")));
    lines
}

/// The shelf: what is selected, put aside, and of one's own.
fn shelf(session: &Session) -> Vec<String> {
    let shelf = session.document().shelf();
    let mut lines = vec![match session.shelf_row() {
        Some(ShelfRow::Shape(id)) => format!("shelf {id}"),
        Some(ShelfRow::Size(place)) => format!("shelf {}", shelf.name(place).unwrap()),
        None => "shelf empty".to_owned(),
    }];
    let aside = &shelf.own().put_aside;
    lines.extend(aside.iter().map(|name| format!("aside {name}")));
    lines.extend(aside.is_empty().then(|| "aside none".to_owned()));
    let origins = shelf.shapes().map(|(_, shape)| {
        let origin = shelf.origin(&shape.id).says();
        format!("{} is {origin}", shape.id)
    });
    lines.extend(origins);
    lines
}

/// Where the operator is.
fn seen(session: &Session) -> Vec<String> {
    let view = session.view();
    let looks = view.looks;
    let mut lines = vec![
        format!("focus {:?}", view.focus),
        format!("page {:?}", view.focus.page()),
        format!("doubt {}", view.selected[Focus::Doubt]),
        format!("work-up {}", view.selected[Focus::WorkUp]),
        format!("rule {}", view.selected[Focus::Rules]),
        format!("bay {}", view.selected[Focus::Bays]),
        format!("layers {}", session.overlays().len()),
        format!("presented {}", looks.is_presented),
        format!("colours {:?}", looks.palette),
        format!("pictures {:?}", looks.pictures),
        format!("section left {:?}", looks.section_left),
        format!("mouse free {}", looks.mouse_is_free),
    ];
    lines.extend(
        session
            .listed_place()
            .map(|place| format!("candidate {place}")),
    );
    lines.extend(
        session
            .cell()
            .map(|(column, row)| format!("cell {column} {row}")),
    );
    lines
}
