//! Exceptions of a case from your centre's rules, as case files have them.

use crate::faults::{Faults, LineOfName, one_of};
use crate::place::FieldPlace;
use crate::ron_text::{Field, Style, number, quoted, record};
use crate::rows::each_row;
use crate::words::Word;
use measurement::Quantity;
use serde::Deserialize;
use sizing::house_rules::{
    Band, Exception, ExceptionPart, Parameter, RuleAddress, RuleKind, Stated,
};
use sizing::{Case, HouseRules};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ExceptionForm {
    rule: String,
    limit: Option<BandForm>,
    warning: Option<BandForm>,
    value: Option<f64>,
    unit: Option<String>,
    sd: Option<f64>,
    because: String,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
struct BandForm {
    low: Option<f64>,
    high: Option<f64>,
}

/// The exceptions of a case, each from another rule.
pub(crate) fn exceptions(
    forms: Vec<ExceptionForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<Exception> {
    let mut seen = LineOfName::new();
    let each = each_row(forms, at, |form, at| {
        faults.once(&mut seen, &form.rule, &at.field("rule"));
        exception(form, at, faults)
    });
    each.into_iter().flatten().collect()
}

/// Reads an exception; `None` where its rule is not known.
fn exception(form: ExceptionForm, at: &FieldPlace, faults: &mut Faults) -> Option<Exception> {
    let Ok(rule) = form.rule.parse::<RuleAddress>() else {
        let parameters = Parameter::ALL.iter().map(|info| info.name);
        let known = sizing::check_ids().into_iter().chain(parameters);
        let known = known.chain(Quantity::all().map(Quantity::address));
        let expected = "a check, a parameter or a quantity of your centre's rules";
        let about = form.rule.split(' ').next().unwrap_or_default();
        faults.unknown(&at.field("rule"), about, known, expected);
        return None;
    };
    let kind = rule.kind();
    let own: &[&str] = match kind {
        RuleKind::Limit(_) => &["limit", "warning"],
        RuleKind::Parameter(_) => &["value"],
        RuleKind::Assumed(_) => &["value", "unit", "sd"],
    };
    if !has_only(own, &form, at, faults) {
        return None;
    }
    if let (RuleKind::Assumed(quantity), Some(unit)) = (kind, &form.unit) {
        faults.unit_of(&at.field("unit"), unit, quantity);
    }
    let band = |form: BandForm| Band {
        low: form.low.map(|low| low + 0.0),
        high: form.high.map(|high| high + 0.0),
    };
    let value = form.value.map(|value| value + 0.0);
    let instead = match kind {
        RuleKind::Limit(_) => Stated::Limits {
            stop: band(form.limit?),
            caution: band(form.warning?),
        },
        RuleKind::Parameter(_) => Stated::Value(value?),
        RuleKind::Assumed(_) => Stated::Assumed {
            value: value?,
            sd: form.sd?,
        },
    };
    let exception = Exception {
        rule,
        instead,
        because: form.because,
    };
    for fault in exception.faults() {
        faults.add(&place(at, fault.part), fault.expected, "");
    }
    Some(exception)
}

/// Whether an exception says all that its kind of rule states, and nothing else.
/// A limit that is left out is not thereby gone.
fn has_only(own: &[&str], form: &ExceptionForm, at: &FieldPlace, faults: &mut Faults) -> bool {
    let said = [
        ("limit", form.limit.is_some()),
        ("warning", form.warning.is_some()),
        ("value", form.value.is_some()),
        ("unit", form.unit.is_some()),
        ("sd", form.sd.is_some()),
    ];
    let mut is_right = true;
    for (name, is_said) in said {
        let belongs = own.contains(&name);
        if is_said == belongs {
            continue;
        }
        is_right = false;
        if belongs {
            let remedy = match name {
                "limit" | "warning" => {
                    format!("Add `{name}: (low: …, high: …)`, or `{name}: ()` for none.")
                }
                _ => format!("Add `{name}: …`."),
            };
            faults.say(at, &format!("no {name}"), "it here", remedy);
        } else {
            let expected = format!("only {}, as this rule states", one_of(own.iter().copied()));
            let remedy = "Take it out.";
            faults.say(&at.field(name), name, expected, remedy);
        }
    }
    is_right
}

fn place<'a>(at: &FieldPlace<'a>, part: ExceptionPart) -> FieldPlace<'a> {
    match part {
        ExceptionPart::StopLow => at.field("limit").field("low"),
        ExceptionPart::StopHigh => at.field("limit").field("high"),
        ExceptionPart::CautionLow => at.field("warning").field("low"),
        ExceptionPart::CautionHigh => at.field("warning").field("high"),
        ExceptionPart::Value => at.field("value"),
        ExceptionPart::Sd => at.field("sd"),
        ExceptionPart::Because => at.field("because"),
    }
}

/// Exceptions from rules that the house does not have at the site, or that its
/// other rules contradict.
pub(crate) fn under(rules: &HouseRules, case: &Case, at: &FieldPlace, faults: &mut Faults) {
    let known: Vec<RuleAddress> = rules
        .rules_at(case.site)
        .into_iter()
        .map(|rule| rule.address)
        .collect();
    for (index, exception) in case.exceptions.iter().enumerate() {
        if rules.rule(&exception.rule, case.site).is_some() {
            continue;
        }
        let check = exception.rule.about();
        let like: Vec<String> = known
            .iter()
            .filter(|one| one.about() == check)
            .map(ToString::to_string)
            .collect();
        let remedy = match like.as_slice() {
            [] => format!("It says nothing of {check} there."),
            like => format!("Of {check} it has: {}.", like.join("; ")),
        };
        let expected = format!("a rule that your centre has at {}", case.site.name());
        faults.add(&at.item(index).field("rule"), expected, remedy);
    }
    if rules.chances_are_in_order()
        && !rules
            .with(&case.exceptions, case.site)
            .chances_are_in_order()
    {
        let expected = "chance_does_not_fit at most chance_fits";
        faults.say(at, "chances that cross", expected, "");
    }
}

/// An exception's fields; what its kind of rule does not state is left out.
pub(crate) fn exception_fields(exception: &Exception) -> Vec<Field> {
    let band = |band| Some(record(&band_fields(band), &Style::ROW));
    let (mut limit, mut warning, mut value, mut unit, mut deviation) = Default::default();
    match exception.instead {
        Stated::Limits { stop, caution } => (limit, warning) = (band(stop), band(caution)),
        Stated::Value(stated) => value = Some(number(stated)),
        Stated::Assumed { value: stated, sd } => {
            (value, deviation) = (Some(number(stated)), Some(number(sd)));
            if let RuleKind::Assumed(quantity) = exception.rule.kind() {
                unit = Some(quoted(quantity.unit().word()));
            }
        }
    }
    vec![
        ("rule", Some(quoted(&exception.rule.to_string()))),
        ("limit", limit),
        ("warning", warning),
        ("value", value),
        ("unit", unit),
        ("sd", deviation),
        ("because", Some(quoted(&exception.because))),
    ]
}

/// The two sides of a limit or a warning.
pub(crate) fn band_fields(band: Band) -> Vec<Field> {
    vec![
        ("low", band.low.map(number)),
        ("high", band.high.map(number)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{parse_case, parse_house_rules, shipped};
    use measurement::Site;
    use std::collections::BTreeSet;

    fn rules() -> HouseRules {
        let (name, text) = shipped::HOUSE_RULES;
        parse_house_rules(name, text).unwrap().into_value()
    }

    #[test]
    fn every_rule_of_the_shipped_house_has_a_name_of_its_own_at_every_site() {
        let rules = rules();
        for site in Site::ALL {
            let at = rules.rules_at(site);
            let names: BTreeSet<&RuleAddress> = at.iter().map(|rule| &rule.address).collect();
            assert_eq!(names.len(), at.len());
            for rule in &at {
                assert!(!rule.address.to_string().contains('#'), "{}", rule.address);
                let is_of_its_kind = matches!(
                    (rule.address.kind(), rule.stated),
                    (RuleKind::Limit(_), Stated::Limits { .. })
                        | (RuleKind::Parameter(_), Stated::Value(_))
                        | (RuleKind::Assumed(_), Stated::Assumed { .. })
                );
                assert!(is_of_its_kind, "{}", rule.address);
            }
        }
    }

    /// What the house itself says may be said of every one of its rules.
    #[test]
    fn an_exception_from_every_rule_is_written_and_read_again() {
        let rules = rules();
        for (name, text) in shipped::SCENARIOS {
            let mut case = parse_case(name, text).unwrap().into_value();
            let all = rules.rules_at(case.site).into_iter();
            case.exceptions = all
                .map(|rule| Exception {
                    rule: rule.address,
                    instead: rule.stated,
                    because: "as \"agreed\"".into(),
                })
                .collect();
            let read = parse_case(name, &crate::new_case(&case)).unwrap();
            assert_eq!(read.value(), &case);
            assert_eq!(read.faults_under(&rules), []);
        }
    }
}
