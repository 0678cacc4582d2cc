//! What a confirmed row writes into the procedure.

use crate::trial_row::{Condition, Pick, Picked, TrialRow};
use crate::{Edit, Model, Refused};
use sizing::Subject;
use sizing::trial::{
    CameOfIt, Criterion, Observation, ObservationKind, Procedure, RoomBox, Seen, StepError,
    UsedKind, criteria_of,
};
use std::sync::Arc;

/// The procedure changed in one step, which is called so; `row` is where it is seen.
pub(crate) fn edit(
    model: &Model,
    row: &TrialRow,
    called: impl Into<String>,
    change: impl FnOnce(&mut Procedure) -> Result<(), StepError>,
) -> Result<Edit, Refused> {
    let mut procedure = model.document().case().procedure.clone();
    change(&mut procedure)?;
    Ok(Edit::Procedure {
        procedure: Arc::new(procedure),
        called: called.into(),
        row: row.clone(),
    })
}

/// The minute since puncture, where something cannot be written without one.
fn minute(model: &Model) -> Result<f64, Refused> {
    model.minute().ok_or(Refused::NoMinute)
}

pub(crate) fn name(kind: ObservationKind, of: Subject) -> String {
    kind.name_of(of)
}

/// Writes the criteria of a size that are not written yet.
pub(crate) fn criteria(model: &Model, size: &str) -> Result<Edit, Refused> {
    let rows = rows_of(model, size)?;
    let planned_on = model.planned_on();
    let row = TrialRow::Criteria(size.to_owned());
    let had = model.document().case().procedure.criteria.len();
    let edit = edit(
        model,
        &row,
        format!("release criteria written: {size}"),
        |procedure| {
            procedure.write_criteria(rows, &planned_on);
            Ok(())
        },
    )?;
    match &edit {
        Edit::Procedure { procedure, .. } if procedure.criteria.len() == had => {
            Err(Refused::CriteriaWritten(size.to_owned()))
        }
        _ => Ok(edit),
    }
}

/// The rows of your centre's release criteria that apply to a size.
fn rows_of(model: &Model, size: &str) -> Result<Vec<Criterion>, Refused> {
    let shelf = model.document().shelf();
    let found = shelf.place(size).and_then(|place| shelf.at(place));
    let (_, found) = found.ok_or_else(|| Refused::NoSuchName(size.to_owned()))?;
    Ok(criteria_of(model.setting(), size, found))
}

/// Opens a size on its cable; what criteria it has none of are written then, and marked.
pub(crate) fn opened(model: &Model, size: &str) -> Result<Edit, Refused> {
    let now = minute(model)?;
    let late: Vec<Criterion> = rows_of(model, size)?
        .into_iter()
        .map(|one| Criterion {
            after_opening: true,
            ..one
        })
        .collect();
    let planned_on = model.planned_on();
    let row = TrialRow::Open(size.to_owned());
    let number = model.document().case().procedure.trials.len() + 1;
    let called = format!("deployment {number}: {size} opened at minute {now:.0}");
    let rotation = rotation(model, size);
    edit(model, &row, called, |procedure| {
        let has_criteria = procedure.criteria_of(size).next().is_some();
        procedure.open_trial(size, rotation, now)?;
        if !has_criteria {
            procedure.write_criteria(late, &planned_on);
        }
        Ok(())
    })
}

/// The rotation at which a pinned size is set down: that of the hand, or the best.
fn rotation(model: &Model, size: &str) -> Option<f64> {
    let document = model.document();
    let shelf = document.shelf();
    let mut bays = document.bays().iter();
    let by_hand = bays
        .find(|bay| shelf.name(bay.place).as_deref() == Some(size))
        .and_then(|bay| bay.turn);
    by_hand.map(f64::from).or_else(|| {
        let found = model.results().assessed()?.ranking.find(size)?;
        Some(found.turn.to_degrees().round())
    })
}

/// Something seen in the open trial, by whoever looks.
pub(crate) fn observed(
    model: &Model,
    (what, of): (ObservationKind, Subject),
    seen: Seen,
    clock_position: Option<f64>,
) -> Result<Edit, Refused> {
    let observation = Observation {
        id: String::new(),
        what,
        of,
        seen,
        sd: None,
        clock_position,
        by: model.observer(),
        min: model.minute(),
        set_aside: None,
    };
    let called = format!("seen: {}, {}", name(what, of), seen.says(what));
    let row = TrialRow::Observation(what, of);
    edit(model, &row, called, |procedure| {
        procedure.observe(observation)
    })
}

/// Something seen on the day after the procedure that is looked at.
pub(crate) fn seen_later(
    model: &Model,
    (what, of): (ObservationKind, Subject),
    seen: Seen,
    clock_position: Option<f64>,
) -> Result<Edit, Refused> {
    let day = model.day().ok_or(StepError::NothingReleased)?;
    let observation = Observation {
        id: String::new(),
        what,
        of,
        seen,
        sd: None,
        clock_position,
        by: None,
        min: None,
        set_aside: None,
    };
    let says = seen.says(what);
    let called = format!("seen on day {day}: {}, {says}", name(what, of));
    edit(model, &TrialRow::Later(what, of), called, |procedure| {
        procedure.observe_later(f64::from(day), observation)
    })
}

pub(crate) fn hangs(
    model: &Model,
    row: &TrialRow,
    condition: Condition,
    pick: Pick,
) -> Result<Edit, Refused> {
    let called = format!("{}: {}", condition.label(), pick.says(row));
    edit(model, row, called, |procedure| {
        let trial = procedure.open_mut()?;
        match (condition, pick.what) {
            (Condition::WireAcross, Picked::Answer(answer)) => trial.wire_across = answer,
            (Condition::SeatAsModelled, Picked::Answer(answer)) => trial.seat_as_modelled = answer,
            (Condition::Cable, Picked::Cable(cable)) => trial.cable = cable,
            _ => {}
        }
        Ok(())
    })
}

/// What came of the open device.
pub(crate) fn close(model: &Model, came: CameOfIt) -> Result<Edit, Refused> {
    let now = minute(model)?;
    let procedure = &model.document().case().procedure;
    let open = procedure.open().map_or("", |open| open.size.as_str());
    let called = format!("{open}: {} at minute {now:.0}", came.name());
    edit(model, &TrialRow::CameOfIt, called, |procedure| {
        procedure.close(came, now)
    })
}

/// A box of the room ticked, or not any more; a figure where it has one.
pub(crate) fn note_room(model: &Model, what: RoomBox, value: Option<f64>) -> Result<Edit, Refused> {
    let is_ticked = model.document().case().procedure.ticked(what).is_some();
    let min = model.minute();
    let called = match value {
        Some(value) => format!("{}: {value} {}", what.label(), what.unit()),
        None if is_ticked => format!("not ticked: {}", what.label()),
        None => format!("ticked: {}", what.label()),
    };
    edit(model, &TrialRow::Room(what), called, |procedure| {
        if value.is_none() && is_ticked {
            procedure.untick(what);
        } else {
            procedure.tick(what, min, value);
        }
        Ok(())
    })
}

/// An amount that was used.
pub(crate) fn note_amount(
    model: &Model,
    kind: UsedKind,
    amount: Option<f64>,
) -> Result<Edit, Refused> {
    let said = amount.map_or_else(
        || "not noted".to_owned(),
        |it| format!("{it} {}", kind.unit()),
    );
    let called = format!("{}: {said}", kind.label());
    edit(model, &TrialRow::Used(kind), called, |procedure| {
        procedure.used.set(kind, amount);
        Ok(())
    })
}

/// An observation set aside with a reason, or used again.
pub(crate) fn set_aside(model: &Model, id: &str, why: Option<&str>) -> Result<Edit, Refused> {
    if why.is_some_and(|why| why.trim().is_empty()) {
        return Err(Refused::ReasonExpected);
    }
    let (one, is_later) = found(model, id).ok_or(StepError::NoObservation)?;
    let verb = if why.is_some() {
        "set aside"
    } else {
        "restored"
    };
    let called = format!("{verb}: {}", name(one.what, one.of));
    let row = row_of(one, is_later);
    let why = why.map(|why| why.trim().to_owned());
    edit(model, &row, called, |procedure| {
        procedure.observation_mut(id)?.set_aside = why;
        Ok(())
    })
}

/// An observation by its name, and whether it was seen after the procedure.
fn found<'a>(model: &'a Model, id: &str) -> Option<(&'a Observation, bool)> {
    let procedure = &model.document().case().procedure;
    let trials = procedure.trials.iter().flat_map(|trial| &trial.seen);
    let later = procedure.follow_up.iter().flat_map(|day| &day.seen);
    let mut all = trials
        .map(|one| (one, false))
        .chain(later.map(|one| (one, true)));
    all.find(|(one, _)| one.id == id)
}

/// The row on which an observation is seen.
pub(crate) const fn row_of(seen: &Observation, is_later: bool) -> TrialRow {
    if is_later {
        TrialRow::Later(seen.what, seen.of)
    } else {
        TrialRow::Observation(seen.what, seen.of)
    }
}

/// The newest observation of a row in the open trial, or on the day that is looked at,
/// set aside or not.
pub(crate) fn looked_at<'a>(model: &'a Model, row: &TrialRow) -> Option<&'a Observation> {
    let procedure = &model.document().case().procedure;
    match row {
        TrialRow::Observation(what, of) => {
            let mut all = procedure.open()?.seen.iter().rev();
            all.find(|one| one.what == *what && one.of == *of)
        }
        TrialRow::Later(what, of) => {
            let mut all = model.seen_on_day()?.seen.iter().rev();
            all.find(|one| one.what == *what && one.of == *of)
        }
        TrialRow::Conflict(id) => {
            let mut all = procedure.trials.iter().flat_map(|trial| &trial.seen);
            all.find(|one| one.id == *id)
        }
        _ => None,
    }
}

/// The view in which the open device is looked at.
pub(crate) fn with_view(model: &Model, view: &str) -> Result<Edit, Refused> {
    let view = Some(view.trim().to_owned()).filter(|view| !view.is_empty());
    let said = view.as_deref().unwrap_or("not said");
    let called = format!("view: {said}");
    edit(model, &TrialRow::Observer, called, |procedure| {
        procedure.open_mut()?.view.clone_from(&view);
        Ok(())
    })
}

/// Why something came of the device that was opened last.
pub(crate) fn with_because(model: &Model, because: &str) -> Result<Edit, Refused> {
    let because = Some(because.trim().to_owned()).filter(|it| !it.is_empty());
    let said = because.as_deref().unwrap_or("not said");
    let called = format!("because: {said}");
    edit(model, &TrialRow::CameOfIt, called, |procedure| {
        let last = procedure.trials.last_mut().ok_or(StepError::NoneOpen)?;
        last.because.clone_from(&because);
        Ok(())
    })
}
