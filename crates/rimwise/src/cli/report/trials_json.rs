//! Trials for programs.

use super::criteria::seen as seen_value;
use super::foretold::ForecastJson;
use super::harmless;
use super::json::{FORMAT, Ranked, ranked, rounded};
use super::trials::TrialsReport;
use anyhow::Result;
use serde::Serialize;
use serde_json::Value;
use sizing::Candidate;
use sizing::trial::{
    Criterion, Due, FollowUp, Observation, Procedure, SeenOutcome, Surprise, Trial, schedule,
    worse_than_at_release,
};
use std::io::Write;

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    program: String,
    case: &'a str,
    inputs_sha256: &'a str,
    seed: u64,
    draws: usize,
    ess: Option<f64>,
    drawn: Option<usize>,
    targeted_rounds: Option<usize>,
    conflicts: Vec<String>,
    planned_on: Option<&'a str>,
    changed_since: bool,
    criteria: Vec<CriterionRow<'a>>,
    trials: Vec<TrialRow<'a>>,
    /// What was seen after the procedure, day after day.
    follow_up: Vec<FollowUpRow<'a>>,
    /// What of it is worse than at the release.
    worse_than_at_release: Vec<WorseRow<'a>>,
    /// The days of your centre's schedule, up to the next one.
    schedule: Vec<VisitRow>,
    /// What was published of later years: of cohorts, not of this child.
    of_cohorts: Vec<CohortRow<'a>>,
    /// Quantities whose middle moved by more than noise, with by how much.
    shifts: Vec<ShiftRow>,
    candidates: Vec<CandidateRow<'a>>,
    unions: Option<UnionsRow>,
    dominated: Vec<[String; 2]>,
}

#[derive(Serialize)]
struct CriterionRow<'a> {
    size: &'a str,
    row: &'static str,
    of: &'a str,
    trial: &'a str,
    state: &'static str,
}

#[derive(Serialize)]
struct TrialRow<'a> {
    id: &'a str,
    size: &'a str,
    rotation_deg: Option<f64>,
    opened_min: f64,
    closed_min: Option<f64>,
    came_of_it: Option<&'static str>,
    ess: Option<f64>,
    as_it_lies: Option<f64>,
    /// What was foretold of it, as the case keeps it.
    forecast: ForecastJson<'a>,
    seen: Vec<SeenRow<'a>>,
}

#[derive(Serialize)]
struct SeenRow<'a> {
    id: &'a str,
    what: &'static str,
    of: &'a str,
    seen: Value,
    counted: bool,
    not_counted: Option<String>,
    /// How likely it was by the readings and the trials before.
    expected: Option<f64>,
    surprise: Option<&'static str>,
    says: Option<String>,
}

#[derive(Serialize)]
struct FollowUpRow<'a> {
    /// Days after the procedure.
    day: f64,
    seen: Vec<LaterRow<'a>>,
}

#[derive(Serialize)]
struct LaterRow<'a> {
    id: &'a str,
    what: &'static str,
    of: &'a str,
    seen: Value,
    by: Option<&'static str>,
    /// Why it does not count.
    set_aside: Option<&'a str>,
}

#[derive(Serialize)]
struct WorseRow<'a> {
    day: f64,
    what: &'static str,
    of: &'a str,
    seen: Value,
    at_release: Value,
}

#[derive(Serialize)]
struct VisitRow {
    day: u32,
    /// Whether that day has passed by the last one on which something was seen.
    is_past: bool,
    done: Vec<DueRow>,
    not_done: Vec<DueRow>,
}

#[derive(Serialize)]
struct DueRow {
    what: &'static str,
    of: &'static str,
}

#[derive(Serialize)]
struct CohortRow<'a> {
    says: &'a str,
    source: &'a str,
}

#[derive(Serialize)]
struct ShiftRow {
    quantity: &'static str,
    by: f64,
    unit: &'static str,
}

#[derive(Serialize)]
struct CandidateRow<'a> {
    chance_before: Option<f64>,
    came_of_it: Option<&'static str>,
    #[serde(flatten)]
    ranked: Ranked<'a>,
}

#[derive(Serialize)]
struct UnionsRow {
    one: (String, f64),
    two: Option<([String; 2], f64)>,
    three: Option<([String; 3], f64)>,
    none: f64,
}

/// Writes the page.
pub(crate) fn write(out: &mut dyn Write, page: &TrialsReport) -> Result<()> {
    let case = page.ready.setting.case();
    let procedure = &case.procedure;
    let weighing = page.ready.weighing.as_ref();
    let from = &page.ready.provenance;
    let planned_on = procedure.planned_on.as_deref();
    let conflicts = weighing
        .into_iter()
        .flat_map(sizing::trial::Weighing::conflicts);
    let report = Report {
        format: FORMAT,
        program: format!("rimwise {}", env!("CARGO_PKG_VERSION")),
        case: &case.title,
        inputs_sha256: &from.inputs_sha256,
        seed: from.seed,
        draws: from.draws,
        ess: weighing.map(|weighing| rounded(weighing.effective)),
        drawn: weighing.map(|weighing| weighing.drawn),
        targeted_rounds: weighing.map(|weighing| weighing.rounds),
        conflicts: conflicts.map(|(_, _, one)| one.sentence()).collect(),
        planned_on,
        changed_since: planned_on.is_some_and(|planned| planned != page.planned_on_now),
        criteria: criteria(procedure),
        trials: procedure
            .trials
            .iter()
            .enumerate()
            .map(|(index, trial)| trial_row(page, index, trial))
            .collect(),
        follow_up: procedure.follow_up.iter().map(follow_up_row).collect(),
        worse_than_at_release: worse(procedure),
        schedule: visits(page),
        of_cohorts: of_cohorts(page),
        shifts: weighing
            .into_iter()
            .flat_map(|weighing| &weighing.shifts)
            .map(|(quantity, by)| ShiftRow {
                quantity: quantity.address(),
                by: rounded(*by),
                unit: quantity.unit().symbol(),
            })
            .chain(weighing.into_iter().flat_map(|weighing| {
                weighing.error_shifts.iter().map(|(error, by)| ShiftRow {
                    quantity: error.name(),
                    by: rounded(*by),
                    unit: "",
                })
            }))
            .collect(),
        candidates: candidates(page),
        unions: unions(page),
        dominated: dominated(page),
    };
    harmless::pretty(out, &report)
}

/// Each criterion of a size that was opened, against each of its trials.
fn criteria(procedure: &Procedure) -> Vec<CriterionRow<'_>> {
    let trials = procedure.trials.iter();
    let pairs = trials.flat_map(|trial| {
        let criteria = procedure.criteria_of(&trial.size);
        criteria.map(move |one| (one, trial))
    });
    pairs
        .map(|(one, trial): (&Criterion, &Trial)| CriterionRow {
            size: &one.size,
            row: one.row.name(),
            of: one.of.label(),
            trial: &trial.id,
            state: one.state(procedure, trial).word(),
        })
        .collect()
}

fn trial_row<'a>(page: &'a TrialsReport, index: usize, trial: &'a Trial) -> TrialRow<'a> {
    let weighing = page.ready.weighing.as_ref();
    let outcome = weighing.and_then(|weighing| weighing.trials.get(index));
    let counted = |id: &str| outcome?.seen.iter().find(|seen| seen.id == id);
    TrialRow {
        id: &trial.id,
        size: &trial.size,
        rotation_deg: outcome.map(|outcome| rounded(outcome.rotation_deg)),
        opened_min: trial.opened_min,
        closed_min: trial.closed_min,
        came_of_it: trial.came_of_it.map(sizing::trial::CameOfIt::name),
        ess: outcome.map(|outcome| rounded(outcome.effective)),
        as_it_lies: outcome.and_then(|outcome| outcome.as_it_lies).map(rounded),
        forecast: ForecastJson::of(&trial.forecast),
        seen: trial
            .seen
            .iter()
            .map(|seen| seen_row(seen, counted(&seen.id)))
            .collect(),
    }
}

fn seen_row<'a>(seen: &'a Observation, outcome: Option<&'a SeenOutcome>) -> SeenRow<'a> {
    let expected = outcome.and_then(|outcome| outcome.counted.as_ref().ok());
    let not_counted = outcome.and_then(|outcome| outcome.counted.as_ref().err());
    SeenRow {
        id: &seen.id,
        what: seen.what.name(),
        of: seen.of.label(),
        seen: seen_value(seen.seen),
        counted: expected.is_some(),
        not_counted: not_counted.map(sizing::trial::NotCounted::says),
        expected: expected.map(|expected| rounded(expected.chance)),
        surprise: expected
            .and_then(|expected| expected.surprise)
            .map(|one| match one {
                Surprise::Note => "note",
                Surprise::LookAgain => "look_again",
                Surprise::Conflict => "conflict",
            }),
        says: expected
            .map(sizing::trial::Expectation::sentence)
            .filter(|says| !says.is_empty()),
    }
}

fn follow_up_row(day: &FollowUp) -> FollowUpRow<'_> {
    let seen = day.seen.iter().map(|one| LaterRow {
        id: &one.id,
        what: one.what.name(),
        of: one.of.label(),
        seen: seen_value(one.seen),
        by: one.by.map(files::Word::word),
        set_aside: one.set_aside.as_deref(),
    });
    FollowUpRow {
        day: day.day,
        seen: seen.collect(),
    }
}

fn worse(procedure: &Procedure) -> Vec<WorseRow<'_>> {
    let worse = worse_than_at_release(procedure).into_iter();
    let each = worse.map(|one| WorseRow {
        day: one.day,
        what: one.seen.what.name(),
        of: one.seen.of.label(),
        seen: seen_value(one.seen.seen),
        at_release: seen_value(one.was),
    });
    each.collect()
}

fn visits(page: &TrialsReport) -> Vec<VisitRow> {
    let setting = &page.ready.as_measured;
    let last = setting.case().procedure.last_day().unwrap_or(0.0);
    let due = |due: &Due| DueRow {
        what: due.what.name(),
        of: due.of.label(),
    };
    let visits = schedule(setting, last).into_iter();
    let each = visits.map(|visit| VisitRow {
        day: visit.day,
        is_past: f64::from(visit.day) <= last,
        done: visit
            .due
            .iter()
            .filter(|due| due.is_seen)
            .map(due)
            .collect(),
        not_done: visit.not_done().map(due).collect(),
    });
    each.collect()
}

/// What was published, once there is a device of which it speaks.
fn of_cohorts<'a>(page: &'a TrialsReport) -> Vec<CohortRow<'a>> {
    let setting = &page.ready.as_measured;
    if setting.case().procedure.released().is_none() {
        return Vec::new();
    }
    let facts = setting.late().into_iter();
    let each = facts.map(|fact| CohortRow {
        says: &fact.says,
        source: &fact.source,
    });
    each.collect()
}

fn candidates<'a>(page: &'a TrialsReport) -> Vec<CandidateRow<'a>> {
    let trials = &page.ready.setting.case().procedure.trials;
    let each = page.ranking.candidates.iter().zip(&page.ranking.groups);
    each.enumerate()
        .map(|(index, (candidate, &group))| {
            let name = candidate.name();
            let before = page.before.find(&name);
            let tried = trials.iter().rev().find(|trial| trial.size == name);
            CandidateRow {
                chance_before: before.and_then(chance),
                came_of_it: tried
                    .and_then(|trial| trial.came_of_it)
                    .map(sizing::trial::CameOfIt::name),
                ranked: ranked(index + 1, group, candidate),
            }
        })
        .collect()
}

fn chance(candidate: &Candidate) -> Option<f64> {
    candidate
        .chances
        .as_ref()
        .map(|it| rounded(it.chance.value))
}

fn unions(page: &TrialsReport) -> Option<UnionsRow> {
    let next = page.next?;
    let unions = next.unions.as_ref()?;
    let name = |place: usize| page.ranking.candidates[next.untried[place]].name();
    Some(UnionsRow {
        one: (name(unions.one.0), rounded(unions.one.1)),
        two: unions
            .two
            .map(|(sizes, share)| (sizes.map(name), rounded(share))),
        three: unions
            .three
            .map(|(sizes, share)| (sizes.map(name), rounded(share))),
        none: rounded(unions.none),
    })
}

fn dominated(page: &TrialsReport) -> Vec<[String; 2]> {
    let name = |index: usize| page.ranking.candidates[index].name();
    let pairs = page.next.into_iter().flat_map(|next| &next.dominated);
    pairs.map(|&(one, by)| [name(one), name(by)]).collect()
}
