//! Conditions of a row of guidance, and the cases that it speaks of.

use crate::faults::{Faults, one_of};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::words::Word;
use measurement::Answer;
use serde::Deserialize;
use std::ops::RangeInclusive;
use workup::{Bounds, Condition, OfAdult, OfChild, Reach};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ConditionForm {
    figure: Option<BareWord>,
    at_least: Option<f64>,
    over: Option<f64>,
    at_most: Option<f64>,
    under: Option<f64>,
    finding: Option<BareWord>,
    is: Option<BareWord>,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BoundsForm {
    at_least: Option<f64>,
    over: Option<f64>,
    at_most: Option<f64>,
    under: Option<f64>,
}

/// Figures that a limit may name: more, or less, is a slip of the pen.
const FIGURES: RangeInclusive<f64> = -20.0..=200.0;
/// Weights a row may name, in kilograms.
const WEIGHTS: RangeInclusive<f64> = 0.0..=250.0;
/// Ages a row may name, in years.
const AGES: RangeInclusive<f64> = 0.0..=120.0;

/// A figure with bounds, or a finding with an answer.
pub(super) fn condition<M: Word>(
    form: ConditionForm,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Option<Condition<M>> {
    let bounds = BoundsForm {
        at_least: form.at_least,
        over: form.over,
        at_most: form.at_most,
        under: form.under,
    };
    let has_bounds = [bounds.at_least, bounds.over, bounds.at_most, bounds.under]
        .iter()
        .any(Option::is_some);
    match (form.figure, form.finding, form.is) {
        (Some(figure), None, None) if has_bounds => {
            let figure = measure(&figure.0, &at.field("figure"), faults)?;
            Some(Condition::Figure(
                figure,
                limited(&bounds, at, &FIGURES, "", faults),
            ))
        }
        (None, Some(finding), Some(is)) if !has_bounds => {
            let wanted = faults.word(&at.field("is"), &is.0);
            if wanted == Answer::Unknown {
                faults.add(&at.field("is"), "yes or no", "");
            }
            let finding = faults.known_word(&at.field("finding"), &finding.0)?;
            Some(Condition::Finding(finding, wanted))
        }
        _ => {
            faults.add(
                at,
                "a figure with its limits or a finding with its answer",
                "Write `(figure: …, at_least: …)`, `(figure: …, under: …)` or \
                 `(finding: …, is: yes)`.",
            );
            None
        }
    }
}

/// The figure of a word. Where the other list knows the word it is resistance,
/// and why it is not known here is said.
fn measure<M: Word>(word: &str, at: &FieldPlace, faults: &mut Faults) -> Option<M> {
    let of_another_list = OfChild::from_word(word).is_some() || OfAdult::from_word(word).is_some();
    if M::from_word(word).is_none() && of_another_list {
        let remedy = "A child's resistance is indexed (resistance_indexed, WU·m²), an adult's is \
                      not (resistance, WU): they do not compare.";
        faults.add(at, one_of(M::WORDS.iter().map(|(word, _)| *word)), remedy);
        return None;
    }
    faults.known_word(at, word)
}

/// The cases that sites, weight and age name.
pub(super) fn reach(
    sites: &[BareWord],
    weight: Option<&BoundsForm>,
    age: Option<&BoundsForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Reach {
    let mut bounds = |name, form: Option<&BoundsForm>, within, unit| {
        form.map_or_else(Bounds::default, |form| {
            limited(form, &at.field(name), within, unit, faults)
        })
    };
    let weight = bounds("weight_kg", weight, &WEIGHTS, "kg");
    let age = bounds("age_years", age, &AGES, "years");
    Reach {
        sites: faults.words(&at.field("sites"), sites),
        weight,
        age,
    }
}

fn limited(
    form: &BoundsForm,
    at: &FieldPlace,
    within: &RangeInclusive<f64>,
    unit: &str,
    faults: &mut Faults,
) -> Bounds {
    let mut number = |name, value: Option<f64>| {
        value.map(|value| faults.number(&at.field(name), value, within.clone(), unit))
    };
    let bounds = Bounds {
        at_least: number("at_least", form.at_least),
        over: number("over", form.over),
        at_most: number("at_most", form.at_most),
        under: number("under", form.under),
    };
    let low = bounds.at_least.or(bounds.over);
    let high = bounds.at_most.or(bounds.under);
    if let (Some(low), Some(high)) = (low, high)
        && high <= low
    {
        faults.add(
            at,
            format!("an upper limit over {low}"),
            "No value is within.",
        );
    }
    bounds
}
