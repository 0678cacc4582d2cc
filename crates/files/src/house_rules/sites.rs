//! Rules of a site of defects: arcs, rim rules and notes.

use crate::faults::{Faults, LineOfName};
use crate::form::BareWord;
use crate::place::FieldPlace;
use crate::rows::{each_row, source};
use crate::words::Word;
use measurement::Site;
use serde::Deserialize;
use sizing::house_rules::{DangerArc, NoteRow, RimRule};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DangerArcForm {
    sites: Vec<BareWord>,
    from_deg: f64,
    to_deg: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RimRuleForm {
    sites: Vec<BareWord>,
    offset_discs: bool,
    least_rim_mm: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct NoteForm {
    #[serde(default)]
    sites: Vec<BareWord>,
    weight_under_kg: Option<f64>,
    qp_qs_under: Option<f64>,
    says: String,
    source: String,
}

/// Largest published rim, in millimetres.
const MOST_RIM: f64 = 60.0;
/// Largest Qp:Qs a note may name.
const MOST_QP_QS: f64 = 10.0;
/// Largest weight a note may name, in kilograms.
const MOST_WEIGHT: f64 = 250.0;

pub(super) fn danger_arcs(
    forms: Vec<DangerArcForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<DangerArc> {
    let mut seen = LineOfName::new();
    each_row(forms, at, |form, at| {
        let at_sites = at.field("sites");
        let sites: Vec<Site> = faults.words(&at_sites, &form.sites);
        if sites.is_empty() {
            faults.add(&at_sites, "at least one site", "");
        }
        for (index, site) in sites.iter().enumerate() {
            faults.once(&mut seen, site.word(), &at_sites.item(index));
        }
        let from_degrees =
            faults.number(&at.field("from_deg"), form.from_deg, 0.0..=360.0, "degrees");
        let to_degrees = faults.number(&at.field("to_deg"), form.to_deg, 0.0..=360.0, "degrees");
        if to_degrees <= from_degrees {
            let remedy = "An arc runs clockwise as seen from the left.";
            faults.add(
                &at.field("to_deg"),
                format!("more than from_deg, {from_degrees}"),
                remedy,
            );
        }
        DangerArc {
            sites,
            from_degrees,
            to_degrees,
            source: source(form.source, at, faults),
        }
    })
}

pub(super) fn rim_rules(
    forms: Vec<RimRuleForm>,
    at: &FieldPlace,
    faults: &mut Faults,
) -> Vec<RimRule> {
    each_row(forms, at, |form, at| RimRule {
        sites: faults.words(&at.field("sites"), &form.sites),
        offset_discs: form.offset_discs,
        least_rim: faults.number(
            &at.field("least_rim_mm"),
            form.least_rim_mm,
            0.0..=MOST_RIM,
            "mm",
        ),
        source: source(form.source, at, faults),
    })
}

pub(super) fn notes(forms: Vec<NoteForm>, at: &FieldPlace, faults: &mut Faults) -> Vec<NoteRow> {
    each_row(forms, at, |form, at| NoteRow {
        sites: faults.words(&at.field("sites"), &form.sites),
        weight_under: form
            .weight_under_kg
            .map(|kg| faults.above_zero(&at.field("weight_under_kg"), kg, MOST_WEIGHT, "kg")),
        qp_qs_under: form
            .qp_qs_under
            .map(|ratio| faults.above_zero(&at.field("qp_qs_under"), ratio, MOST_QP_QS, "ratio")),
        says: faults.text(&at.field("says"), form.says),
        source: source(form.source, at, faults),
    })
}
