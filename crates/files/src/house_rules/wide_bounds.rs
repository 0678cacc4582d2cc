//! Wide bounds, outside which a value may be a misreading or a slip of the pen.

use crate::faults::Faults;
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use measurement::Quantity;
use serde::Deserialize;
use sizing::house_rules::{Band, WideBound, WideBoundRow};
use std::ops::RangeInclusive;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WideBoundForm {
    of: Vec<String>,
    #[serde(default)]
    sites: Vec<BareWord>,
    within_sd: Option<f64>,
    #[serde(default)]
    by_weight: Vec<AtWeightForm>,
    low: Option<f64>,
    high: Option<f64>,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct AtWeightForm {
    kg: f64,
    low: Option<f64>,
    high: Option<f64>,
}

/// Most standard deviations of a table that a row may allow.
const MOST_DEVIATIONS: f64 = 20.0;

pub(super) fn rows(
    forms: Vec<WideBoundForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<WideBoundRow> {
    each_row(forms, at, |form, at| row(form, at, faults))
}

fn row(form: WideBoundForm, at: &FieldPlace, faults: &mut Faults) -> WideBoundRow {
    let at_of = at.field("of");
    let of = faults.quantities(&at_of, &form.of);
    if form.of.is_empty() {
        faults.add(&at_of, "at least one quantity", "");
    }
    if of
        .iter()
        .any(|one| Some(one.unit()) != of.first().map(|it| it.unit()))
    {
        faults.add(
            &at_of,
            "quantities of one unit",
            "Give each unit a row of its own.",
        );
    }
    let within = accepted(&of);
    let any = Band {
        low: form.low,
        high: form.high,
    };
    let kinds = [
        form.within_sd.is_some(),
        !form.by_weight.is_empty(),
        !any.is_none(),
    ];
    if kinds.iter().filter(|is_there| **is_there).count() != 1 {
        let expected = "`within_sd`, `by_weight`, or `low` and `high`: one of these";
        faults.say(
            at,
            "not one bound",
            expected,
            "Give each kind a row of its own.",
        );
    }
    let bound = if let Some(deviations) = form.within_sd {
        let at = at.field("within_sd");
        WideBound::Table(faults.above_zero(&at, deviations, MOST_DEVIATIONS, "SD"))
    } else if form.by_weight.is_empty() {
        WideBound::Any(band(any, &within, at, faults))
    } else {
        WideBound::Weight(by_weight(
            form.by_weight,
            &within,
            &at.field("by_weight"),
            faults,
        ))
    };
    WideBoundRow {
        of,
        sites: faults.words(&at.field("sites"), &form.sites),
        bound,
        source: source(form.source, at, faults),
    }
}

/// Bands at rising weights, each with the same sides.
fn by_weight(
    forms: Vec<AtWeightForm>,
    within: &RangeInclusive<f64>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<(f64, Band)> {
    /// Largest weight of a child or an adult, in kilograms.
    const MOST_WEIGHT: f64 = 250.0;
    let mut before: Option<(f64, Band)> = None;
    each_row(forms, at, |form, at| {
        let kg = faults.above_zero(&at.field("kg"), form.kg, MOST_WEIGHT, "kg");
        let given = Band {
            low: form.low,
            high: form.high,
        };
        let band = band(given, within, at, faults);
        if let Some((lighter, other)) = before {
            if kg <= lighter {
                faults.add(
                    &at.field("kg"),
                    format!("more than {lighter}, the weight before"),
                    "",
                );
            }
            let sides = |band: Band| (band.low.is_some(), band.high.is_some());
            if sides(band) != sides(other) {
                let remedy = "A side that is bounded at one weight is bounded at all of them.";
                faults.add(at, "`low` and `high` as at the weight before", remedy);
            }
        }
        before = Some((kg, band));
        (kg, band)
    })
}

fn band(band: Band, within: &RangeInclusive<f64>, at: &FieldPlace, faults: &mut Faults) -> Band {
    let mut bound = |name, value: Option<f64>| {
        value.map(|value| faults.number(&at.field(name), value, within.clone(), ""))
    };
    let band = Band {
        low: bound("low", band.low),
        high: bound("high", band.high),
    };
    if let (Some(low), Some(high)) = (band.low, band.high)
        && low > high
    {
        faults.add(
            &at.field("high"),
            format!("at least the low bound, {low}"),
            "",
        );
    }
    band
}

/// What all of several quantities accept.
fn accepted(of: &[Quantity]) -> RangeInclusive<f64> {
    let least = of.iter().map(|one| one.info().least);
    let most = of.iter().map(|one| one.info().most);
    least.fold(f64::NEG_INFINITY, f64::max)..=most.fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use crate::{parse_house_rules, shipped};
    use sizing::HouseRules;

    /// The shipped rules with other wide bounds, or none.
    fn with(wide_bounds: &str) -> Result<HouseRules, Vec<crate::Diagnostic>> {
        let (name, text) = shipped::HOUSE_RULES;
        let (before, _) = text.split_once("    wide_bounds: [").unwrap();
        let text = format!("{before}{wide_bounds})");
        parse_house_rules(name, &text).map(crate::Checked::into_value)
    }

    #[test]
    fn a_file_without_wide_bounds_is_given_the_shipped_ones() {
        let lent = with("").unwrap();
        assert_eq!(lent.from_shipped, ["wide_bounds"]);
        assert!(lent.wide_bounds.len() > 20);
        let none = with("wide_bounds: []").unwrap();
        assert_eq!(none.from_shipped, [""; 0]);
        assert!(none.wide_bounds.is_empty());
    }

    #[test]
    fn every_fault_of_a_row_is_found() {
        let row = |row: &str| with(&format!("wide_bounds: [(source: \"assumption\", {row})]"));
        assert!(row("of: [\"aortic.rim\"], high: 9").is_ok());
        for fault in [
            "of: [], high: 9",
            "of: [\"aortic.rimm\"], high: 9",
            "of: [\"aortic.rim\"]",
            "of: [\"aortic.rim\"], low: 1, within_sd: 5",
            "of: [\"aortic.rim\"], within_sd: 0",
            "of: [\"aortic.rim\"], within_sd: NaN",
            "of: [\"aortic.rim\"], low: 9, high: 1",
            "of: [\"aortic.rim\"], high: 900",
            "of: [\"aortic.rim\", \"patient.age\"], high: 9",
            "of: [\"aortic.rim\"], by_weight: [(kg: 0, high: 9)]",
            "of: [\"aortic.rim\"], by_weight: [(kg: 5, high: 9), (kg: 5, high: 9)]",
            "of: [\"aortic.rim\"], by_weight: [(kg: 5, high: 9), (kg: 9, low: 1)]",
            "of: [\"aortic.rim\"], high: 9, sites: [nowhere]",
        ] {
            assert!(row(fault).is_err(), "{fault}");
        }
    }
}
