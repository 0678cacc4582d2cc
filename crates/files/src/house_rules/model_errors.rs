//! Model errors: the standard deviations that your centre's rules give the model.

use crate::faults::{Faults, LineOfName};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use measurement::ModelError;
use serde::Deserialize;
use sizing::house_rules::ModelErrorRow;

/// What stands in the note that rows came from the shipped file, where it has the list
/// or not.
pub(super) const fn lent_name(has_list: bool) -> &'static str {
    if has_list {
        "model_errors (some rows)"
    } else {
        "model_errors"
    }
}

/// The largest standard deviation of a model error.
const MOST_MODEL_ERROR: f64 = 3.0;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ModelErrorForm {
    of: BareWord,
    sd: f64,
    source: String,
}

/// Reads the standard deviation of each model error, each once.
pub(super) fn rows(
    forms: Vec<ModelErrorForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<ModelErrorRow> {
    let mut known = LineOfName::new();
    let rows = each_row(forms, at, |form, at| {
        let of = faults.known_word::<ModelError>(&at.field("of"), &form.of.0)?;
        faults.once(&mut known, of.name(), &at.field("of"));
        Some(ModelErrorRow {
            of,
            sd: faults.number(&at.field("sd"), form.sd, 0.0..=MOST_MODEL_ERROR, ""),
            source: source(form.source, at, faults),
        })
    });
    rows.into_iter().flatten().collect()
}

#[cfg(test)]
mod tests {
    use crate::{parse_house_rules, shipped};
    use measurement::ModelError;
    use sizing::HouseRules;

    /// The shipped rules with other model errors, or none.
    fn with(model_errors: &str) -> Result<HouseRules, Vec<crate::Diagnostic>> {
        let (name, text) = shipped::HOUSE_RULES;
        let (before, rest) = text.split_once("    model_errors: [").unwrap();
        let (_, after) = rest.split_once("    ],\n").unwrap();
        let text = format!("{before}{model_errors}\n{after}");
        parse_house_rules(name, &text).map(crate::Checked::into_value)
    }

    #[test]
    fn a_file_without_model_errors_is_given_the_shipped_ones() {
        let (name, text) = shipped::HOUSE_RULES;
        let shipped = parse_house_rules(name, text).unwrap().into_value();
        assert_eq!(shipped.from_shipped, [""; 0]);
        let lent = with("").unwrap();
        assert_eq!(lent.from_shipped, ["model_errors"]);
        assert_eq!(lent.model_errors.len(), ModelError::ALL.len());
        assert_eq!(lent.model_errors, shipped.model_errors);
    }

    #[test]
    fn a_row_that_a_file_lacks_is_the_shipped_one() {
        let own = with("model_errors: [(of: rim_overlap, sd: 0.4, source: \"ours\")],").unwrap();
        assert_eq!(own.from_shipped, ["model_errors (some rows)"]);
        assert_eq!(own.model_errors.len(), ModelError::ALL.len());
        assert!((own.model_error_sd(ModelError::RimOverlap) - 0.4).abs() < 1e-12);
    }

    #[test]
    fn every_fault_of_a_row_is_found() {
        let row = |row: &str| with(&format!("model_errors: [({row}, source: \"ours\")],"));
        assert!(row("of: waist, sd: 0.2").is_ok());
        for bad in [
            "of: waist, sd: -0.1",
            "of: waist, sd: 3.1",
            "of: waist, sd: NaN",
            "of: rim, sd: 0.1",
            "of: waist, sd: 0.1, unit: mm",
        ] {
            assert!(row(bad).is_err(), "{bad}");
        }
        let twice = "of: rim_overlap, sd: 0.1, source: \"ours\"), (of: rim_overlap, sd: 0.2";
        assert!(row(twice).is_err());
    }
}
