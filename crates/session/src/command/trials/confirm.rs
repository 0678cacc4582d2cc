use super::super::{Change, ask, look};
use crate::overlay::Prompt;
use crate::trial_row::{Pick, Picked, TrialRow, degrees_of};
use crate::{Focus, Refused, Session, trials};
use sizing::trial::Takes;

/// What Enter does on a row.
pub(super) fn confirm(session: &Session, row: &TrialRow) -> Result<Change, Refused> {
    let offered = session.view().pick.as_ref();
    let offered = offered.filter(|(of, _)| of == row).map(|(_, pick)| *pick);
    match row {
        TrialRow::Minute => start_clock(session),
        TrialRow::Criteria(size) => trials::criteria(session, size).map(Change::Edit),
        TrialRow::Written(..) => Err(Refused::CriterionWritten),
        TrialRow::Open(size) => trials::opened(session, size).map(Change::Edit),
        TrialRow::Used(kind) => Ok(ask(session, Prompt::Used(*kind), "")),
        TrialRow::Room(what) if what.most().is_some() => Ok(ask(session, Prompt::Room(*what), "")),
        TrialRow::Room(what) => trials::note_room(session, *what, None).map(Change::Edit),
        TrialRow::Conflict(id) => Ok(ask(session, Prompt::WhyAside(id.clone()), "")),
        TrialRow::Before(kind, of) => {
            let Some(Pick {
                what: Picked::Seen(seen),
                ..
            }) = offered
            else {
                return Err(Refused::NothingChosen);
            };
            let called = format!("before: {}, {}", trials::name(*kind, *of), seen.says(*kind));
            trials::edit(session, row, called, |procedure| {
                procedure.note_before(*kind, *of, seen);
                Ok(())
            })
            .map(Change::Edit)
        }
        TrialRow::Observation(kind, of) => match offered {
            Some(Pick {
                what: Picked::Seen(seen),
                hour,
            }) => {
                let degrees = hour.map(|hour| degrees_of(f64::from(hour)));
                trials::observed(session, (*kind, *of), seen, degrees).map(Change::Edit)
            }
            _ if kind.takes() == Takes::Value => Ok(ask(session, Prompt::Observed(*kind, *of), "")),
            _ => Err(Refused::NothingChosen),
        },
        TrialRow::Later(kind, of) => match offered {
            Some(Pick {
                what: Picked::Seen(seen),
                hour,
            }) => {
                let degrees = hour.map(|hour| degrees_of(f64::from(hour)));
                trials::seen_later(session, (*kind, *of), seen, degrees).map(Change::Edit)
            }
            _ if kind.takes() == Takes::Value => Ok(ask(session, Prompt::Later(*kind, *of), "")),
            _ => Err(Refused::NothingChosen),
        },
        TrialRow::Day => Ok(ask(session, Prompt::Day, "")),
        TrialRow::Visit(day) => {
            let day = *day;
            Ok(look(session, |view| {
                view.day = Some(day);
                view.pick = None;
                view.later = None;
            }))
        }
        TrialRow::Grown => Ok(ask(session, Prompt::Grown, "")),
        TrialRow::Condition(condition) => {
            let offered = offered.ok_or(Refused::NothingChosen)?;
            trials::hangs(session, row, *condition, offered).map(Change::Edit)
        }
        TrialRow::Observer => {
            let Some(Pick {
                what: Picked::By(by),
                ..
            }) = offered
            else {
                return Err(Refused::NothingChosen);
            };
            let rows = session.trial_rows(Focus::Trials);
            let mut after = rows.into_iter().skip_while(|one| one != row).skip(1);
            Ok(look(session, |view| {
                view.observer = Some(by);
                view.pick = None;
                view.trial = after.next();
            }))
        }
        TrialRow::CameOfIt => {
            let Some(Pick {
                what: Picked::CameOfIt(came),
                ..
            }) = offered
            else {
                return Err(Refused::NothingChosen);
            };
            trials::close(session, came).map(Change::Edit)
        }
    }
}

fn start_clock(session: &Session) -> Result<Change, Refused> {
    if session.minute().is_some() {
        return Err(Refused::ClockRuns);
    }
    let least = session.document().case().procedure.least_minute();
    if least > 0.0 {
        return Err(Refused::MinutePassed(least));
    }
    let focus = session.view().focus;
    let rows = session.trial_rows(focus);
    let next = rows.into_iter().find(|row| *row != TrialRow::Minute);
    Ok(look(session, |view| {
        view.puncture = Some(session.clock());
        view.select_trial_row(focus, next);
    }))
}
