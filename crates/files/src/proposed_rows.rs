use crate::ron_text::{Field, Style, number, quoted, record};
use crate::words::Word;
use measurement::{Modality, Quantity};
use sizing::HouseRules;
use sizing::house_rules::{BiasRow, DoubtRow};
use sizing::look_back::ReadingRow;
use sizing::trial::ObservationKind;

/// Rows of your centre's rules that a look-back proposes for one way of reading. Nothing
/// puts them in but a person.
#[derive(Clone, Debug, PartialEq)]
pub struct ProposedRows {
    /// A row of `biases`; those that are there already stay and add up.
    pub bias: BiasRow,
    /// A row of `doubts`, to be put before the others; `None` of the defect, of which two
    /// axes are read and their perimeter is compared, and where what was seen explains the
    /// whole spread: no reading is called surer by that.
    pub doubt: Option<DoubtRow>,
}

/// How the source of a row begins that a look-back proposed.
const SOURCE: &str = "your centre's look-back";

/// The rows that a look-back proposes; `None` where it proposes nothing.
pub fn proposed_rows(row: &ReadingRow) -> Option<ProposedRows> {
    let proposed = row.proposed?;
    let (of, by) = (row.of.quantities(), row.of.by?);
    let source = format!("{SOURCE}, n {}", row.pairs);
    let hundredth = |value: f64| (100.0 * value).round() / 100.0;
    let is_of_two = row.of.what == ObservationKind::Waist;
    let doubt = || DoubtRow {
        of: of.clone(),
        unit: row.of.unit(),
        modalities: vec![by],
        sd: hundredth(proposed.sd),
        share: 0.0,
        source: source.clone(),
    };
    Some(ProposedRows {
        doubt: (!is_of_two && proposed.proposes_sd()).then(doubt),
        bias: BiasRow {
            of,
            modalities: vec![by],
            methods: Vec::new(),
            too_large_by: hundredth(proposed.too_large_by),
            source,
        },
    })
}

impl ProposedRows {
    /// The row of `biases` as a file has it.
    pub fn bias_text(&self) -> String {
        let BiasRow {
            of,
            modalities,
            too_large_by,
            source,
            ..
        } = &self.bias;
        let fields = [
            of_quantities(of),
            by_modalities(modalities),
            ("too_large_by", Some(number(*too_large_by))),
            ("source", Some(quoted(source))),
        ];
        record(&fields, &Style::ROW)
    }

    /// The row of `doubts` as a file has it.
    pub fn doubt_text(&self) -> Option<String> {
        let doubt = self.doubt.as_ref()?;
        let fields = [
            of_quantities(&doubt.of),
            ("unit", Some(quoted(doubt.unit.word()))),
            by_modalities(&doubt.modalities),
            ("sd", Some(number(doubt.sd))),
            ("source", Some(quoted(&doubt.source))),
        ];
        Some(record(&fields, &Style::ROW))
    }

    /// The row of an earlier look-back over the same readings that rules have already.
    /// Cases opened before it was put in would count a second time.
    pub fn earlier<'a>(&self, rules: &'a HouseRules) -> Option<&'a BiasRow> {
        rules.biases.iter().find(|row| {
            row.source.starts_with(SOURCE)
                && (&row.of, &row.modalities) == (&self.bias.of, &self.bias.modalities)
        })
    }
}

fn of_quantities(quantities: &[Quantity]) -> Field {
    let all: Vec<String> = quantities.iter().map(|of| quoted(of.address())).collect();
    ("of", Some(format!("[{}]", all.join(", "))))
}

fn by_modalities(modalities: &[Modality]) -> Field {
    let all: Vec<&str> = modalities.iter().map(|by| by.word()).collect();
    ("by", Some(format!("[{}]", all.join(", "))))
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
            rows.bias_text(),
            "(of: [\"aortic.rim\"], by: [transoesophageal_echo], too_large_by: 0.58, source: \
             \"your centre's look-back, n 40\")"
        );
        let doubt = rows.doubt_text().unwrap();
        let text = rules.replacen("biases: []", &format!("biases: [{}]", rows.bias_text()), 1);
        let text = text.replacen("doubts: [", &format!("doubts: [\n{doubt},"), 1);
        let read = parse_house_rules(name, &text).unwrap().into_value();
        assert_eq!(
            (read.biases[0].too_large_by, read.doubts[0].sd),
            (0.58, 0.62)
        );
        let waist = proposed_rows(&row(ObservationKind::Waist, Subject::Shape)).unwrap();
        assert!(
            waist
                .bias_text()
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
