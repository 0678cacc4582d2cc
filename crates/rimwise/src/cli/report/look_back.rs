//! A look-back for people, programs and spreadsheets.

use super::harmless;
use super::json::{FORMAT, rounded};
use crate::text::wrapped;
use anyhow::Result;
use files::proposed_rows;
use measurement::look_back::{Agreement, Bin};
use serde::Serialize;
use sizing::look_back::{AnswerRow, LookBack, ReadingRow, Score, ValueRow};
use std::io::Write;

/// Writes a look-back for people, 80 columns wide.
pub(crate) fn text(out: &mut dyn Write, found: &LookBack) -> Result<()> {
    writeln!(out, "LOOK-BACK: FORETOLD AND SEEN")?;
    for line in found.page() {
        writeln!(out, "{line}")?;
    }
    let mut proposals = found.proposals().filter_map(proposed_rows).peekable();
    if proposals.peek().is_some() {
        writeln!(
            out,
            "\nProposed for your centre's rules; a person decides and puts it in"
        )?;
    }
    for rows in proposals {
        writeln!(out, "  biases:\n    {}", rows.bias_text())?;
        if let Some(doubt) = rows.doubt_text() {
            writeln!(out, "  doubts, before the others:\n    {doubt}")?;
        }
    }
    writeln!(out)?;
    for line in wrapped(paper::CAUTION, WIDTH) {
        writeln!(out, "{line}")?;
    }
    Ok(())
}

/// Columns of a page for people.
const WIDTH: usize = 80;

#[derive(Serialize)]
struct Report {
    format: u32,
    program: String,
    cases: usize,
    deployments: usize,
    released: usize,
    foretold: usize,
    left_out: usize,
    all: Option<Answers>,
    answers: Vec<Answers>,
    values: Vec<Values>,
    readings: Vec<Readings>,
}

#[derive(Serialize)]
struct Answers {
    what: Option<&'static str>,
    of: &'static str,
    pairs: BinRow,
    judged: bool,
    brier: Option<f64>,
    brier_interval: Option<[f64; 2]>,
    z: Option<f64>,
    reliability: Vec<BinRow>,
}

#[derive(Serialize)]
struct BinRow {
    pairs: usize,
    foretold: f64,
    seen: usize,
    interval: [f64; 2],
}

#[derive(Serialize)]
struct Values {
    what: &'static str,
    of: &'static str,
    pairs: usize,
    twentieths: Option<Vec<usize>>,
}

#[derive(Serialize)]
struct Readings {
    what: &'static str,
    of: &'static str,
    by: Option<&'static str>,
    unit: &'static str,
    pairs: usize,
    bounds: usize,
    mean: Option<f64>,
    mean_interval: Option<[f64; 2]>,
    sd: Option<f64>,
    limits: Option<[f64; 2]>,
    limit_intervals: Option<[[f64; 2]; 2]>,
    proposed: Option<Proposal>,
}

#[derive(Serialize)]
struct Proposal {
    too_large_by: f64,
    sd: f64,
    bias_row: String,
    doubt_row: Option<String>,
}

/// Writes a look-back for programs.
pub(crate) fn json(out: &mut dyn Write, found: &LookBack) -> Result<()> {
    let report = Report {
        format: FORMAT,
        program: format!("rimwise {}", env!("CARGO_PKG_VERSION")),
        cases: found.cases,
        deployments: found.deployments,
        released: found.released,
        foretold: found.foretold,
        left_out: found.left_out,
        all: found.all.as_ref().map(Answers::of),
        answers: found.answers.iter().map(Answers::of).collect(),
        values: found.values.iter().map(Values::of).collect(),
        readings: found.readings.iter().map(Readings::of).collect(),
    };
    harmless::pretty(out, &report)
}

impl Answers {
    fn of(row: &AnswerRow) -> Self {
        let score = row.score.as_ref();
        Self {
            what: row.what.map(sizing::trial::ObservationKind::name),
            of: row.of.name(),
            pairs: BinRow::of(&row.pairs),
            judged: row.is_judged(),
            brier: score.map(|score| rounded(score.brier)),
            brier_interval: score.map(|score| score.brier_interval.map(rounded)),
            z: score.and_then(|score: &Score| score.z).map(rounded),
            reliability: row.reliability.iter().map(BinRow::of).collect(),
        }
    }
}

impl BinRow {
    fn of(bin: &Bin) -> Self {
        Self {
            pairs: bin.pairs,
            foretold: rounded(bin.foretold),
            seen: bin.seen,
            interval: bin.interval.map(rounded),
        }
    }
}

impl Values {
    fn of(row: &ValueRow) -> Self {
        Self {
            what: row.what.name(),
            of: row.of.name(),
            pairs: row.pairs,
            twentieths: row.twentieths.map(|all| all.to_vec()),
        }
    }
}

impl Readings {
    fn of(row: &ReadingRow) -> Self {
        let found = |of: fn(&Agreement) -> f64| row.agreement.as_ref().map(of).map(rounded);
        let pair = |of: fn(&Agreement) -> [f64; 2]| {
            row.agreement.as_ref().map(|found| of(found).map(rounded))
        };
        let rows = proposed_rows(row);
        let proposed = row.proposed.zip(rows).map(|(proposed, rows)| Proposal {
            too_large_by: rounded(proposed.too_large_by),
            sd: rounded(proposed.sd),
            bias_row: rows.bias_text(),
            doubt_row: rows.doubt_text(),
        });
        Self {
            what: row.of.what.name(),
            of: row.of.of.name(),
            by: row.of.by.map(measurement::Modality::label),
            unit: row.of.unit().symbol(),
            pairs: row.pairs,
            bounds: row.bounds,
            mean: found(|found| found.mean),
            mean_interval: pair(|found| found.mean_interval),
            sd: found(|found| found.sd),
            limits: pair(|found| found.limits),
            limit_intervals: row
                .agreement
                .as_ref()
                .map(|found| found.limit_intervals.map(|one| one.map(rounded))),
            proposed,
        }
    }
}

/// The head of the table: one line for each thing foretold as yes or no, and one for each
/// way of reading.
const HEADER: [&str; 14] = [
    "kind",
    "what",
    "of",
    "by",
    "n",
    "foretold",
    "seen",
    "brier",
    "z",
    "mean",
    "mean_low",
    "mean_high",
    "sd",
    "too_large_by_proposed",
];

/// Writes a look-back as a table.
pub(crate) fn csv(out: &mut dyn Write, found: &LookBack) -> Result<()> {
    let mut table = csv::Writer::from_writer(out);
    table.write_record(HEADER)?;
    let cell = |value: Option<f64>| value.map_or_else(String::new, |it| rounded(it).to_string());
    for row in &found.answers {
        let what = row.what.map_or("", sizing::trial::ObservationKind::name);
        let score = row.score.as_ref();
        let mut record = vec![
            "answer".to_owned(),
            what.to_owned(),
            row.of.name().to_owned(),
        ];
        record.extend([String::new(), row.pairs.pairs.to_string()]);
        record.extend([cell(Some(row.pairs.foretold)), row.pairs.seen.to_string()]);
        record.extend([
            cell(score.map(|it| it.brier)),
            cell(score.and_then(|it| it.z)),
        ]);
        record.resize(HEADER.len(), String::new());
        table.write_record(&record)?;
    }
    for row in &found.readings {
        let by = row.of.by.map_or("", measurement::Modality::label);
        let agreement = row.agreement.as_ref();
        let mut record = vec!["reading".to_owned(), row.of.what.name().to_owned()];
        record.extend([row.of.of.name().to_owned(), by.to_owned()]);
        record.push(row.pairs.to_string());
        record.resize(HEADER.len() - 5, String::new());
        record.push(cell(agreement.map(|it| it.mean)));
        record.push(cell(agreement.map(|it| it.mean_interval[0])));
        record.push(cell(agreement.map(|it| it.mean_interval[1])));
        record.push(cell(agreement.map(|it| it.sd)));
        record.push(cell(row.proposed.map(|it| it.too_large_by)));
        table.write_record(&record)?;
    }
    table.flush()?;
    Ok(())
}
