//! Rows of what must be measured first, and of what caps a verdict.

use super::limits::{ConditionForm, conditions};
use crate::faults::{Faults, one_of};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use serde::Deserialize;
use sizing::Fact;
use sizing::house_rules::{CapRow, Exclusion, MeasuredFirst, Need};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct MeasuredFirstForm {
    #[serde(default)]
    sites: Vec<BareWord>,
    #[serde(default)]
    all: Vec<String>,
    #[serde(default)]
    one_of: Vec<String>,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CapForm {
    #[serde(default)]
    sites: Vec<BareWord>,
    #[serde(default)]
    when: Vec<ConditionForm>,
    says: String,
    source: String,
}

/// Rows of what is needed first; an exclusion they name must be one of the file.
pub(super) fn measured_first(
    forms: Vec<MeasuredFirstForm>,
    exclusions: &[Exclusion],
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<MeasuredFirst> {
    each_row(forms, at, |form, at| {
        if form.all.is_empty() && form.one_of.is_empty() {
            let remedy = "Add `all: [\"defect.long_axis\"]`, or take the row out.";
            faults.say(at, "nothing asked", "what is measured first", remedy);
        }
        MeasuredFirst {
            sites: faults.words(&at.field("sites"), &form.sites),
            all: needs(&form.all, exclusions, &at.field("all"), faults),
            one_of: needs(&form.one_of, exclusions, &at.field("one_of"), faults),
            source: source(form.source, at, faults),
        }
    })
}

fn needs(
    addresses: &[String],
    exclusions: &[Exclusion],
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<Need> {
    let each = addresses.iter().enumerate();
    each.filter_map(|(index, address)| need(address, exclusions, &at.item(index), faults))
        .collect()
}

/// A quantity, `facts.` with the name of a fact, or `exclusions.` with an id.
fn need(
    address: &str,
    exclusions: &[Exclusion],
    at: &FieldPlace,
    faults: &mut Faults,
) -> Option<Need> {
    if let Some(name) = address.strip_prefix("facts.") {
        if name == Need::NO_PROLAPSE {
            return Some(Need::NoProlapse);
        }
        let known = || {
            Fact::ALL
                .into_iter()
                .map(Fact::name)
                .chain([Need::NO_PROLAPSE])
        };
        let fact = Fact::ALL.into_iter().find(|fact| fact.name() == name);
        if fact.is_none() {
            faults.unknown(at, name, known(), one_of(known()));
        }
        return fact.map(Need::Fact);
    }
    if let Some(id) = address.strip_prefix("exclusions.") {
        let known = || exclusions.iter().map(|one| one.id.as_str());
        if !known().any(|one| one == id) {
            faults.unknown(at, id, known(), one_of(known()));
            return None;
        }
        return Some(Need::Exclusion(id.to_owned()));
    }
    faults.quantity(at, address).map(Need::Reading)
}

/// Rows of what holds verdicts at borderline.
pub(super) fn caps(forms: Vec<CapForm>, at: &FieldPlace, faults: &mut Faults) -> Vec<CapRow> {
    each_row(forms, at, |form, at| CapRow {
        sites: faults.words(&at.field("sites"), &form.sites),
        when: conditions(form.when, &at.field("when"), faults),
        says: faults.text(&at.field("says"), form.says),
        source: source(form.source, at, faults),
    })
}
