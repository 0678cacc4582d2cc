//! Rules by which readings become values: standard deviation, scale error, bias and
//! preference.

use crate::faults::{Faults, LineOfName};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use crate::words::Word;
use measurement::{GroupPattern, Unit};
use serde::Deserialize;
use sizing::house_rules::{BiasRow, DoubtRow, PreferenceRow, ScaleRow};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DoubtForm {
    #[serde(default)]
    of: Vec<String>,
    unit: String,
    #[serde(default)]
    by: Vec<BareWord>,
    #[serde(default)]
    sd: f64,
    #[serde(default)]
    share: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ScaleForm {
    by: BareWord,
    sd: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BiasForm {
    of: Vec<String>,
    #[serde(default)]
    by: Vec<BareWord>,
    #[serde(default)]
    methods: Vec<BareWord>,
    too_large_by: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PreferenceForm {
    #[serde(default)]
    of: Vec<String>,
    #[serde(default)]
    when_prolapse: bool,
    prefer: Vec<PatternForm>,
    choose: BareWord,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PatternForm {
    #[serde(default)]
    sides: Vec<BareWord>,
    #[serde(default)]
    phases: Vec<BareWord>,
    #[serde(default)]
    methods: Vec<BareWord>,
}

/// Largest standard deviation or bias of a reading, in its unit.
const MOST_DOUBT: f64 = 100.0;
/// Largest scale error of a modality, as a share.
const MOST_SCALE: f64 = 0.5;

/// A unit of readings that files of earlier versions have no row for: theirs is the
/// shipped one.
pub(super) const LATER_UNIT: Unit = Unit::WoodM2;

/// What stands in the note that such a row came from the shipped file.
pub(super) const LENT_DOUBTS: &str = "doubts (some rows)";

/// Whether a row takes every reading in a unit.
pub(super) fn takes_all_in(row: &DoubtRow, unit: Unit) -> bool {
    row.unit == unit && row.of.is_empty() && row.modalities.is_empty()
}

/// The standard deviations of readings that carry none; every unit has one.
pub(super) fn doubts(forms: Vec<DoubtForm>, at: &FieldPlace, faults: &mut Faults) -> Vec<DoubtRow> {
    let mut ends = Vec::new();
    let rows = each_row(forms, at, |form, at| {
        let modalities = faults.words(&at.field("by"), &form.by);
        let at_unit = at.field("unit");
        let unit = faults.known_word(&at_unit, &form.unit);
        let at_of = at.field("of");
        let of = faults.quantities(&at_of, &form.of);
        if let Some(unit) = unit {
            for other in of.iter().filter(|of| of.unit() != unit) {
                let expected = format!("quantities in {}", unit.word());
                let remedy = format!("{} is in {}.", other.address(), other.unit().word());
                faults.add(&at_of, expected, remedy);
            }
            if ends.contains(&unit) {
                let remedy = "An earlier row takes all readings in this unit: put that one last.";
                faults.add(
                    &at_unit,
                    "a unit without a row for every reading before it",
                    remedy,
                );
            }
            if modalities.is_empty() && of.is_empty() {
                ends.push(unit);
            }
        }
        let sd = faults.number(&at.field("sd"), form.sd, 0.0..=MOST_DOUBT, "");
        let share = faults.number(&at.field("share"), form.share, 0.0..=1.0, "");
        if sd == 0.0 && share == 0.0 {
            faults.say(
                at,
                "neither sd nor share",
                "one above 0",
                "No reading is without doubt.",
            );
        }
        let unit = unit.unwrap_or(Unit::Mm);
        DoubtRow {
            of,
            unit,
            modalities,
            sd,
            share,
            source: source(form.source, at, faults),
        }
    });
    for &(word, unit) in Unit::WORDS {
        if !ends.contains(&unit) && unit != LATER_UNIT {
            let found = format!("no row for every reading in {word}");
            faults.say(
                at,
                &found,
                "one",
                "Add a row with this unit, without `of` and without `by`.",
            );
        }
    }
    rows
}

pub(super) fn scales(forms: Vec<ScaleForm>, at: &FieldPlace, faults: &mut Faults) -> Vec<ScaleRow> {
    let mut seen = LineOfName::new();
    each_row(forms, at, |form, at| {
        faults.once(&mut seen, &form.by.0, &at.field("by"));
        ScaleRow {
            modality: faults.word(&at.field("by"), &form.by.0),
            sd: faults.number(&at.field("sd"), form.sd, 0.0..=MOST_SCALE, ""),
            source: source(form.source, at, faults),
        }
    })
}

pub(super) fn biases(forms: Vec<BiasForm>, at: &FieldPlace, faults: &mut Faults) -> Vec<BiasRow> {
    each_row(forms, at, |form, at| {
        let at_bias = at.field("too_large_by");
        BiasRow {
            of: faults.quantities(&at.field("of"), &form.of),
            modalities: faults.words(&at.field("by"), &form.by),
            methods: faults.words(&at.field("methods"), &form.methods),
            too_large_by: faults.number(&at_bias, form.too_large_by, -MOST_DOUBT..=MOST_DOUBT, ""),
            source: source(form.source, at, faults),
        }
    })
}

/// Which like readings serve; the last row is for every quantity.
pub(super) fn preferences(
    forms: Vec<PreferenceForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<PreferenceRow> {
    let ends_well = forms
        .last()
        .is_some_and(|last| last.of.is_empty() && !last.when_prolapse);
    if !ends_well {
        let remedy = "Add a last row without `of`, or readings of other quantities serve nothing.";
        faults.say(at, "no row for every quantity at the end", "one", remedy);
    }
    each_row(forms, at, |form, at| {
        let at_prefer = at.field("prefer");
        if form.prefer.is_empty() {
            faults.add(
                &at_prefer,
                "at least one group",
                "Write `()` for any group.",
            );
        }
        PreferenceRow {
            of: faults.quantities(&at.field("of"), &form.of),
            when_prolapse: form.when_prolapse,
            prefer: each_row(form.prefer, &at_prefer, |form, at| {
                pattern(&form, at, faults)
            }),
            choose: faults.word(&at.field("choose"), &form.choose.0),
            source: source(form.source, at, faults),
        }
    })
}

fn pattern(form: &PatternForm, at: &FieldPlace, faults: &mut Faults) -> GroupPattern {
    GroupPattern {
        sides: faults.words(&at.field("sides"), &form.sides),
        phases: faults.words(&at.field("phases"), &form.phases),
        methods: faults.words(&at.field("methods"), &form.methods),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{parse_house_rules, shipped};

    #[test]
    fn a_file_from_before_resistances_is_lent_their_standard_deviation() {
        let (name, text) = shipped::HOUSE_RULES;
        let shipped = parse_house_rules(name, text).unwrap().into_value();
        let row = text
            .lines()
            .find(|line| line.contains("\"WU.m2\""))
            .unwrap();
        let old = text.replace(row, "");
        let lent = parse_house_rules(name, &old).unwrap().into_value();
        assert_eq!(lent.from_shipped, [LENT_DOUBTS]);
        assert_eq!(lent.doubts, shipped.doubts);
    }
}
