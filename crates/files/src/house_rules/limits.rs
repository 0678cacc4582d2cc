use crate::faults::{Faults, LineOfName, one_of};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use serde::Deserialize;
use sizing::HouseRules;
use sizing::house_rules::{Band, Condition, LimitRow};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LimitForm {
    id: Option<String>,
    check: BareWord,
    #[serde(default)]
    of: Vec<BareWord>,
    #[serde(default)]
    sites: Vec<BareWord>,
    #[serde(default)]
    when: Vec<ConditionForm>,
    limit: Option<BandForm>,
    warning: Option<BandForm>,
    source: String,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct BandForm {
    low: Option<f64>,
    high: Option<f64>,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum ConditionForm {
    Prolapse,
    WeightUnder(f64),
    AgeUnder(f64),
    StiffDiscs,
    ChordaeOnEdge,
    ChordaeUnknown,
    MissingDisc,
    BlockBefore,
}

/// Largest weight a condition may name, in kilograms.
const MOST_WEIGHT: f64 = 250.0;
/// Largest age a condition may name, in years.
const MOST_AGE: f64 = 120.0;

pub(super) fn rows(forms: Vec<LimitForm>, at: &FieldPlace, faults: &mut Faults) -> Vec<LimitRow> {
    let checks = sizing::check_ids();
    each_row(forms, at, |form, at| row(form, &checks, at, faults))
}

/// Rows that exceptions could not tell apart have ids, each unique to its check; in
/// a file of format 1 they are told apart by their order.
pub(super) fn are_told_apart(rules: &HouseRules, at: &FieldPlace, faults: &mut Faults) {
    let mut seen = LineOfName::new();
    for (index, row) in rules.limits.iter().enumerate() {
        if let Some(id) = &row.id {
            let name = format!("{}.{id}", row.check);
            faults.once(&mut seen, &name, &at.item(index).field("id"));
        }
    }
    if at.is_of_format_1() {
        return;
    }
    for index in rules.limits_alike() {
        let at = at.item(index);
        let remedy = "Add `id: \"…\"`: no exception names a row by its order.";
        faults.say(
            &at,
            "a row like another one",
            "an id that tells it apart",
            remedy,
        );
    }
}

fn row(form: LimitForm, checks: &[&str], at: &FieldPlace, faults: &mut Faults) -> LimitRow {
    let check = form.check.0;
    if !checks.contains(&check.as_str()) {
        let known = || checks.iter().copied();
        faults.unknown(&at.field("check"), &check, known(), one_of(known()));
    }
    let stop = band(form.limit, &at.field("limit"), faults);
    let caution = band(form.warning, &at.field("warning"), faults);
    if stop.is_none() && caution.is_none() {
        let remedy = "Add `limit: (low: …, high: …)` or `warning: (…)`, or take the row out.";
        faults.say(at, "no limit", "a limit, a warning or both", remedy);
    }
    let at_caution = at.field("warning");
    if let (Some(stop), Some(caution)) = (stop.low, caution.low)
        && caution < stop
    {
        let remedy = "A warning comes before the limit.";
        faults.add(
            &at_caution.field("low"),
            format!("at least the limit, {stop}"),
            remedy,
        );
    }
    if let (Some(stop), Some(caution)) = (stop.high, caution.high)
        && caution > stop
    {
        let remedy = "A warning comes before the limit.";
        faults.add(
            &at_caution.field("high"),
            format!("at most the limit, {stop}"),
            remedy,
        );
    }
    let when = conditions(form.when, &at.field("when"), faults);
    LimitRow {
        id: form.id.map(|id| faults.name(&at.field("id"), id)),
        check,
        of: faults.words(&at.field("of"), &form.of),
        sites: faults.words(&at.field("sites"), &form.sites),
        when,
        stop,
        caution,
        source: source(form.source, at, faults),
    }
}

fn band(form: Option<BandForm>, at: &FieldPlace, faults: &mut Faults) -> Band {
    let form = form.unwrap_or_default();
    let mut limit = |name, value: Option<f64>| {
        value.map(|value| faults.number(&at.field(name), value, -Band::MOST..=Band::MOST, ""))
    };
    let band = Band {
        low: limit("low", form.low),
        high: limit("high", form.high),
    };
    if let (Some(low), Some(high)) = (band.low, band.high)
        && low > high
    {
        faults.add(
            &at.field("high"),
            format!("at least the low limit, {low}"),
            "",
        );
    }
    band
}

/// A list of conditions.
pub(super) fn conditions(
    forms: Vec<ConditionForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<Condition> {
    each_row(forms, at, |form, at| condition(form, at, faults))
}

fn condition(form: ConditionForm, at: &FieldPlace, faults: &mut Faults) -> Condition {
    let at = at.item(0);
    match form {
        ConditionForm::Prolapse => Condition::Prolapse,
        ConditionForm::WeightUnder(kg) => {
            Condition::WeightUnder(faults.above_zero(&at, kg, MOST_WEIGHT, "kg"))
        }
        ConditionForm::AgeUnder(years) => {
            Condition::AgeUnder(faults.above_zero(&at, years, MOST_AGE, "years"))
        }
        ConditionForm::StiffDiscs => Condition::StiffDiscs,
        ConditionForm::ChordaeOnEdge => Condition::ChordaeOnEdge,
        ConditionForm::ChordaeUnknown => Condition::ChordaeUnknown,
        ConditionForm::MissingDisc => Condition::MissingDisc,
        ConditionForm::BlockBefore => Condition::BlockBefore,
    }
}
