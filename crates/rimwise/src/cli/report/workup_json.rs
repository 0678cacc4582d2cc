//! The work-up as JSON, stable from its first version.

use super::harmless;
use super::json::{FORMAT, rounded};
use anyhow::Result;
use paper::Provenance;
use serde::Serialize;
use sizing::Setting;
use std::io::Write;
use workup::{Line, Section, Workup};

#[derive(Serialize)]
struct WorkupJson<'a> {
    format: u32,
    program: String,
    case: &'a str,
    inputs_sha256: &'a str,
    seed: u64,
    draws: usize,
    caution: &'static str,
    exceptions: &'a [String],
    indication: Indicated<'a>,
    sections: Vec<Part<'a>>,
}

#[derive(Serialize)]
struct Indicated<'a> {
    state: &'static str,
    says: &'a str,
    reasons: &'a [String],
}

#[derive(Serialize)]
struct Part<'a> {
    section: &'static str,
    title: &'static str,
    says: &'a str,
    lines: Vec<LineJson<'a>>,
}

#[derive(Serialize)]
struct LineJson<'a> {
    id: &'a str,
    label: &'a str,
    state: &'static str,
    value: Option<f64>,
    unit: Option<&'static str>,
    interval: Option<[f64; 2]>,
    chance: Option<f64>,
    note: &'a str,
    source: &'a str,
}

/// Writes a page as JSON.
pub(crate) fn write(
    out: &mut dyn Write,
    page: &Workup,
    setting: &Setting,
    from: &Provenance,
) -> Result<()> {
    let page = WorkupJson {
        format: FORMAT,
        program: format!("rimwise {}", env!("CARGO_PKG_VERSION")),
        case: &page.title,
        inputs_sha256: &from.inputs_sha256,
        seed: from.seed,
        draws: from.draws,
        caution: paper::CAUTION,
        exceptions: setting.exceptions(),
        indication: Indicated {
            state: page.banner.indication.word(),
            says: &page.banner.says,
            reasons: &page.banner.reasons,
        },
        sections: page.sections.iter().map(part).collect(),
    };
    harmless::pretty(out, &page)
}

fn part(section: &Section) -> Part<'_> {
    Part {
        section: section.id,
        title: section.title,
        says: &section.says,
        lines: section.lines.iter().map(row).collect(),
    }
}

fn row(line: &Line) -> LineJson<'_> {
    LineJson {
        id: &line.id,
        label: &line.label,
        state: line.state.word(),
        value: line.amount.map(|amount| rounded(amount.value)),
        unit: line.amount.map(|amount| amount.unit.symbol()),
        interval: line.interval.map(|it| [rounded(it.low), rounded(it.high)]),
        chance: line.chance.map(rounded),
        note: &line.note,
        source: &line.source,
    }
}
