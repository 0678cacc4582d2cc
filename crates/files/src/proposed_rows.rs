use crate::ron_text::{Field, Style, number, quoted, record};
use crate::words::Word;
use sizing::look_back::ReadingRow;
use sizing::trial::ObservationKind;

/// Rows of your centre's rules that a look-back proposes for one way of reading, as a
/// file has them. Nothing puts them in but a person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ProposedRows {
    /// A row of `biases`; those that are there already stay and add up.
    pub bias: String,
    /// A row of `doubts`, to be put before the others; `None` of the defect, of which two
    /// axes are read and their perimeter is compared, and where what was seen explains the
    /// whole spread: no reading is called surer by that.
    pub doubt: Option<String>,
}

/// The rows that a look-back proposes; `None` where it proposes nothing.
pub fn proposed_rows(row: &ReadingRow) -> Option<ProposedRows> {
    let proposed = row.proposed?;
    let by = row.of.by?;
    let quantities: Vec<String> = row
        .of
        .quantities()
        .into_iter()
        .map(|quantity| quoted(quantity.address()))
        .collect();
    let of: Field = ("of", Some(format!("[{}]", quantities.join(", "))));
    let by: Field = ("by", Some(format!("[{}]", by.word())));
    let source = format!("your centre's look-back, n {}", row.pairs);
    let source: Field = ("source", Some(quoted(&source)));
    let hundredth = |value: f64| (100.0 * value).round() / 100.0;
    let bias: Field = (
        "too_large_by",
        Some(number(hundredth(proposed.too_large_by))),
    );
    let unit: Field = ("unit", Some(quoted(row.of.unit().word())));
    let sd: Field = ("sd", Some(number(hundredth(proposed.sd))));
    let is_of_two = row.of.what == ObservationKind::Waist;
    let doubt = || {
        record(
            &[of.clone(), unit, by.clone(), sd, source.clone()],
            &Style::ROW,
        )
    };
    Some(ProposedRows {
        doubt: (!is_of_two && proposed.proposes_sd()).then(doubt),
        bias: record(&[of.clone(), by.clone(), bias, source.clone()], &Style::ROW),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{parse_house_rules, shipped};
    use measurement::look_back::BiasProposal;
    use measurement::{Modality, Valve};
    use sizing::Subject;
    use sizing::look_back::ReadBy;

    fn row(what: ObservationKind, of: Subject) -> ReadingRow {
        ReadingRow {
            of: ReadBy {
                what,
                of,
                by: Some(Modality::TransoesophagealEcho),
            },
            pairs: 40,
            bounds: 3,
            agreement: None,
            proposed: Some(BiasProposal {
                too_large_by: 0.5837,
                sd: 0.6151,
            }),
        }
    }

    /// What is printed can be put into a file of rules as it is.
    #[test]
    fn proposed_rows_read_as_rules() {
        let (name, rules) = shipped::HOUSE_RULES;
        let rim = row(ObservationKind::Distance, Subject::Valve(Valve::Aortic));
        let rows = proposed_rows(&rim).unwrap();
        assert_eq!(
            rows.bias,
            "(of: [\"aortic.rim\"], by: [transoesophageal_echo], too_large_by: 0.58, source: \
             \"your centre's look-back, n 40\")"
        );
        let doubt = rows.doubt.unwrap();
        let text = rules.replacen("biases: []", &format!("biases: [{}]", rows.bias), 1);
        let text = text.replacen("doubts: [", &format!("doubts: [\n{doubt},"), 1);
        let read = parse_house_rules(name, &text).unwrap().into_value();
        assert_eq!(
            (read.biases[0].too_large_by, read.doubts[0].sd),
            (0.58, 0.62)
        );
        let waist = proposed_rows(&row(ObservationKind::Waist, Subject::Shape)).unwrap();
        assert!(
            waist
                .bias
                .contains("[\"defect.long_axis\", \"defect.short_axis\"]")
        );
        assert_eq!(waist.doubt, None);
        let mut sure = rim.clone();
        sure.proposed = rim.proposed.map(|it| BiasProposal { sd: 0.2, ..it });
        let rows = proposed_rows(&sure).unwrap();
        assert_eq!(rows.doubt, None, "a reading is called surer");
        let mut none = rim;
        none.proposed = None;
        assert_eq!(proposed_rows(&none), None);
    }
}
