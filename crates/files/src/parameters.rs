//! Parameters in files of rules and of guidance.

use crate::faults::{Faults, LineOfName, one_of};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::source;
use measurement::ParameterList;
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ParameterForm {
    name: BareWord,
    value: f64,
    source: String,
}

/// A parameter with its source, where a file gives it.
type SourcedValue = Option<(f64, String)>;

/// Each parameter that a file gives, in the order of the list.
pub(crate) fn given<P: ParameterList>(
    forms: Vec<ParameterForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<SourcedValue> {
    let mut values: Vec<SourcedValue> = P::LIST.iter().map(|_| None).collect();
    let mut seen = LineOfName::new();
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
    values
}

#[cfg(test)]
mod tests {
    use crate::{parse_guidance, parse_house_rules, shipped};
    use sizing::house_rules::Parameter;

    /// A version may know more parameters than a file of your own.
    #[test]
    fn a_parameter_that_rules_do_not_have_is_lent_and_named() {
        let (name, text) = shipped::HOUSE_RULES;
        let all = parse_house_rules(name, text).unwrap().into_value();
        let row = text.lines().find(|line| line.contains("name: tilt_sd,"));
        let without = text.replace(row.unwrap(), "");
        let rules = parse_house_rules("rules.ron", &without).unwrap();
        let rules = rules.into_value();
        assert_eq!(rules.parameters, all.parameters);
        assert!(rules.parameter(Parameter::TiltSd) > 0.0);
        assert_eq!(rules.from_shipped, ["parameters (some rows)"]);
        assert_eq!(all.from_shipped, [""; 0]);
    }

    #[test]
    fn a_parameter_that_guidance_does_not_have_is_lent_and_named() {
        let (name, text) = shipped::GUIDANCE;
        let all = parse_guidance(name, text).unwrap().into_value();
        let row = text
            .lines()
            .find(|line| line.contains("name: small_shunt,"));
        let without = text.replace(row.unwrap(), "");
        let guidance = parse_guidance("guidance.ron", &without).unwrap();
        let guidance = guidance.into_value();
        assert_eq!(guidance.parameters, all.parameters);
        assert_eq!(guidance.from_shipped, ["small_shunt"]);
        assert_eq!(all.from_shipped, [""; 0]);
    }
}
