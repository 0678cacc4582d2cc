//! The ranking as a table for people, 80 columns wide.

use super::head_and_foot::{exceptions, footing, opening};
use crate::cli::args::WIDTH;
use crate::text::{fitted as cell, paragraph};
use crate::told;
use anyhow::Result;
use files::visible;
use paper::Provenance;
use sizing::{Candidate, Ranking, Verdict, device_name};
use std::io::Write;
use workup::Banner;

/// What heads the names of a list.
pub(super) const DEVICE: &str = "waist × length, mm";

/// How many of the first sizes are given their reasons below the table.
const REASONED: usize = 3;

/// Writes the first `top` rows of a ranking, 0 for all, with all that is said
/// above them.
pub(crate) fn write(
    out: &mut dyn Write,
    ranking: &Ranking,
    banner: &Banner,
    otherwise: &[(&str, String)],
    from: &Provenance,
    top: usize,
) -> Result<()> {
    heading(out, ranking)?;
    super::head_and_foot::banner(out, banner)?;
    let all = ranking.candidates.len();
    let shown = if top == 0 { all } else { top.min(all) };
    let titles = [
        "rank",
        DEVICE,
        "verdict",
        "inside limits",
        "margin to limit",
    ];
    writeln!(out, "{}", columns(&titles.map(str::to_owned)))?;
    for (candidate, group) in ranking.candidates.iter().zip(&ranking.groups).take(shown) {
        // Those that nothing tells apart share a rank.
        let first = ranking.groups.iter().position(|one| one == group);
        writeln!(out, "{}", row(first.unwrap_or_default() + 1, candidate))?;
    }
    if shown < all {
        writeln!(out, "… and {} more: --top 0", all - shown)?;
    }
    writeln!(out)?;
    for candidate in ranking.candidates.iter().take(REASONED.min(shown)) {
        reasons(out, ranking, candidate)?;
    }
    for (title, says) in otherwise {
        write!(out, "{}", paragraph(title, &visible(says), WIDTH))?;
    }
    footing(out, from)
}

/// Title, caution and everything said above a list.
pub(super) fn heading(out: &mut dyn Write, ranking: &Ranking) -> Result<()> {
    opening(out, ranking.setting.case())?;
    write!(
        out,
        "{}",
        paragraph("", &visible(&ranking.headline()), WIDTH)
    )?;
    exceptions(out, &ranking.setting)?;
    for one in &ranking.contradictions {
        write!(out, "{}", paragraph("Contradiction: ", &one.says, WIDTH))?;
    }
    for (_, says) in ranking.disputes() {
        write!(out, "{}", paragraph("In dispute: ", &visible(&says), WIDTH))?;
    }
    for one in &ranking.unanswered {
        write!(
            out,
            "{}",
            paragraph("Not answered: ", &visible(&one.fact), WIDTH)
        )?;
    }
    let second = ranking.second_choices();
    if !second.is_empty() {
        write!(
            out,
            "{}",
            paragraph("Not measured the preferred way: ", &second, WIDTH)
        )?;
    }
    let assumed = ranking.assumptions();
    if !assumed.is_empty() {
        write!(
            out,
            "{}",
            paragraph("Assumed: ", &assumed.join("; "), WIDTH)
        )?;
    }
    for note in &ranking.notes {
        write!(out, "{}", paragraph("Note: ", &visible(note), WIDTH))?;
    }
    writeln!(out)?;
    Ok(())
}

fn row(rank: usize, candidate: &Candidate) -> String {
    columns(&[
        format!("{rank:>3}"),
        visible(&device_name(&candidate.name())).into_owned(),
        candidate.judged.verdict.word().to_owned(),
        told::chance(candidate),
        if candidate.is_on_shelf {
            told::margin(candidate).unwrap_or_default()
        } else {
            "– not in stock".to_owned()
        },
    ])
}

/// One line of the table; the widest of the last column is `+0.4 mm left rim overlap`.
fn columns(cells: &[String; 5]) -> String {
    const WIDTHS: [usize; 5] = [4, 22, 12, 14, 24];
    let line: Vec<String> = cells
        .iter()
        .zip(WIDTHS)
        .map(|(text, width)| cell(text, width))
        .collect();
    line.join(" ").trim_end().to_owned()
}

/// Why a size stands no better.
fn reasons(out: &mut dyn Write, ranking: &Ranking, candidate: &Candidate) -> Result<()> {
    let short_side = told::short_side(candidate);
    let short_side = short_side.map_or_else(String::new, |side| format!(", {side}"));
    let title = format!(
        "{}{short_side}: {} ({})",
        device_name(&candidate.name()),
        candidate.judged.verdict.word(),
        candidate.name()
    );
    write!(out, "{}", paragraph("", &visible(&title), WIDTH))?;
    if let Some(aside) = ranking.aside(candidate) {
        write!(out, "{}", paragraph("  – ", &visible(&aside), WIDTH))?;
    }
    if candidate.judged.because.is_empty() {
        debug_assert_eq!(candidate.judged.verdict, Verdict::Fits);
        writeln!(out, "  no limit is broken as measured")?;
    }
    for because in &candidate.judged.because {
        write!(out, "{}", paragraph("  - ", &visible(because), WIDTH))?;
    }
    Ok(())
}
