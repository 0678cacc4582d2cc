//! Rows of guidance, for children or for adults.

use super::conditions::{BoundsForm, ConditionForm, condition, reach};
use crate::faults::{Faults, LineOfName};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use crate::words::Word;
use serde::Deserialize;
use workup::{Condition, LimitRow};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RowForm {
    id: String,
    says: String,
    #[serde(default)]
    sites: Vec<BareWord>,
    weight_kg: Option<BoundsForm>,
    age_years: Option<BoundsForm>,
    all: Vec<Vec<ConditionForm>>,
    bearing: BareWord,
    class: Option<String>,
    source: String,
    #[serde(default)]
    from_memory: bool,
}

/// Former ids of rows, each with the id of today.
const RENAMED: &[(&str, &str)] = &[("china_age_and_weight", "age_and_weight")];

/// The id of today for a former one, so that a file with former ids still opens.
fn renamed(id: String) -> String {
    let now = RENAMED.iter().find(|(old, _)| *old == id);
    now.map_or(id, |(_, now)| (*now).to_owned())
}

/// The rows of one population, whose words for figures are those of `M`.
pub(super) fn rows<M: Word>(
    forms: Vec<RowForm>,
    at: &FieldPlace,
    ids: &mut LineOfName,
    faults: &mut Faults,
) -> Vec<LimitRow<M>> {
    each_row(forms, at, |form, at| {
        let at_id = at.field("id");
        let id = renamed(form.id);
        faults.once(ids, &id, &at_id);
        let at_all = at.field("all");
        let (weight, age) = (form.weight_kg.as_ref(), form.age_years.as_ref());
        LimitRow {
            id: faults.name(&at_id, id),
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
    at: &FieldPlace,
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

#[cfg(test)]
mod tests {
    use crate::{parse_guidance, shipped};

    #[test]
    fn an_id_that_was_renamed_is_read_as_the_new_one() {
        let (name, text) = shipped::GUIDANCE;
        let old = text.replace("\"age_and_weight\"", "\"china_age_and_weight\"");
        assert_ne!(old, text);
        let read = |text: &str| parse_guidance(name, text).unwrap().into_value();
        assert_eq!(read(&old), read(text));
        assert!(
            read(text)
                .children
                .iter()
                .any(|row| row.id == "age_and_weight")
        );
    }
}
