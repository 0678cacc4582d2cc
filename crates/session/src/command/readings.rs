//! Commands on the selected reading.

use super::{Change, Command, ask, look, open};
use crate::amount::{Nudge, nudged, number};
use crate::first_reading;
use crate::overlay::{CaseForm, Finder, Guide, Overlay, Prompt, ReadingForm};
use crate::{Doubt, Edit, Focus, Refused, Row, Session};
use measurement::{Quantity, Reading};
use sizing::resolve::{Basis, neighbour_of};

const READINGS: &[Focus] = &[Focus::Readings];

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "more",
        name: "more",
        says: "nudge the reading up by its fine step",
        focus: READINGS,
        keys: &["right", "+", "=", "l"],
        in_footer: true,
        change: |session| nudge(session, Nudge::Up),
    },
    Command {
        id: "less",
        name: "less",
        says: "nudge the reading down by its fine step",
        focus: READINGS,
        keys: &["left", "-", "h"],
        in_footer: true,
        change: |session| nudge(session, Nudge::Down),
    },
    Command {
        id: "much_more",
        name: "much more",
        says: "nudge the reading up by its coarse step",
        focus: READINGS,
        keys: &["shift-right", "L"],
        in_footer: false,
        change: |session| nudge(session, Nudge::CoarseUp),
    },
    Command {
        id: "much_less",
        name: "much less",
        says: "nudge the reading down by its coarse step",
        focus: READINGS,
        keys: &["shift-left", "H"],
        in_footer: false,
        change: |session| nudge(session, Nudge::CoarseDown),
    },
    Command {
        id: "type_value",
        name: "type",
        says: "type the value of the reading",
        focus: READINGS,
        keys: &["enter"],
        in_footer: true,
        change: type_value,
    },
    Command {
        id: "type_doubt",
        name: "SD",
        says: "type the standard deviation of the reading",
        focus: READINGS,
        keys: &["d"],
        in_footer: false,
        change: type_doubt,
    },
    Command {
        id: "set_aside",
        name: "set aside",
        says: "set the reading aside with a reason, or use it again",
        focus: &[Focus::Readings, Focus::Doubt],
        keys: &["s"],
        in_footer: true,
        change: set_aside,
    },
    Command {
        id: "add_reading",
        name: "add a reading",
        says: "add a reading of the selected quantity",
        focus: READINGS,
        keys: &["a"],
        in_footer: true,
        change: add_reading,
    },
    Command {
        id: "new_case",
        name: "new case",
        says: "begin a new case: title and site first, then its questions",
        focus: &[],
        keys: &["N"],
        in_footer: false,
        change: |session| Ok(open(session, Overlay::Case(CaseForm::new()))),
    },
    Command {
        id: "guide",
        name: "guide",
        says: "answer, one by one, the questions that this defect still needs",
        focus: &[],
        keys: &["A"],
        in_footer: false,
        change: |session| Ok(open(session, Overlay::Guide(Guide::new(session)))),
    },
    Command {
        id: "edit_reading",
        name: "edit",
        says: "edit the reading: value, SD, how, where and when it was taken",
        focus: READINGS,
        keys: &["e"],
        in_footer: true,
        change: edit_reading,
    },
    Command {
        id: "find_quantity",
        name: "find",
        says: "find a quantity by the words of a report, such as TR jet or QpQs, measured or not",
        focus: READINGS,
        keys: &["/"],
        in_footer: true,
        change: |session| Ok(open(session, Overlay::Find(Finder::default()))),
    },
];

/// Goes to a quantity among the readings; where it was not measured its value is
/// asked for.
pub(crate) fn go_to_quantity(session: &Session, quantity: Quantity) -> Result<Change, Refused> {
    let row = session
        .row_of(quantity, None)
        .ok_or(Refused::NotAskedHere(quantity))?;
    let is_measured = session.document().readings_of(quantity).next().is_some();
    let neighbour = neighbour_of(quantity.info().structure);
    let is_absent = neighbour.is_some_and(|one| session.document().case().is_absent(one));
    let change = look(session, |view| {
        view.show_readings();
        view.selected[Focus::Readings] = row;
    });
    Ok(match change {
        Change::View(view, mut overlays) if !is_measured && !is_absent => {
            overlays.push(Overlay::Reading(new_form(session, quantity)));
            Change::View(view, overlays)
        }
        change => change,
    })
}

/// The form of a new reading of a quantity.
fn new_form(session: &Session, quantity: Quantity) -> ReadingForm {
    let document = session.document();
    let reading = first_reading::reading(document, quantity, quantity.info().least);
    ReadingForm::new(reading, true, &assumed(session, quantity))
}

/// The selected reading of the panel that takes keys.
fn selected(session: &Session) -> Result<&Reading, Refused> {
    let no_reading = || Refused::NoReading;
    if session.view().focus == Focus::Doubt {
        let doubt = session.doubt();
        let id = doubt.as_ref().and_then(Doubt::reading);
        return id
            .and_then(|id| session.document().reading(id))
            .ok_or_else(no_reading);
    }
    let Some(row) = session.row() else {
        return Err(no_reading());
    };
    session.reading_of(row).ok_or_else(|| match row {
        Row::Quantity(quantity) => Refused::NotMeasured(*quantity),
        _ => no_reading(),
    })
}

fn nudge(session: &Session, nudge: Nudge) -> Result<Change, Refused> {
    let reading = selected(session)?;
    let value = nudged(reading.quantity, reading.value, nudge);
    if value == reading.value {
        return Err(Refused::AtEndOfRange(reading.quantity, value));
    }
    let reading = Reading {
        value,
        ..reading.clone()
    };
    Ok(Change::Nudge(Edit::Replace(reading)))
}

fn type_value(session: &Session) -> Result<Change, Refused> {
    if let Some(Row::Quantity(quantity)) = session.row()
        && session.document().readings_of(*quantity).next().is_none()
    {
        return add_reading(session);
    }
    let reading = selected(session)?;
    let quantity = reading.quantity;
    let value = number(quantity, reading.value);
    Ok(ask(
        session,
        Prompt::Value(reading.id.clone(), quantity),
        value,
    ))
}

fn type_doubt(session: &Session) -> Result<Change, Refused> {
    let reading = selected(session)?;
    let sd = reading
        .sd
        .map_or_else(String::new, |sd| number(reading.quantity, sd));
    Ok(ask(
        session,
        Prompt::Sd(reading.id.clone(), reading.quantity),
        sd,
    ))
}

fn set_aside(session: &Session) -> Result<Change, Refused> {
    let reading = selected(session)?;
    if reading.set_aside.is_some() {
        let reading = Reading {
            set_aside: None,
            ..reading.clone()
        };
        return Ok(Change::Edit(Edit::Replace(reading)));
    }
    Ok(ask(
        session,
        Prompt::Reason(reading.id.clone(), reading.quantity),
        "",
    ))
}

fn add_reading(session: &Session) -> Result<Change, Refused> {
    let Some(quantity) = session.row().and_then(Row::quantity) else {
        return Err(Refused::NoQuantity);
    };
    let neighbour = session.row().and_then(Row::neighbour);
    if neighbour.is_some_and(|neighbour| session.document().case().is_absent(neighbour)) {
        return Err(Refused::SaidAbsent);
    }
    let form = new_form(session, quantity);
    Ok(open(session, Overlay::Reading(form)))
}

fn edit_reading(session: &Session) -> Result<Change, Refused> {
    let reading = selected(session)?.clone();
    let value = number(reading.quantity, reading.value);
    let form = ReadingForm::new(reading, false, &value);
    Ok(open(session, Overlay::Reading(form)))
}

/// What is assumed of a quantity, to begin with.
fn assumed(session: &Session, quantity: Quantity) -> String {
    let resolved = &session.setting().resolved()[quantity.index()];
    match (&resolved.basis, &resolved.law) {
        (Basis::Assumed { .. }, Some(law)) => number(quantity, law.nominal()),
        _ => String::new(),
    }
}
