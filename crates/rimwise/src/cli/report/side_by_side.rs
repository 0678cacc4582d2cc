//! Two to four sizes side by side, 80 columns wide.

use super::head_and_foot::footing;
use super::table::heading;
use crate::cli::args::WIDTH;
use crate::text::{fitted as cell, paragraph};
use crate::told;
use anyhow::Result;
use files::visible;
use paper::Provenance;
use sizing::{Candidate, Outcome, Ranking, State, Subject, device_name};
use std::io::Write;

/// Columns of the names of the checks, and where four sizes leave less.
const NAMES: [usize; 2] = [29, 24];

/// Writes the sizes side by side: their forms, their checks, their sentences.
pub(crate) fn write(
    out: &mut dyn Write,
    ranking: &Ranking,
    chosen: &[&Candidate],
    from: &Provenance,
) -> Result<()> {
    heading(out, ranking)?;
    let names = NAMES[usize::from(chosen.len() > 3)];
    let columns = (WIDTH - names) / chosen.len().max(1);
    let mut line = |name: &str, cells: Vec<String>| -> Result<()> {
        let differs = cells.windows(2).any(|pair| pair[0] != pair[1]);
        let mark = if differs { "≠ " } else { "  " };
        let cells: String = cells
            .iter()
            .map(|text| cell(text, columns - 1) + " ")
            .collect();
        writeln!(
            out,
            "{}",
            format!("{mark}{} {cells}", cell(name, names - 3)).trim_end()
        )?;
        Ok(())
    };
    let each = |of: &dyn Fn(&Candidate) -> String| chosen.iter().map(|one| of(one)).collect();
    line("", each(&|one| visible(&shape(one)).into()))?;
    // A label of its own, or what stands behind the numbers of one.
    if chosen.iter().any(|one| !is_numbers(&one.size.label)) {
        line("size", each(&|one| visible(&one.size.label).into()))?;
    }
    line(
        "waist × length",
        each(&|one| {
            let waist = &one.size.occluder.waist;
            format!("{} × {} mm", waist.diameter, waist.length)
        }),
    )?;
    if chosen.iter().any(|one| one.size.occluder.is_offset()) {
        line("short side toward", each(&|one| short_side(one)))?;
    }
    line("left disc", each(&|one| disc(one, geometry::Face::Left)))?;
    line("right disc", each(&|one| disc(one, geometry::Face::Right)))?;
    if chosen.iter().any(|one| !one.is_on_shelf) {
        let says = |one: &Candidate| if one.is_on_shelf { "yes" } else { "– no" };
        line("in stock today", each(&|one| says(one).into()))?;
    }
    line("verdict", each(&|one| one.judged.verdict.word().into()))?;
    line("inside limits", each(&|one| told::chance(one)))?;
    for (check, of, name) in check_names(chosen, names - 3) {
        line(
            &name,
            each(&|one| {
                one.outcomes
                    .iter()
                    .find(|outcome| outcome.check == check && outcome.of == of)
                    .map_or_else(|| "–".into(), figure)
            }),
        )?;
    }
    writeln!(
        out,
        "\n≠ differs   ✓ ok   ! warning   ✗ beyond the limit   ? not assessed\n"
    )?;
    for candidate in chosen {
        writeln!(out, "{}", visible(&device_name(&candidate.name())))?;
        let outcomes = told::in_order_of_harm(candidate).into_iter();
        for outcome in outcomes.filter(|outcome| outcome.state != State::Ok) {
            let first = format!("  {} ", told::state_glyph(outcome.state));
            write!(out, "{}", paragraph(&first, &visible(&outcome.says), WIDTH))?;
            if let Some(aside) = outcome.aside {
                write!(out, "{}", paragraph("    ", &format!("({aside})"), WIDTH))?;
            }
        }
    }
    writeln!(out)?;
    footing(out, from)
}

/// Every check any of the sizes has, in the order in which they are shown, with its
/// name in so many columns.
fn check_names(chosen: &[&Candidate], columns: usize) -> Vec<(&'static str, Subject, String)> {
    let mut names: Vec<(&'static str, Subject, String)> = Vec::new();
    for outcome in chosen.iter().flat_map(|one| &one.outcomes) {
        if !names
            .iter()
            .any(|(check, of, _)| *check == outcome.check && *of == outcome.of)
        {
            names.push((outcome.check, outcome.of, told::check_in(outcome, columns)));
        }
    }
    names
}

fn figure(outcome: &Outcome) -> String {
    let value = told::value_with_name(outcome).unwrap_or_else(|| "not measured".to_owned());
    format!("{} {value}", told::state_glyph(outcome.state))
}

/// Whether a label says waist and length and nothing else.
fn is_numbers(label: &str) -> bool {
    let is_number = |text: &str| text.parse::<f64>().is_ok();
    label
        .split_once('x')
        .is_some_and(|(waist, length)| is_number(waist) && is_number(length))
}

/// What its shape is called.
fn shape(candidate: &Candidate) -> String {
    device_name(&format!("{}/", candidate.shape))
}

/// Where the short side of an offset disc points, on the clock seen from the left.
fn short_side(candidate: &Candidate) -> String {
    let says = told::short_side(candidate).unwrap_or_default();
    let hour = says.strip_prefix("short side toward ");
    hour.unwrap_or("–").to_owned()
}

fn disc(candidate: &Candidate, face: geometry::Face) -> String {
    candidate
        .size
        .occluder
        .disc(face)
        .map_or_else(|| "none".into(), |disc| format!("{} mm", 2.0 * disc.radius))
}
