use super::{Splice, SpliceError, faithful};
use crate::document::Step;
use crate::house_rules::{HouseRulesFile, parse_house_rules};
use crate::kind::RULES_CAP;
use crate::proposed_rows::ProposedRows;

impl HouseRulesFile {
    /// The file with the rows that a look-back proposes: the bias behind those that are
    /// there, the standard deviation before the others, of which the first that fits
    /// counts. Everything else stays as it is, byte for byte.
    pub fn with_proposed(&self, rows: &ProposedRows) -> Result<Self, SpliceError> {
        if self.source().is_in_other_words() {
            return Err(SpliceError::OldWords);
        }
        let mut wanted = self.value().clone();
        wanted.biases.push(rows.bias.clone());
        let mut splice = Splice::new(self.source().text());
        splice.push(&[Step::Field("biases")], &rows.bias_text());
        if let Some((doubt, text)) = rows.doubt.clone().zip(rows.doubt_text()) {
            wanted.doubts.insert(0, doubt);
            splice.insert_on_top(&[Step::Field("doubts")], &text);
        }
        let text = self.source().marked(splice.text);
        let read = parse_house_rules(self.source().name(), &text);
        faithful(read, &wanted, RULES_CAP)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shipped;
    use measurement::{Modality, Quantity, Unit};
    use sizing::house_rules::{BiasRow, DoubtRow};

    fn rows() -> ProposedRows {
        let of = vec![Quantity::AORTIC_RIM];
        let modalities = vec![Modality::TransoesophagealEcho];
        let source = "your centre's look-back, n 40".to_owned();
        ProposedRows {
            bias: BiasRow {
                of: of.clone(),
                modalities: modalities.clone(),
                methods: Vec::new(),
                too_large_by: 0.58,
                source: source.clone(),
            },
            doubt: Some(DoubtRow {
                of,
                unit: Unit::Mm,
                modalities,
                sd: 0.62,
                share: 0.0,
                source,
            }),
        }
    }

    /// What was there without what was put in, and what was put in.
    fn parts(was: &str, now: &str) -> (String, Vec<String>) {
        let mut left = was.split_inclusive('\n').peekable();
        let (mut kept, mut new) = (String::new(), Vec::new());
        for line in now.split_inclusive('\n') {
            if left.peek() == Some(&line) {
                kept.push_str(line);
                left.next();
            } else {
                new.push(line.to_owned());
            }
        }
        (kept + &left.collect::<String>(), new)
    }

    #[test]
    fn proposed_rows_are_all_that_changes_in_a_file_of_rules() {
        let (name, shipped) = shipped::HOUSE_RULES;
        let there = "biases: [\n        // By hand.\n        (of: [\"aortic.rim\"], \
                     too_large_by: 0.1, source: \"assumption\"), // 2024\n    ],";
        let with_one = shipped.replacen("biases: [],", there, 1);
        assert_ne!(with_one, shipped);
        let dos = with_one.replace('\n', "\r\n");
        for text in [&with_one, &dos, &format!("\u{feff}{with_one}")] {
            let file = parse_house_rules(name, text).unwrap();
            let now = file.with_proposed(&rows()).unwrap();
            assert_eq!(now.value().biases.last(), Some(&rows().bias));
            assert_eq!(now.value().doubts.first(), rows().doubt.as_ref());
            let (kept, new) = parts(text, &now.source().original());
            assert_eq!(kept, **text);
            let trimmed: Vec<&str> = new.iter().map(|line| line.trim()).collect();
            let doubt = format!("{},", rows().doubt_text().unwrap());
            let bias = format!("{},", rows().bias_text());
            assert_eq!(trimmed, [doubt, bias]);
            assert!(rows().earlier(file.value()).is_none());
            assert_eq!(rows().earlier(now.value()), Some(&rows().bias));
        }
    }

    /// A first row is put into an empty list, and above the comment on another's first.
    #[test]
    fn a_proposed_row_takes_no_comment_of_another() {
        let (name, text) = shipped::HOUSE_RULES;
        let file = parse_house_rules(name, text).unwrap();
        let now = file.with_proposed(&rows()).unwrap();
        let text = now.source().text();
        let after = |part: &str| text.split_once(part).unwrap().1.trim_start();
        assert!(after("    doubts: [").starts_with("(of: [\"aortic.rim\"], unit: \"mm\""));
        assert!(after("n 40\"),").starts_with("// One cut through a defect"));
        assert!(after("    biases: [").starts_with("(of: [\"aortic.rim\"], by"));
    }

    #[test]
    fn rules_in_the_words_of_format_1_are_left_as_they_are() {
        let text = include_str!("../../../../tests/tests/files/old/house_rules.ron");
        let file = parse_house_rules("rules.ron", text).unwrap();
        let refused = file.with_proposed(&rows());
        assert!(matches!(refused, Err(SpliceError::OldWords)));
    }
}
