//! Pages of the work-up to check.

use crate::sample::{case, shipped_rules};
use files::workup_input;
use measurement::{
    Answer, Finding, Method, Modality, Phase, Quantity, Reading, ReadingId, Side, Site,
};
use sizing::{Case, Facts, Setting};
use std::sync::Arc;
use workup::{Figure, Limits, Line, State, Workup};

/// A reading without doubt to speak of.
///
/// # Panics
///
/// Where no quantity has the address.
pub fn exact(address: &str, value: f64) -> Reading {
    Reading {
        id: ReadingId(address.to_owned()),
        quantity: Quantity::from_address(address).expect("an address"),
        value,
        sd: Some(1e-9),
        modality: Modality::Catheter,
        side: Side::NoSide,
        phase: Phase::AnyPhase,
        method: Method::Direct,
        image: None,
        set_aside: None,
    }
}

/// A case of readings without doubt and of findings; nothing else is known of it.
pub fn of(site: Site, readings: &[(&str, f64)], findings: &[(Finding, Answer)]) -> Case {
    let readings = readings.iter().map(|&(at, value)| exact(at, value));
    let mut case = case(site, readings.collect());
    case.findings = findings.iter().copied().collect();
    case.facts = Facts::default();
    case
}

/// A case under the shipped rules and limits.
pub fn set(case: Case) -> Setting {
    let (case, rules) = (Arc::new(case), Arc::new(shipped_rules()));
    files::setting(case, rules, Some(&crate::sample::shipped_limits()))
}

/// The page of a case.
///
/// # Panics
///
/// Where there can be no such number of draws.
pub fn page(case: Case, limits: &Limits, draws: usize) -> Workup {
    let setting = Setting::new(Arc::new(case), Arc::new(shipped_rules()));
    Workup::new(&workup_input(&setting), limits, draws, 1).expect("a number of draws")
}

/// A line of a section of a page, by its id.
///
/// # Panics
///
/// Where there is no such section.
pub fn line<'a>(page: &'a Workup, section: &str, id: &str) -> Option<&'a Line> {
    let lines = &page.section(section).expect("a section").lines;
    lines.iter().find(|line| line.id == id)
}

/// The value of a figure on a page.
pub fn value(page: &Workup, figure: Figure) -> Option<f64> {
    line(page, "derived", figure.info().id)?
        .amount
        .map(|amount| amount.value)
}

/// Where a case stands against a published limit.
pub fn state(page: &Workup, row: &str) -> Option<State> {
    line(page, "published", row).map(|line| line.state)
}
