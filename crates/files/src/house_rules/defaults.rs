use crate::faults::{Faults, LineOfName};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::source;
use crate::words::Word;
use serde::Deserialize;
use sizing::house_rules::DefaultRow;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DefaultForm {
    of: String,
    #[serde(default)]
    sites: Vec<BareWord>,
    value: f64,
    unit: String,
    sd: f64,
    source: String,
}

pub(super) fn rows(
    forms: Vec<DefaultForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<DefaultRow> {
    let mut seen = LineOfName::new();
    let each = forms.into_iter().enumerate();
    each.filter_map(|(index, form)| {
        let at = at.item(index);
        let row = row(form, &at, faults)?;
        let at = at.field("of");
        let of = row.of.address();
        if row.sites.is_empty() {
            faults.once(&mut seen, of, &at);
        }
        for site in &row.sites {
            faults.once(&mut seen, &format!("{of} at {}", site.word()), &at);
        }
        Some(row)
    })
    .collect()
}

fn row(form: DefaultForm, at: &FieldPlace, faults: &mut Faults) -> Option<DefaultRow> {
    let source = source(form.source, at, faults);
    let of = faults.quantity(&at.field("of"), &form.of)?;
    let info = of.info();
    let unit = info.unit.symbol();
    faults.unit_of(&at.field("unit"), &form.unit, of);
    Some(DefaultRow {
        of,
        sites: faults.words(&at.field("sites"), &form.sites),
        value: faults.number(&at.field("value"), form.value, info.least..=info.most, unit),
        sd: faults.above_zero(&at.field("sd"), form.sd, info.most - info.least, unit),
        source,
    })
}
