mod conditions;
mod questions;
mod rows;

use crate::document::{Checked, Place};
use crate::faults::{Faults, Seen, one_of};
use crate::form::Bare;
use crate::house_rules::source;
use crate::{Diagnostic, FileError, Source};
use questions::{QuestionForm, WayForm};
use rows::RowForm;
use serde::Deserialize;
use std::path::Path;
use workup::{Limits, Parameter};

/// Largest file of published limits that is read, in bytes.
pub const LIMITS_CAP: u64 = 1024 * 1024;

/// Published limits with the text they came from.
pub type LimitsFile = Checked<Limits>;

/// Reads published limits from a file.
pub fn read_limits(path: &Path) -> Result<LimitsFile, FileError> {
    Ok(Checked::read(Source::read(path, LIMITS_CAP)?, limits)?)
}

/// Reads published limits from a text; all faults at once where it is RON of the
/// right form, the first one otherwise.
pub fn parse_limits(name: &str, text: &str) -> Result<LimitsFile, Vec<Diagnostic>> {
    Checked::read(Source::new(name, text), limits)
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LimitsForm {
    #[serde(rename = "format")]
    _format: u32,
    title: String,
    mixed_venous: Bare,
    parameters: Vec<ParameterForm>,
    children: Vec<RowForm>,
    adults: Vec<RowForm>,
    not_measured: Vec<QuestionForm>,
    other_ways: Vec<WayForm>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ParameterForm {
    name: Bare,
    value: f64,
    source: String,
}

fn limits(form: LimitsForm, at: &Place, faults: &mut Faults) -> Limits {
    let mut ids = Seen::new();
    Limits {
        title: faults.text(&at.field("title"), form.title),
        mixed_venous: faults.word(&at.field("mixed_venous"), &form.mixed_venous.0),
        parameters: parameters(form.parameters, &at.field("parameters"), faults),
        children: rows::rows(form.children, &at.field("children"), &mut ids, faults),
        adults: rows::rows(form.adults, &at.field("adults"), &mut ids, faults),
        questions: questions::questions(form.not_measured, &at.field("not_measured"), faults),
        ways: questions::ways(form.other_ways, &at.field("other_ways"), faults),
    }
}

/// Every parameter, in its own order.
fn parameters(forms: Vec<ParameterForm>, at: &Place, faults: &mut Faults) -> Vec<(f64, String)> {
    let mut values: Vec<Option<(f64, String)>> = Parameter::ALL.iter().map(|_| None).collect();
    let mut seen = Seen::new();
    for (index, form) in forms.into_iter().enumerate() {
        let at = at.item(index);
        let source = source(form.source, &at, faults);
        let name = form.name.0;
        let Some(info) = Parameter::ALL.iter().find(|info| info.name == name) else {
            let known = || Parameter::ALL.iter().map(|info| info.name);
            faults.unknown(&at.field("name"), &name, known(), one_of(known()));
            continue;
        };
        faults.once(&mut seen, info.name, &at.field("name"));
        let within = info.least..=info.most;
        let value = faults.number(&at.field("value"), form.value, within, info.unit);
        values[info.parameter.index()] = Some((value, source));
    }
    for (info, value) in Parameter::ALL.iter().zip(&values) {
        if value.is_none() {
            let found = format!("no row for {}", info.name);
            let expected = format!("{} ({}), {}", info.name, info.unit, info.label);
            faults.say(at, &found, expected, "Add the row.");
        }
    }
    values.into_iter().flatten().collect()
}
