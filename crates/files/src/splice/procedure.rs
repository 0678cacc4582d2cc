//! Criteria, trials and all else of a procedure, written into a case.

use super::list::Named;
use super::{Splice, names};
use crate::case::CASE_FIELDS;
use crate::document::Step;
use crate::procedure::{
    before_fields, criterion_fields, criterion_key, follow_up_fields, observation_fields,
    room_fields, room_key, trial_fields, used_fields,
};
use crate::ron_text::{Field, number, quoted, record};
use sizing::trial::{Before, Criterion, FollowUp, Observation, Procedure, RoomNote, Trial, Used};
use std::borrow::Cow;

const BEFORE: Named<Before> = Named {
    name: |one| Cow::Owned(format!("{} {}", one.row.name(), one.of.name())),
    write: |one, style| record(&before_fields(one), style),
};

const CRITERIA: Named<Criterion> = Named {
    name: |one| Cow::Owned(criterion_key(one)),
    write: |one, style| record(&criterion_fields(one), style),
};

const TRIALS: Named<Trial> = Named {
    name: |trial| Cow::Borrowed(&trial.id),
    write: |trial, style| record(&trial_fields(trial), style),
};

const OBSERVATIONS: Named<Observation> = Named {
    name: |seen| Cow::Borrowed(&seen.id),
    write: |seen, style| record(&observation_fields(seen), style),
};

const FOLLOW_UP: Named<FollowUp> = Named {
    name: |day| Cow::Owned(number(day.day)),
    write: |day, style| record(&follow_up_fields(day), style),
};

const ROOM: Named<RoomNote> = Named {
    name: |note| Cow::Owned(room_key(note)),
    write: |note, style| record(&room_fields(note), style),
};

/// Changes the procedure of a case to the one wanted.
pub(super) fn procedure(splice: &mut Splice, was: &Procedure, wanted: &Procedure) {
    splice.set_fields(&[], &head(was), &head(wanted), &CASE_FIELDS);
    rows(
        splice,
        "before",
        (&BEFORE, before_fields),
        (&was.before, &wanted.before),
    );
    rows(
        splice,
        "criteria",
        (&CRITERIA, criterion_fields),
        (&was.criteria, &wanted.criteria),
    );
    trials(splice, &was.trials, &wanted.trials);
    used(splice, &was.used, &wanted.used);
    rows(
        splice,
        "follow_up",
        (&FOLLOW_UP, follow_up_fields),
        (&was.follow_up, &wanted.follow_up),
    );
    rows(
        splice,
        "room",
        (&ROOM, room_fields),
        (&was.room, &wanted.room),
    );
}

fn head(procedure: &Procedure) -> [Field; 2] {
    [
        ("case_id", procedure.case_id.as_deref().map(quoted)),
        ("planned_on", procedure.planned_on.as_deref().map(quoted)),
    ]
}

/// The fields of a record as they are written.
type Fields<T> = fn(&T) -> Vec<Field>;

/// A list of the case whose items are fields alone.
fn rows<T: PartialEq>(
    splice: &mut Splice,
    list: &str,
    (named, fields): (&Named<T>, Fields<T>),
    (was, wanted): (&[T], &[T]),
) {
    if was == wanted {
        return;
    }
    splice.ensure_field(&[], list, "[]", &CASE_FIELDS);
    let path = [Step::Field(list)];
    named.sync(splice, &path, was, wanted, |splice, at, was, wanted| {
        splice.set_record(at, &fields(was), &fields(wanted));
    });
}

fn trials(splice: &mut Splice, was: &[Trial], wanted: &[Trial]) {
    const SEEN: &str = "seen";
    if was == wanted {
        return;
    }
    splice.ensure_field(&[], "trials", "[]", &CASE_FIELDS);
    let path = [Step::Field("trials")];
    TRIALS.sync(splice, &path, was, wanted, |splice, at, was, wanted| {
        let (mut before, mut after) = (trial_fields(was), trial_fields(wanted));
        let order = names(&after);
        for fields in [&mut before, &mut after] {
            fields.retain(|(name, _)| *name != SEEN);
        }
        splice.set_fields(at, &before, &after, &order);
        if was.seen == wanted.seen {
            return;
        }
        splice.ensure_field(at, SEEN, "[]", &order);
        let seen: Vec<Step> = at.iter().copied().chain([Step::Field(SEEN)]).collect();
        let (was, wanted) = (&was.seen, &wanted.seen);
        OBSERVATIONS.sync(splice, &seen, was, wanted, |splice, at, was, wanted| {
            let (was, wanted) = (observation_fields(was), observation_fields(wanted));
            splice.set_record(at, &was, &wanted);
        });
    });
}

fn used(splice: &mut Splice, was: &Used, wanted: &Used) {
    if was == wanted {
        return;
    }
    splice.ensure_field(&[], "used", "()", &CASE_FIELDS);
    let group = [Step::Field("used")];
    splice.set_record(&group, &used_fields(was), &used_fields(wanted));
}
