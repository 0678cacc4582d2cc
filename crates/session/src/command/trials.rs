//! Commands on the page of trials.

mod confirm;

use super::{Change, Command, ask, look, open};
use crate::overlay::{CriterionForm, ObservationForm, Overlay, Prompt};
use crate::trial_row::TrialRow;
use crate::trials::{self, Step};
use crate::{Edit, Focus, Refused, Session};

const PANELS: &[Focus] = Focus::OF_TRIALS;
const WITH_CRITERIA: &[Focus] = &[Focus::Before, Focus::Trials];
const WITH_SEEN: &[Focus] = &[Focus::Trials, Focus::FollowUp];

pub(super) const COMMANDS: &[Command] = &[
    Command {
        id: "seen_now",
        name: "seen now",
        says: "confirm what the row offers; nothing counts before. On other rows: open, start, tick, type",
        focus: PANELS,
        keys: &["enter"],
        in_footer: true,
        change: |session| confirm::confirm(session, &selected(session)?),
    },
    Command {
        id: "next_seen",
        name: "value",
        says: "offer the next value of the row",
        focus: PANELS,
        keys: &["right", "l", "+", "="],
        in_footer: true,
        change: |session| offer(session, true, false),
    },
    Command {
        id: "previous_seen",
        name: "value before",
        says: "offer the value before",
        focus: PANELS,
        keys: &["left", "h", "-"],
        in_footer: false,
        change: |session| offer(session, false, false),
    },
    Command {
        id: "next_seen_far",
        name: "coarse step",
        says: "offer a value a coarse step on; of a jet at the edge, the next hour of the clock",
        focus: PANELS,
        keys: &["shift-right", "L"],
        in_footer: false,
        change: |session| offer(session, true, true),
    },
    Command {
        id: "previous_seen_far",
        name: "coarse back",
        says: "offer a value a coarse step back; of a jet at the edge, the hour before",
        focus: PANELS,
        keys: &["shift-left", "H"],
        in_footer: false,
        change: |session| offer(session, false, true),
    },
    Command {
        id: "details",
        name: "correct",
        says: "correct the minute, the value or its SD; add the view, or why this happened",
        focus: PANELS,
        keys: &["e"],
        in_footer: true,
        change: details,
    },
    Command {
        id: "write_criteria",
        name: "write criteria",
        says: "write your centre's release criteria for a pinned size into the case",
        focus: &[Focus::Bays, Focus::Before, Focus::Trials],
        keys: &["F"],
        in_footer: true,
        change: write_criteria,
    },
    Command {
        id: "change_criterion",
        name: "change",
        says: "change the selected criterion; once a device was opened, with a reason that stays",
        focus: WITH_CRITERIA,
        keys: &["c"],
        in_footer: false,
        change: change_criterion,
    },
    Command {
        id: "do_not_count",
        name: "set aside",
        says: "set what was seen last on the row aside with a reason, or count it again",
        focus: WITH_SEEN,
        keys: &["s"],
        in_footer: false,
        change: set_aside,
    },
];

fn selected(session: &Session) -> Result<TrialRow, Refused> {
    session.trial_row().ok_or(Refused::NoTrialRow)
}

fn offer(session: &Session, is_forward: bool, is_coarse: bool) -> Result<Change, Refused> {
    let row = selected(session)?;
    let step = Step {
        is_forward,
        is_coarse,
    };
    let pick = trials::stepped(session, &row, step)?;
    Ok(look(session, |view| view.pick = Some((row, pick))))
}

fn details(session: &Session) -> Result<Change, Refused> {
    let row = selected(session)?;
    let procedure = &session.document().case().procedure;
    match &row {
        TrialRow::Minute => {
            let now = session
                .minute()
                .map_or_else(String::new, |now| format!("{now:.0}"));
            Ok(ask(session, Prompt::Minute, now))
        }
        TrialRow::Observer => {
            let view = procedure.open().and_then(|open| open.view.clone());
            Ok(ask(session, Prompt::TrialView, view.unwrap_or_default()))
        }
        TrialRow::CameOfIt | TrialRow::Open(_) if !procedure.trials.is_empty() => {
            let because = procedure
                .trials
                .last()
                .and_then(|last| last.because.clone());
            Ok(ask(session, Prompt::Because, because.unwrap_or_default()))
        }
        TrialRow::Observation(..) | TrialRow::Later(..) => {
            let seen = trials::looked_at(session, &row);
            let seen = seen.ok_or(Refused::NothingSeen)?;
            let is_later = matches!(row, TrialRow::Later(..));
            let form = ObservationForm::new(seen.clone(), is_later);
            Ok(open(session, Overlay::Observation(form)))
        }
        TrialRow::Day => {
            let day = session
                .day()
                .map_or_else(String::new, |day| day.to_string());
            Ok(ask(session, Prompt::Day, day))
        }
        TrialRow::Grown => {
            let grown = session.view().grown;
            let grown = grown.map_or_else(String::new, |it| format!("{} {}", it.weight, it.height));
            Ok(ask(session, Prompt::Grown, grown))
        }
        _ => Err(Refused::NothingToCorrect),
    }
}

fn write_criteria(session: &Session) -> Result<Change, Refused> {
    if session.view().focus == Focus::Bays {
        let bay = session
            .document()
            .bays()
            .get(session.view().selected[Focus::Bays]);
        let name = bay.and_then(|bay| session.document().shelf().name(bay.place));
        let name = name.ok_or(Refused::NothingPinned)?;
        return trials::criteria(session, &name).map(Change::Edit);
    }
    if let Some(TrialRow::Criteria(size) | TrialRow::Open(size)) = session.trial_row() {
        return trials::criteria(session, &size).map(Change::Edit);
    }
    let sizes = session.trial_rows(Focus::Before);
    let mut sizes = sizes.iter().filter_map(|row| match row {
        TrialRow::Criteria(size) => Some(size),
        _ => None,
    });
    let edit = sizes.find_map(|size| trials::criteria(session, size).ok());
    edit.map(Change::Edit).ok_or(Refused::AllCriteriaWritten)
}

fn change_criterion(session: &Session) -> Result<Change, Refused> {
    let procedure = &session.document().case().procedure;
    let (size, row, of) = match selected(session)? {
        TrialRow::Written(size, row, of) => (size, row, of),
        TrialRow::Observation(row, of) => {
            let open = procedure.open().map(|open| open.size.clone());
            (open.unwrap_or_default(), row, of)
        }
        _ => return Err(Refused::NoCriterion),
    };
    let mut written = procedure.criteria_of(&size);
    let criterion = written.find(|one| one.row == row && one.of == of);
    let criterion = criterion.ok_or(Refused::NotACriterion)?;
    let form = CriterionForm::new(criterion.clone(), procedure.is_locked());
    Ok(open(session, Overlay::Criterion(form)))
}

fn set_aside(session: &Session) -> Result<Change, Refused> {
    let row = selected(session)?;
    let seen = trials::looked_at(session, &row);
    let seen = seen.ok_or(Refused::NothingSeen)?;
    if seen.set_aside.is_some() {
        let edit: Edit = trials::set_aside(session, &seen.id, None)?;
        return Ok(Change::Edit(edit));
    }
    Ok(ask(session, Prompt::WhyAside(seen.id.clone()), ""))
}
