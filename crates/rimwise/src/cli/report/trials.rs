//! Trials for people, 80 columns wide.

use super::head_and_foot::{footing, opening};
use super::of_cohorts::of_cohorts;
use super::table::DEVICE;
use crate::cli::args::WIDTH;
use crate::cli::inputs::Ready;
use crate::text::{fitted, paragraph};
use anyhow::Result;
use files::visible;
use sizing::trial::{
    CriterionState, Due, REPEATED_CROSSINGS, SeenOutcome, Surprise, Trial, TrialOutcome, Weighing,
    WhatNext, follow_up_says, schedule,
};
use sizing::{Candidate, Ranking, Subject, device_name};
use std::fmt::Write as _;
use std::io::Write;

/// What a page of trials is made of.
pub(crate) struct TrialsReport<'a> {
    pub(crate) ready: &'a Ready,
    /// The list as the readings alone have it.
    pub(crate) before: &'a Ranking,
    /// The list if a size is opened again.
    pub(crate) ranking: &'a Ranking,
    pub(crate) next: Option<&'a WhatNext>,
    pub(crate) planned_on_now: &'a str,
}

/// What is said where a list takes trials in.
pub(crate) fn taken_in(weighing: &Weighing) -> String {
    if !weighing.any_counted {
        return "no observation weighs the simulated variations.".to_owned();
    }
    let mut says = format!(
        "the list takes in what was seen; of {} simulated variations {:.0} count in effect{}. \
         --before leaves it out.",
        weighing.drawn,
        weighing.effective,
        rounds(weighing)
    );
    for (trial, _, expected) in weighing.conflicts() {
        let _ = write!(says, " {trial}: {}.", expected.sentence());
    }
    says
}

fn rounds(weighing: &Weighing) -> String {
    match weighing.rounds {
        0 => String::new(),
        1 => ", after one targeted round".to_owned(),
        rounds => format!(", after {rounds} targeted rounds"),
    }
}

/// Writes the page.
pub(crate) fn write(out: &mut dyn Write, page: &TrialsReport, top: usize) -> Result<()> {
    let case = page.ready.setting.case();
    opening(out, case)?;
    let procedure = &case.procedure;
    let planned = procedure.planned_on.as_deref();
    if planned.is_some_and(|planned| planned != page.planned_on_now) {
        let says = "The readings, the rules or the catalogue changed since the criteria were \
                    written.";
        write!(out, "{}", paragraph("! ", says, WIDTH))?;
    }
    if procedure.trials.is_empty() {
        writeln!(out, "No trial yet.\n")?;
    }
    for (index, one) in procedure.trials.iter().enumerate() {
        trial(out, page, index, one)?;
    }
    follow_up(out, page)?;
    if let Some(weighing) = &page.ready.weighing {
        write!(
            out,
            "{}",
            paragraph("", &capitalised(&taken_in(weighing)), WIDTH)
        )?;
        writeln!(out)?;
    }
    list(out, page, top)?;
    next(out, page)?;
    footing(out, &page.ready.provenance)
}

fn trial(out: &mut dyn Write, page: &TrialsReport, index: usize, trial: &Trial) -> Result<()> {
    let first = format!("Deployment {}: ", index + 1);
    write!(out, "{}", paragraph(&first, &visible(&trial.says()), WIDTH))?;
    let outcome = page.ready.weighing.as_ref();
    let outcome = outcome.and_then(|weighing| weighing.trials.get(index));
    if let Some(share) = outcome.and_then(|outcome| outcome.as_it_lies) {
        let says = format!(
            "inside its limits as it lies in {:.0} of 100",
            100.0 * share
        );
        write!(out, "{}", paragraph("  ", &says, WIDTH))?;
    }
    for seen in &trial.seen {
        let mut says = format!(
            "{}: {}",
            name(seen.what.label(), seen.of),
            seen.seen.says(seen.what)
        );
        let counted = outcome.and_then(|outcome| of(outcome, &seen.id));
        if let Some(counted) = counted {
            says.push_str(&told_of(counted));
        }
        write!(out, "{}", paragraph("  - ", &visible(&says), WIDTH))?;
    }
    criteria(out, page, trial)?;
    writeln!(out)?;
    Ok(())
}

/// What was seen after the procedure, what of it is worse than at the release, and what
/// of your centre's schedule was not done.
fn follow_up(out: &mut dyn Write, page: &TrialsReport) -> Result<()> {
    let setting = &page.ready.as_measured;
    let procedure = &setting.case().procedure;
    let days = &procedure.follow_up;
    if days.is_empty() && procedure.released().is_none() {
        return Ok(());
    }
    writeln!(out, "Follow-up, days after the procedure")?;
    if days.is_empty() {
        writeln!(out, "  - nothing seen yet")?;
    }
    for day in days {
        let seen: Vec<String> = day
            .seen
            .iter()
            .map(|one| {
                let aside = if one.set_aside.is_some() {
                    " (set aside)"
                } else {
                    ""
                };
                format!(
                    "{}: {}{aside}",
                    name(one.what.label(), one.of),
                    one.seen.says(one.what)
                )
            })
            .collect();
        let says = format!("day {}: {}", day.day, seen.join("; "));
        write!(out, "{}", paragraph("  - ", &visible(&says), WIDTH))?;
    }
    for says in follow_up_says(setting) {
        write!(out, "{}", paragraph("  = ", &says, WIDTH))?;
    }
    let last = procedure.last_day().unwrap_or(0.0);
    let next = schedule(setting, last).pop();
    if let Some(visit) = next.filter(|visit| f64::from(visit.day) > last) {
        let due: Vec<String> = visit.not_done().map(Due::name).collect();
        if !due.is_empty() {
            let says = format!("Due next, day {}: {}", visit.day, due.join("; "));
            write!(out, "{}", paragraph("  = ", &says, WIDTH))?;
        }
    }
    writeln!(out)?;
    // Once there is a device of which it speaks.
    let setting = &page.ready.as_measured;
    if setting.case().procedure.released().is_some() {
        of_cohorts(out, setting)?;
    }
    Ok(())
}

fn of<'a>(outcome: &'a TrialOutcome, id: &str) -> Option<&'a SeenOutcome> {
    outcome.seen.iter().find(|seen| seen.id == id)
}

/// Why an observation does not count, or how surprising it is.
fn told_of(seen: &SeenOutcome) -> String {
    match &seen.counted {
        Err(why) => format!(" ({})", why.says()),
        Ok(expected) => match expected.surprise {
            None => String::new(),
            Some(Surprise::Conflict) => format!(". Conflict: it {}", expected.says),
            Some(_) => format!(". It {}", expected.says),
        },
    }
}

/// How the trial stands against the criteria of its size: what nobody looked at on top.
fn criteria(out: &mut dyn Write, page: &TrialsReport, trial: &Trial) -> Result<()> {
    let procedure = &page.ready.setting.case().procedure;
    let states = [
        CriterionState::NotLookedAt,
        CriterionState::Beyond,
        CriterionState::Between,
        CriterionState::Inside,
    ];
    for state in states {
        let rows = procedure.criteria_of(&trial.size);
        let of_state = rows.filter(|one| one.state(procedure, trial) == state);
        let names: Vec<String> = of_state.map(|one| name(one.row.label(), one.of)).collect();
        if !names.is_empty() {
            let says = format!("{}: {}", state.word(), names.join("; "));
            write!(out, "{}", paragraph("  = ", &says, WIDTH))?;
        }
    }
    Ok(())
}

fn name(label: &str, of: Subject) -> String {
    if of == Subject::Shape {
        label.to_owned()
    } else {
        format!("{label}, {}", of.label())
    }
}

/// A size before the trials, if opened again, and its verdict.
fn list(out: &mut dyn Write, page: &TrialsReport, top: usize) -> Result<()> {
    let all = page.ranking.candidates.len();
    let shown = if top == 0 { all } else { top.min(all) };
    writeln!(
        out,
        "{}",
        columns(&[DEVICE, "before", "if opened again", "verdict", ""])
    )?;
    let trials = &page.ready.setting.case().procedure.trials;
    for one in page.ranking.candidates.iter().take(shown) {
        let before = page.before.find(&one.name());
        let tried = trials.iter().rev().find(|trial| trial.size == one.name());
        let tried = tried.map_or("", |trial| trial.came_of_it.map_or("open", |it| it.name()));
        let cells = [
            visible(&device_name(&one.name())).into_owned(),
            before.map(chance).unwrap_or_default(),
            chance(one),
            one.judged.verdict.word().to_owned(),
            tried.to_owned(),
        ];
        writeln!(
            out,
            "{}",
            columns(&cells.each_ref().map(|cell| cell.trim()))
        )?;
    }
    if shown < all {
        writeln!(out, "… and {} more: --top 0", all - shown)?;
    }
    for one in page.ranking.candidates.iter().take(shown) {
        let better = page
            .next
            .and_then(|next| next.better_than(page.ranking, one));
        if let Some(better) = better {
            let says = format!(
                "{} holds wherever {} does",
                device_name(&better.name()),
                device_name(&one.name())
            );
            write!(out, "{}", paragraph("  ", &visible(&says), WIDTH))?;
        }
    }
    writeln!(out)?;
    if let Some(first) = page.ranking.candidates.first() {
        reasons(out, first)?;
    }
    Ok(())
}

/// A chance as whole per cent, the sampling error being for files alone.
fn chance(candidate: &Candidate) -> String {
    let Some(chances) = &candidate.chances else {
        return "–".to_owned();
    };
    let most = if candidate.is_chance_whole() {
        ""
    } else {
        "at most "
    };
    match 100.0 * chances.chance.value {
        share if share < 1.0 => format!("{most}< 1 %"),
        share if share > 99.0 => format!("{most}> 99 %"),
        share => format!("{most}{share:.0} %"),
    }
}

fn reasons(out: &mut dyn Write, candidate: &Candidate) -> Result<()> {
    let title = format!(
        "{} {}",
        device_name(&candidate.name()),
        candidate.judged.verdict.word()
    );
    writeln!(out, "{}", visible(&title))?;
    for because in &candidate.judged.because {
        write!(out, "{}", paragraph("  - ", &visible(because), WIDTH))?;
    }
    writeln!(out)?;
    Ok(())
}

fn columns(cells: &[&str; 5]) -> String {
    const WIDTHS: [usize; 5] = [24, 10, 16, 13, 12];
    let line: Vec<String> = cells
        .iter()
        .zip(WIDTHS)
        .map(|(text, width)| fitted(text, width))
        .collect();
    line.join(" ").trim_end().to_owned()
}

fn next(out: &mut dyn Write, page: &TrialsReport) -> Result<()> {
    let Some(next) = page.next else {
        return Ok(());
    };
    if let Some(says) = next.says(page.ranking) {
        write!(out, "{}", paragraph("", &visible(&says), WIDTH))?;
        write!(out, "{}", paragraph("", REPEATED_CROSSINGS, WIDTH))?;
        writeln!(out)?;
    }
    Ok(())
}

fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    let first: String = letters
        .next()
        .into_iter()
        .flat_map(char::to_uppercase)
        .collect();
    format!("{first}{}", letters.as_str())
}
