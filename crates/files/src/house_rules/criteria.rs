//! Release criteria: what is looked at before a device is released.

use super::limits::{ConditionForm, conditions};
use crate::faults::Faults;
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::procedure::{bounds, row};
use crate::rows::{each_row, source};
use serde::Deserialize;
use serde::de::IgnoredAny;
use sizing::Subject;
use sizing::house_rules::CriterionRow;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CriterionRowForm {
    id: BareWord,
    #[serde(default)]
    of: Vec<BareWord>,
    #[serde(default)]
    sites: Vec<BareWord>,
    #[serde(default)]
    when: Vec<ConditionForm>,
    who: String,
    view: String,
    inside: Option<IgnoredAny>,
    beyond: Option<IgnoredAny>,
    source: String,
}

/// Rows of release criteria; one of an unknown kind is a fault and left out.
pub(super) fn rows(
    forms: Vec<CriterionRowForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<CriterionRow> {
    let rows = each_row(forms, at, |form, at| {
        let kind = row(&form.id, &at.field("id"), faults)?;
        let at_of = at.field("of");
        let of: Vec<Subject> = faults.words(&at_of, &form.of);
        for (index, one) in of.iter().enumerate() {
            if !kind.can_be_of(*one) {
                let expected = format!("what {} can be of", kind.name());
                faults.add(&at_of.item(index), expected, "");
            }
        }
        let said = [form.inside.is_some(), form.beyond.is_some()];
        Some(CriterionRow {
            row: kind,
            of,
            sites: faults.words(&at.field("sites"), &form.sites),
            when: conditions(form.when, &at.field("when"), faults),
            who: faults.text(&at.field("who"), form.who),
            view: faults.text(&at.field("view"), form.view),
            bounds: bounds(kind, said, at, faults),
            source: source(form.source, at, faults),
        })
    });
    rows.into_iter().flatten().collect()
}
