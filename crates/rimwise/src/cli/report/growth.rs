//! A device in a child that has grown, for people and for programs.

use super::harmless;
use super::head_and_foot::opening;
use super::json::{FORMAT, rounded};
use super::of_cohorts::of_cohorts;
use crate::cli::args::WIDTH;
use crate::cli::inputs::Ready;
use crate::text::{fitted, paragraph};
use crate::told;
use anyhow::Result;
use files::visible;
use serde::Serialize;
use sizing::growth::{GrownCheck, Growth};
use sizing::{Candidate, Outcome, State};
use std::io::Write;

/// What a page of growth is made of.
pub(crate) struct GrowthReport<'a> {
    pub(crate) ready: &'a Ready,
    pub(crate) candidate: &'a Candidate,
    /// Why this size is shown.
    pub(crate) why: &'static str,
    pub(crate) growth: &'a Growth,
}

/// Writes it for people.
pub(crate) fn text(out: &mut dyn Write, page: &GrowthReport) -> Result<()> {
    let growth = page.growth;
    opening(out, page.ready.setting.case())?;
    let head = format!(
        "{}, {}",
        sizing::device_name(&page.candidate.name()),
        page.why
    );
    write!(out, "{}", paragraph("", &visible(&head), WIDTH))?;
    write!(out, "{}", paragraph("", &growth.says(), WIDTH))?;
    writeln!(out)?;
    if growth.rows.is_empty() {
        writeln!(out, "Nothing that growth moves was measured.")?;
    } else {
        let heads = ["", "today", "grown", "grown, rim too"];
        writeln!(out, "{}", columns(&heads.map(str::to_owned)))?;
    }
    for row in &growth.rows {
        let title = title(&row.now);
        let cells = [title, cell(&row.now), cell(&row.rims_of_today)];
        let [title, now, then] = cells;
        writeln!(
            out,
            "{}",
            columns(&[title, now, then, cell(&row.rims_grown)])
        )?;
    }
    writeln!(out)?;
    of_cohorts(out, &page.ready.setting)?;
    // No chance is shown, so nothing is said of one.
    writeln!(out, "{}", page.ready.provenance.in_a_line())?;
    Ok(())
}

fn title(outcome: &Outcome) -> String {
    told::check_in(outcome, TITLE)
}

/// A value with what it breaks.
fn cell(outcome: &Outcome) -> String {
    let Some(amount) = told::value_with_name(outcome) else {
        return "not measured".to_owned();
    };
    match outcome.state {
        State::Stop => format!("{amount} ! limit"),
        State::Caution => format!("{amount} ! warning"),
        State::Ok | State::NotAssessed => amount,
    }
}

/// Columns of the name of a check.
const TITLE: usize = 26;

fn columns(cells: &[String; 4]) -> String {
    const WIDTHS: [usize; 4] = [TITLE, 17, 17, 17];
    let line: Vec<String> = cells
        .iter()
        .zip(WIDTHS)
        .map(|(text, width)| fitted(text, width))
        .collect();
    line.join(" ").trim_end().to_owned()
}

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    program: String,
    case: &'a str,
    inputs_sha256: &'a str,
    size: String,
    rotation_deg: f64,
    today: BodyRow,
    then: BodyRow,
    factor: f64,
    checks: Vec<CheckRow>,
    late: Vec<LateRow<'a>>,
}

#[derive(Serialize)]
struct BodyRow {
    weight_kg: f64,
    height_cm: f64,
    surface_m2: f64,
}

#[derive(Serialize)]
struct CheckRow {
    check: &'static str,
    of: &'static str,
    unit: &'static str,
    today: ValueRow,
    grown: ValueRow,
    grown_with_rim: ValueRow,
}

#[derive(Serialize)]
struct ValueRow {
    value: Option<f64>,
    state: &'static str,
}

#[derive(Serialize)]
struct LateRow<'a> {
    says: &'a str,
    source: &'a str,
}

/// Writes it for programs.
pub(crate) fn json(out: &mut dyn Write, page: &GrowthReport) -> Result<()> {
    let growth = page.growth;
    let body = |body: sizing::growth::Body| BodyRow {
        weight_kg: body.weight,
        height_cm: body.height,
        surface_m2: rounded(body.surface().value()),
    };
    let late = page.ready.setting.late();
    let report = Report {
        format: FORMAT,
        program: format!("rimwise {}", env!("CARGO_PKG_VERSION")),
        case: &page.ready.setting.case().title,
        inputs_sha256: &page.ready.provenance.inputs_sha256,
        size: page.candidate.name(),
        rotation_deg: rounded(page.candidate.turn.to_degrees()),
        today: body(growth.now),
        then: body(growth.then),
        factor: rounded(growth.factor),
        checks: growth.rows.iter().map(check).collect(),
        late: late
            .iter()
            .map(|fact| LateRow {
                says: &fact.says,
                source: &fact.source,
            })
            .collect(),
    };
    harmless::pretty(out, &report)
}

fn check(row: &GrownCheck) -> CheckRow {
    let value = |outcome: &Outcome| ValueRow {
        value: outcome.value.map(rounded),
        state: outcome.state.word(),
    };
    CheckRow {
        check: row.now.check,
        of: row.now.of.name(),
        unit: row.now.unit.symbol(),
        today: value(&row.now),
        grown: value(&row.rims_of_today),
        grown_with_rim: value(&row.rims_grown),
    }
}
