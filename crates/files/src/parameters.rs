//! Parameters as files of rules and of guidance write them.

use crate::faults::{Faults, Seen, one_of};
use crate::form::Bare;
use crate::place::Place;
use crate::rows::source;
use measurement::ParameterList;
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ParameterForm {
    name: Bare,
    value: f64,
    source: String,
}

/// Every parameter with its source, in the order of the list; one that a file
/// leaves out is a fault.
pub(crate) fn parameters<P: ParameterList>(
    forms: Vec<ParameterForm>,
    at: &Place,
    faults: &mut Faults,
) -> Vec<(f64, String)> {
    let mut values: Vec<Option<(f64, String)>> = P::LIST.iter().map(|_| None).collect();
    let mut seen = Seen::new();
    for (index, form) in forms.into_iter().enumerate() {
        let at = at.item(index);
        let source = source(form.source, &at, faults);
        let name = form.name.0;
        let Some(info) = P::LIST.iter().find(|info| info.name == name) else {
            let known = || P::LIST.iter().map(|info| info.name);
            faults.unknown(&at.field("name"), &name, known(), one_of(known()));
            continue;
        };
        faults.once(&mut seen, info.name, &at.field("name"));
        let within = info.least..=info.most;
        let unit = info.unit.symbol();
        let value = faults.number(&at.field("value"), form.value, within, unit);
        values[info.parameter.position()] = Some((value, source));
    }
    for (info, value) in P::LIST.iter().zip(&values) {
        if value.is_none() {
            let found = format!("no row for {}", info.name);
            let expected = format!("{} ({}), {}", info.name, info.unit, info.label);
            faults.say(at, &found, expected, "Add the row.");
        }
    }
    values.into_iter().flatten().collect()
}
