//! Questions of what must be measured first, and other ways than by catheter.

use super::conditions::{BoundsForm, reach};
use crate::faults::{Faults, LineOfName};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use serde::Deserialize;
use workup::{Alternative, Question};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct QuestionForm {
    id: String,
    what: String,
    settles: String,
    #[serde(default)]
    sites: Vec<BareWord>,
    weight_kg: Option<BoundsForm>,
    age_years: Option<BoundsForm>,
    #[serde(default)]
    read: Vec<String>,
    #[serde(default)]
    asked: Vec<BareWord>,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WayForm {
    way: String,
    gives: String,
    loses: String,
    source: String,
}

pub(super) fn questions(
    forms: Vec<QuestionForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<Question> {
    let mut ids = LineOfName::new();
    each_row(forms, at, |form, at| {
        let at_id = at.field("id");
        faults.once(&mut ids, &form.id, &at_id);
        if form.read.is_empty() && form.asked.is_empty() {
            let remedy = "Add `read: […]` or `asked: […]`, or it stays open for good.";
            faults.say(
                at,
                "nothing that answers it",
                "a reading or a finding",
                remedy,
            );
        }
        let (weight, age) = (form.weight_kg.as_ref(), form.age_years.as_ref());
        Question {
            id: faults.name(&at_id, form.id),
            what: faults.text(&at.field("what"), form.what),
            settles: faults.text(&at.field("settles"), form.settles),
            reach: reach(&form.sites, weight, age, at, faults),
            read: faults.quantities(&at.field("read"), &form.read),
            asked: faults.words(&at.field("asked"), &form.asked),
            source: source(form.source, at, faults),
        }
    })
}

/// Other ways are always said, so there is at least one.
pub(super) fn ways(forms: Vec<WayForm>, at: &FieldPlace, faults: &mut Faults) -> Vec<Alternative> {
    if forms.is_empty() {
        faults.add(at, "at least one way besides a catheter", "");
    }
    each_row(forms, at, |form, at| Alternative {
        way: faults.text(&at.field("way"), form.way),
        gives: faults.text(&at.field("gives"), form.gives),
        loses: faults.text(&at.field("loses"), form.loses),
        source: source(form.source, at, faults),
    })
}
