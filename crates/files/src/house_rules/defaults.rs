use super::source;
use crate::document::Place;
use crate::faults::{Faults, Seen};
use serde::Deserialize;
use sizing::house_rules::DefaultRow;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DefaultForm {
    of: String,
    value: f64,
    unit: String,
    sd: f64,
    source: String,
}

pub(super) fn rows(forms: Vec<DefaultForm>, at: &Place, faults: &mut Faults) -> Vec<DefaultRow> {
    let mut seen = Seen::new();
    let each = forms.into_iter().enumerate();
    each.filter_map(|(index, form)| {
        let at = at.item(index);
        faults.once(&mut seen, &form.of, &at.field("of"));
        row(form, &at, faults)
    })
    .collect()
}

fn row(form: DefaultForm, at: &Place, faults: &mut Faults) -> Option<DefaultRow> {
    let source = source(form.source, at, faults);
    let of = faults.quantity(&at.field("of"), &form.of)?;
    let info = of.info();
    let unit = info.unit.symbol();
    faults.unit_of(&at.field("unit"), &form.unit, of);
    Some(DefaultRow {
        of,
        value: faults.number(&at.field("value"), form.value, info.least..=info.most, unit),
        sd: faults.above_zero(&at.field("sd"), form.sd, info.most - info.least, unit),
        source,
    })
}
