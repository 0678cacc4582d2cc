//! Forecasts of a trial, frozen in its case.

use super::seen::{subject, value};
use crate::faults::{Faults, LineOfName};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::each_row;
use measurement::Blocks;
use serde::Deserialize;
use sizing::Subject;
use sizing::house_rules::Band;
use sizing::trial::{
    AskedOf, Forecast, Forecasts, LimitForecast, ObservationKind, PERCENTILES, SeenForecast,
    ValueForecast,
};

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ForecastsForm {
    opened: Option<ForecastForm>,
    closed: Option<ForecastForm>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ForecastForm {
    ess: f64,
    inside_before: Option<f64>,
    inside: f64,
    #[serde(default)]
    limits: Vec<LimitForm>,
    #[serde(default)]
    seen: Vec<SeenForm>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LimitForm {
    check: String,
    of: Option<BareWord>,
    chance: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SeenForm {
    what: BareWord,
    of: Option<BareWord>,
    side: Option<BareWord>,
    yes: Option<f64>,
    over: Option<f64>,
    by_readings: Option<f64>,
    at_most: Option<f64>,
    at_zero: Option<f64>,
    percentiles: Option<Vec<f64>>,
}

/// The forecasts of a trial, which is closed or not.
pub(super) fn forecasts(
    form: ForecastsForm,
    is_closed: bool,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Forecasts {
    let at_closed = at.field("closed");
    if form.closed.is_some() && !is_closed {
        let remedy = "Take it out: it is made when the trial closes.";
        let found = "a forecast of closing";
        faults.say(&at_closed, found, "none while the trial is open", remedy);
    }
    let opened = form.opened;
    Forecasts {
        opened: opened.map(|form| forecast(form, &at.field("opened"), faults)),
        closed: form.closed.map(|form| forecast(form, &at_closed, faults)),
    }
}

fn chance(value: f64, at: &FieldPlace, faults: &mut Faults) -> f64 {
    faults.number(at, value, 0.0..=1.0, "")
}

fn forecast(form: ForecastForm, at: &FieldPlace, faults: &mut Faults) -> Forecast {
    let most = (Blocks::COUNT * Blocks::MOST_PER_BLOCK) as f64;
    let mut known = LineOfName::new();
    let limits = each_row(form.limits, &at.field("limits"), |form, at| {
        limit(form, &mut known, at, faults)
    });
    let mut known = LineOfName::new();
    let seen = each_row(form.seen, &at.field("seen"), |form, at| {
        let seen = seen(&form, at, faults)?;
        let key = format!("{} {}", seen.what.name(), seen.of.name());
        faults.once(&mut known, &key, at);
        Some(seen)
    });
    Forecast {
        effective: faults.number(&at.field("ess"), form.ess, 1.0..=most, ""),
        inside_before: form
            .inside_before
            .map(|it| chance(it, &at.field("inside_before"), faults)),
        inside: chance(form.inside, &at.field("inside"), faults),
        limits,
        seen: seen.into_iter().flatten().collect(),
    }
}

fn limit(
    form: LimitForm,
    known: &mut LineOfName,
    at: &FieldPlace,
    faults: &mut Faults,
) -> LimitForecast {
    let checks = sizing::check_ids();
    if !checks.contains(&form.check.as_str()) {
        let expected = "the id of a check, such as \"clearance\"";
        faults.unknown(&at.field("check"), &form.check, checks, expected);
    }
    let of = form.of.as_ref();
    let of: Subject = faults.word_or(&at.field("of"), of, Subject::Shape);
    faults.once(known, &format!("{} {}", form.check, of.name()), at);
    LimitForecast {
        chance: chance(form.chance, &at.field("chance"), faults),
        check: form.check,
        of,
    }
}

/// Reads one forecast; `None` where its subject is not known.
fn seen(form: &SeenForm, at: &FieldPlace, faults: &mut Faults) -> Option<SeenForecast> {
    let at_what = at.field("what");
    let what = faults.known_word::<ObservationKind>(&at_what, &form.what.0)?;
    if !what.is_weighed() {
        faults.add(&at_what, "an observation of geometry", "Take it out.");
    }
    let (field, said, other, unasked) = match what.asked_of() {
        AskedOf::Side => ("side", &form.side, "of", &form.of),
        AskedOf::Valve | AskedOf::Device => ("of", &form.of, "side", &form.side),
    };
    if unasked.is_some() {
        let expected = format!("no {other} for {}", what.name());
        faults.add(&at.field(other), expected, "Take it out.");
    }
    let word = said.as_ref().map(|word| word.0.as_str());
    let is_value = what.unit().is_some() && what != ObservationKind::EdgeJet;
    for (name, is_said) in [
        ("over", form.over.is_some()),
        ("by_readings", form.by_readings.is_some()),
        ("at_most", form.at_most.is_some()),
        ("at_zero", form.at_zero.is_some()),
        ("percentiles", form.percentiles.is_some()),
    ] {
        if is_said && !is_value {
            let expected = format!("no {name} for {}, which is an answer", what.name());
            faults.add(&at.field(name), expected, "Take it out.");
        }
    }
    let needed = if is_value { "percentiles" } else { "yes" };
    if (is_value && form.percentiles.is_none()) || (!is_value && form.yes.is_none()) {
        let expected = format!("what was foretold of {}", what.name());
        let remedy = format!("Add `{needed}: …`.");
        faults.say(at, &format!("no {needed}"), expected, remedy);
    }
    let over = form
        .over
        .map(|it| value(what, it, &at.field("over"), faults));
    if form.yes.is_some() != form.over.is_some() && is_value {
        let expected = "a value's chance with the limit it is over, both or neither";
        faults.say(at, "one of yes and over", expected, "");
    }
    Some(SeenForecast {
        what,
        of: subject(what, word, at, field, faults),
        yes: form.yes.map(|it| chance(it, &at.field("yes"), faults)),
        over,
        value: form
            .percentiles
            .as_ref()
            .map(|percentiles| value_forecast(what, form, percentiles, at, faults)),
    })
}

fn value_forecast(
    what: ObservationKind,
    form: &SeenForm,
    percentiles: &[f64],
    at: &FieldPlace,
    faults: &mut Faults,
) -> ValueForecast {
    let at_list = at.field("percentiles");
    let each: Vec<f64> = percentiles
        .iter()
        .enumerate()
        .map(|(index, &it)| value(what, it, &at_list.item(index), faults))
        .collect();
    let all = <[f64; PERCENTILES]>::try_from(each).ok();
    if !all.is_some_and(|all| all.is_sorted()) {
        let expected = format!("{PERCENTILES} values, none less than the one before it");
        faults.add(
            &at_list,
            expected,
            "They are the 5, 10 … 95 % of what would be seen.",
        );
    }
    let within = -Band::MOST..=Band::MOST;
    let at_zero = form.at_zero.unwrap_or(0.0);
    ValueForecast {
        by_readings: form
            .by_readings
            .map(|it| faults.number(&at.field("by_readings"), it, within, "")),
        at_most: form
            .at_most
            .map(|it| value(what, it, &at.field("at_most"), faults)),
        at_zero: chance(at_zero, &at.field("at_zero"), faults),
        percentiles: all.unwrap_or([0.0; PERCENTILES]),
    }
}
