//! Rows of lists in files of rules, files of guidance and cases.

use crate::faults::Faults;
use crate::place::FieldPlace;

/// Each row of a list with its place.
pub(crate) fn each_row<'a, Form, Row>(
    forms: Vec<Form>,
    at: &'a FieldPlace,
    mut row: impl FnMut(Form, &FieldPlace<'a>) -> Row,
) -> Vec<Row> {
    forms
        .into_iter()
        .enumerate()
        .map(|(index, form)| row(form, &at.item(index)))
        .collect()
}

/// Reads the source of a row, which every row must have.
pub(crate) fn source(source: String, at: &FieldPlace, faults: &mut Faults) -> String {
    let at = at.field("source");
    if source.trim().is_empty() {
        faults.add(
            &at,
            "a citation, \"common practice, no source\" or \"assumption\"",
            "",
        );
    }
    source
}
