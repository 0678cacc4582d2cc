//! Rows of published limits, for children or for adults.

use super::conditions::{BoundsForm, ConditionForm, condition, reach};
use crate::document::Place;
use crate::faults::{Faults, Seen};
use crate::form::Bare;
use crate::house_rules::{each_row, source};
use crate::words::Word;
use serde::Deserialize;
use workup::{Condition, LimitRow};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RowForm {
    id: String,
    says: String,
    #[serde(default)]
    sites: Vec<Bare>,
    weight_kg: Option<BoundsForm>,
    age_years: Option<BoundsForm>,
    all: Vec<Vec<ConditionForm>>,
    bearing: Bare,
    class: Option<String>,
    source: String,
    #[serde(default)]
    from_memory: bool,
}

/// The rows of one population, whose words for figures are those of `M`.
pub(super) fn rows<M: Word>(
    forms: Vec<RowForm>,
    at: &Place,
    ids: &mut Seen,
    faults: &mut Faults,
) -> Vec<LimitRow<M>> {
    each_row(forms, at, |form, at| {
        let at_id = at.field("id");
        faults.once(ids, &form.id, &at_id);
        let at_all = at.field("all");
        let (weight, age) = (form.weight_kg.as_ref(), form.age_years.as_ref());
        LimitRow {
            id: faults.name(&at_id, form.id),
            says: faults.text(&at.field("says"), form.says),
            reach: reach(&form.sites, weight, age, at, faults),
            all: each_row(form.all, &at_all, |any, at| any_of(any, at, faults)),
            bearing: faults.word(&at.field("bearing"), &form.bearing.0),
            class: form
                .class
                .map(|class| faults.text(&at.field("class"), class)),
            source: source(form.source, at, faults),
            from_memory: form.from_memory,
        }
    })
}

fn any_of<M: Word>(
    forms: Vec<ConditionForm>,
    at: &Place,
    faults: &mut Faults,
) -> Vec<Condition<M>> {
    if forms.is_empty() {
        faults.add(at, "at least one condition", "Nothing meets an empty list.");
    }
    each_row(forms, at, |form, at| condition(form, at, faults))
        .into_iter()
        .flatten()
        .collect()
}
