//! The schedule of follow-up after a device was released.

use crate::faults::Faults;
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use serde::Deserialize;
use sizing::Subject;
use sizing::house_rules::ScheduleRow;
use sizing::trial::ObservationKind;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ScheduleForm {
    what: BareWord,
    #[serde(default)]
    of: Vec<BareWord>,
    #[serde(default)]
    sites: Vec<BareWord>,
    #[serde(default)]
    if_jet: bool,
    days: Vec<f64>,
    then_every: Option<f64>,
    how: String,
    source: String,
}

/// A hundred years of days.
const MOST_DAYS: f64 = 36_525.0;
/// The least days between two visits that go on for good.
const LEAST_DAYS_BETWEEN: f64 = 7.0;

/// Rows of the schedule; one of an unknown kind is a fault and left out.
pub(super) fn rows(
    forms: Vec<ScheduleForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<ScheduleRow> {
    let rows = each_row(forms, at, |form, at| {
        let what = faults.known_word::<ObservationKind>(&at.field("what"), &form.what.0);
        let at_of = at.field("of");
        let of: Vec<Subject> = faults.words(&at_of, &form.of);
        for (index, one) in of.iter().enumerate() {
            if let Some(what) = what.filter(|what| !what.can_be_of(*one)) {
                let expected = format!("what {} can be of", what.name());
                faults.add(&at_of.item(index), expected, "");
            }
        }
        let days = days(&form.days, &at.field("days"), faults);
        let then_every = form.then_every.map(|every| {
            let at = at.field("then_every");
            whole(every, LEAST_DAYS_BETWEEN, &at, faults)
        });
        let row = ScheduleRow {
            what: what?,
            of,
            sites: faults.words(&at.field("sites"), &form.sites),
            if_jet: form.if_jet,
            days,
            then_every,
            how: faults.text(&at.field("how"), form.how),
            source: source(form.source, at, faults),
        };
        Some(row)
    });
    rows.into_iter().flatten().collect()
}

/// Days in their order, each once, at least one.
fn days(forms: &[f64], at: &FieldPlace, faults: &mut Faults) -> Vec<u32> {
    if forms.is_empty() {
        faults.add(at, "at least one day", "");
    }
    let mut days: Vec<u32> = Vec::new();
    for (index, &day) in forms.iter().enumerate() {
        let at = at.item(index);
        let day = whole(day, 0.0, &at, faults);
        if let Some(before) = days.last().filter(|&&before| day <= before) {
            let expected = format!("a day after {before}");
            faults.add(&at, expected, "Days stand in their order, each once.");
        }
        days.push(day);
    }
    days
}

fn whole(days: f64, least: f64, at: &FieldPlace, faults: &mut Faults) -> u32 {
    let days = faults.number(at, days, least..=MOST_DAYS, "days");
    if days.fract() != 0.0 {
        faults.add(at, "a whole number of days", "");
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "it is within the days that are taken"
    )]
    let whole = days.clamp(0.0, MOST_DAYS) as u32;
    whole
}
