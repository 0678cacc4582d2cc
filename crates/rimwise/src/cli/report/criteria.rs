//! Release criteria for people and for programs.

use super::harmless;
use super::head_and_foot::opening;
use super::json::FORMAT;
use crate::cli::args::WIDTH;
use crate::text::paragraph;
use anyhow::Result;
use files::visible;
use serde::Serialize;
use serde_json::Value;
use sizing::Case;
use sizing::trial::{Bounds, Criterion, CriterionState, Procedure, Seen};
use std::io::Write;

/// Criteria of some sizes, as they stand in a case or would be written into it.
pub(crate) struct CriteriaOfSizes<'a> {
    pub(crate) sizes: &'a [String],
    /// The case with all rows written.
    pub(crate) case: &'a Case,
    /// The procedure as the file has it.
    pub(crate) had: &'a Procedure,
    pub(crate) planned_on_now: &'a str,
    /// Whether the file says it now.
    pub(crate) is_saved: bool,
    pub(crate) inputs_sha256: &'a str,
}

/// What stands at the head of rows it is true of.
const COMMON: &str = "common practice, no source";

impl CriteriaOfSizes<'_> {
    /// Whether readings, answers, exceptions, rules, catalogue or guidance changed since
    /// the criteria were written.
    fn has_changed(&self) -> bool {
        let planned = self.had.planned_on.as_deref();
        planned.is_some_and(|planned| planned != self.planned_on_now)
    }

    fn of<'b>(&'b self, size: &'b str) -> impl Iterator<Item = &'b Criterion> {
        self.case.procedure.criteria_of(size)
    }

    fn is_in_file(&self, criterion: &Criterion) -> bool {
        self.is_saved || self.had.criteria.contains(criterion)
    }

    /// How each trial of its size stands against a criterion.
    fn states<'b>(
        &'b self,
        criterion: &'b Criterion,
    ) -> impl Iterator<Item = (&'b str, CriterionState)> {
        let procedure = &self.case.procedure;
        let trials = procedure.trials.iter();
        trials
            .filter(|trial| trial.size == criterion.size)
            .map(|trial| (trial.id.as_str(), criterion.state(procedure, trial)))
    }
}

/// Writes criteria for people.
pub(crate) fn text(out: &mut dyn Write, written: &CriteriaOfSizes) -> Result<()> {
    opening(out, written.case)?;
    let says = |out: &mut dyn Write, says: &str| write!(out, "{}", paragraph("! ", says, WIDTH));
    if written.has_changed() {
        says(
            out,
            "The readings, the rules or the catalogue changed since these criteria were written.",
        )?;
    }
    says(
        out,
        "A new pericardial effusion is an emergency outside these criteria.",
    )?;
    let common = format!("Where no source is named: {COMMON}.");
    writeln!(out, "{common}")?;
    for size in written.sizes {
        let head = format!("Release criteria of {}", visible(size));
        let all_in_file = written.of(size).all(|one| written.is_in_file(one));
        let stands = if all_in_file {
            "written in the case"
        } else {
            "as your centre's rules have them; --write puts them into the case"
        };
        write!(
            out,
            "\n{}",
            paragraph("", &format!("{head}: {stands}"), WIDTH)
        )?;
        for criterion in written.of(size) {
            row(out, written, criterion)?;
        }
    }
    Ok(())
}

fn row(out: &mut dyn Write, written: &CriteriaOfSizes, criterion: &Criterion) -> Result<()> {
    let bounds = criterion.bounds.says(criterion.row);
    let head = format!("{}: {bounds}", criterion.name());
    write!(out, "{}", paragraph("  - ", &head, WIDTH))?;
    let mut say = |says: &str| write!(out, "{}", paragraph("    ", &visible(says), WIDTH));
    if !criterion.who.is_empty() {
        say(&format!("{}: {}", criterion.who, criterion.view))?;
    }
    let source = criterion.source.strip_prefix(COMMON);
    let source = source.map_or(criterion.source.as_str(), |rest| {
        rest.trim_start_matches("; ")
    });
    if !source.is_empty() {
        say(&format!("Source: {source}"))?;
    }
    if criterion.after_opening {
        say("Written after opening.")?;
    }
    for change in &criterion.changes {
        let was = change.old.says(criterion.row);
        say(&format!(
            "Changed at {} min from \"{was}\": {}",
            change.min, change.reason
        ))?;
    }
    for (trial, state) in written.states(criterion) {
        say(&format!("Trial {trial}: {}", state.word()))?;
    }
    Ok(())
}

#[derive(Serialize)]
struct CriteriaJson<'a> {
    format: u32,
    program: String,
    case: &'a str,
    inputs_sha256: &'a str,
    planned_on: Option<&'a str>,
    planned_on_now: &'a str,
    changed_since: bool,
    criteria: Vec<CriterionRow<'a>>,
}

#[derive(Serialize)]
struct CriterionRow<'a> {
    size: &'a str,
    row: &'static str,
    of: &'a str,
    who: &'a str,
    view: &'a str,
    inside: Value,
    beyond: Value,
    unit: Option<&'static str>,
    source: &'a str,
    written: bool,
    after_opening: bool,
    changes: Vec<Change<'a>>,
    states: Vec<State<'a>>,
}

#[derive(Serialize)]
struct Change<'a> {
    min: f64,
    old: [Value; 2],
    new: [Value; 2],
    reason: &'a str,
}

#[derive(Serialize)]
struct State<'a> {
    trial: &'a str,
    state: &'static str,
}

/// Writes criteria for programs.
pub(crate) fn json(out: &mut dyn Write, written: &CriteriaOfSizes) -> Result<()> {
    let rows = written.sizes.iter().flat_map(|size| written.of(size));
    let page = CriteriaJson {
        format: FORMAT,
        program: format!("rimwise {}", env!("CARGO_PKG_VERSION")),
        case: &written.case.title,
        inputs_sha256: written.inputs_sha256,
        planned_on: written.had.planned_on.as_deref(),
        planned_on_now: written.planned_on_now,
        changed_since: written.has_changed(),
        criteria: rows.map(|one| json_row(written, one)).collect(),
    };
    harmless::pretty(out, &page)
}

fn json_row<'a>(written: &'a CriteriaOfSizes, criterion: &'a Criterion) -> CriterionRow<'a> {
    let [inside, beyond] = bounds(criterion.bounds);
    CriterionRow {
        size: &criterion.size,
        row: criterion.row.name(),
        of: criterion.of.label(),
        who: &criterion.who,
        view: &criterion.view,
        inside,
        beyond,
        unit: criterion.row.unit().map(measurement::Unit::symbol),
        source: &criterion.source,
        written: written.is_in_file(criterion),
        after_opening: criterion.after_opening,
        changes: criterion
            .changes
            .iter()
            .map(|change| Change {
                min: change.min,
                old: bounds(change.old),
                new: bounds(change.new),
                reason: &change.reason,
            })
            .collect(),
        states: written
            .states(criterion)
            .map(|(trial, state)| State {
                trial,
                state: state.word(),
            })
            .collect(),
    }
}

fn bounds(bounds: Bounds) -> [Value; 2] {
    [bounds.inside, bounds.beyond].map(|bound| bound.map_or(Value::Null, seen))
}

/// What was seen, as a number or in the word of files.
pub(crate) fn seen(seen: Seen) -> Value {
    match seen {
        Seen::Value(value) => value.into(),
        Seen::Grade(grade) => grade.name().into(),
        Seen::Rhythm(rhythm) => rhythm.name().into(),
        Seen::Answer(measurement::Answer::Unknown) => "cannot_tell".into(),
        Seen::Answer(answer) => answer.to_string().into(),
    }
}
