//! The procedure of a case: criteria written before, trials with what was seen, what was
//! used, follow-up, and the check boxes of the room.

mod criteria;
mod forecast;
mod later;
mod observation;
mod seen;
mod trials;
mod write;

pub(crate) use criteria::key as criterion_key;
pub(crate) use criteria::row;
pub(crate) use later::room_key;
pub(crate) use seen::bounds;
pub(crate) use write::{
    before_fields, criterion_fields, follow_up_fields, observation_fields, room_fields,
    trial_fields, used_fields,
};

use crate::faults::Faults;
use crate::place::FieldPlace;
use criteria::{BeforeForm, CriterionForm};
use later::{FollowUpForm, RoomForm, UsedForm};
use serde::Deserialize;
use sizing::trial::{CameOfIt, Procedure};
use trials::TrialForm;

/// The fields of a case that are of the procedure, as serde reads them.
#[derive(Deserialize)]
pub(crate) struct ProcedureForm {
    pub(crate) case_id: Option<String>,
    pub(crate) before: Vec<BeforeForm>,
    pub(crate) planned_on: Option<String>,
    pub(crate) criteria: Vec<CriterionForm>,
    pub(crate) trials: Vec<TrialForm>,
    pub(crate) used: UsedForm,
    pub(crate) follow_up: Vec<FollowUpForm>,
    pub(crate) room: Vec<RoomForm>,
}

pub(crate) use criteria::{BeforeForm as Before, CriterionForm as Criterion};
pub(crate) use later::{FollowUpForm as FollowUp, RoomForm as Room, UsedForm as Used};
pub(crate) use trials::TrialForm as Trial;

/// The minutes of a day: no procedure is longer.
const MOST_MINUTES: f64 = 1440.0;

/// Reads the procedure of a case; `at` is the place of the case.
pub(crate) fn procedure(form: ProcedureForm, at: &FieldPlace, faults: &mut Faults) -> Procedure {
    let case_id = form
        .case_id
        .map(|id| case_id(id, &at.field("case_id"), faults));
    let planned_on = form
        .planned_on
        .map(|digest| planned_on(digest, &at.field("planned_on"), faults));
    let trials = trials::trials(form.trials, &at.field("trials"), faults);
    let was_released = trials
        .iter()
        .any(|trial| trial.came_of_it == Some(CameOfIt::Released));
    if !form.follow_up.is_empty() && !was_released {
        let remedy = "Say `came_of_it: released` of the trial, or take the follow-up out.";
        let expected = "a device that was released before a follow-up";
        faults.say(&at.field("follow_up"), "nothing released", expected, remedy);
    }
    Procedure {
        case_id,
        before: criteria::before(form.before, &at.field("before"), faults),
        planned_on,
        criteria: criteria::criteria(form.criteria, &at.field("criteria"), faults),
        trials,
        used: later::used(&form.used, &at.field("used"), faults),
        follow_up: later::follow_up(form.follow_up, &at.field("follow_up"), faults),
        room: later::room(form.room, &at.field("room"), faults),
    }
}

/// Lengths of a case's name.
const CASE_ID_LENGTHS: std::ops::RangeInclusive<usize> = 3..=32;

fn case_id(id: String, at: &FieldPlace, faults: &mut Faults) -> String {
    let is_right = |it: char| it.is_ascii_lowercase() || it.is_ascii_digit() || it == '-';
    if !CASE_ID_LENGTHS.contains(&id.len()) || !id.chars().all(is_right) {
        let expected = "3 to 32 small letters, digits and `-`, nothing of the patient";
        faults.add(at, expected, "");
    }
    id
}

/// Hexadecimal digits of a SHA-256.
const DIGEST_DIGITS: usize = 64;

fn planned_on(digest: String, at: &FieldPlace, faults: &mut Faults) -> String {
    let is_right = |it: char| it.is_ascii_digit() || matches!(it, 'a'..='f');
    if digest.len() != DIGEST_DIGITS || !digest.chars().all(is_right) {
        faults.add(at, "a digest as the program writes it, 64 digits", "");
    }
    digest
}

/// A minute after puncture.
fn minute(at: &FieldPlace, min: f64, faults: &mut Faults) -> f64 {
    faults.number(at, min, 0.0..=MOST_MINUTES, "min")
}

#[cfg(test)]
mod tests;
