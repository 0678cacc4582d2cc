//! The work-up for people, 80 columns wide.

use super::head_and_foot::{banner, exceptions, titled};
use crate::cli::args::WIDTH;
use crate::text::{fitted, paragraph};
use anyhow::Result;
use files::visible;
use paper::Provenance;
use sizing::Setting;
use std::io::Write;
use unicode_width::UnicodeWidthStr;
use workup::{Line, Section, Workup};

/// Columns of what a figure is called.
const LABEL: usize = 46;

/// Writes a page.
pub(crate) fn write(
    out: &mut dyn Write,
    page: &Workup,
    setting: &Setting,
    from: &Provenance,
) -> Result<()> {
    let defect = format!("{} ventricular septal defect: work-up", page.site);
    titled(out, &page.title, &defect)?;
    exceptions(out, setting)?;
    banner(out, &page.banner)?;
    for one in &page.sections {
        section(out, one)?;
    }
    footing(out, from)
}

fn section(out: &mut dyn Write, section: &Section) -> Result<()> {
    writeln!(out, "{}", section.title.to_uppercase())?;
    if !section.says.is_empty() {
        write!(out, "{}", paragraph("", &visible(&section.says), WIDTH))?;
    }
    for one in &section.lines {
        line(out, one)?;
    }
    writeln!(out)?;
    Ok(())
}

fn line(out: &mut dyn Write, line: &Line) -> Result<()> {
    let first = format!("{} ", line.state.glyph());
    let label = visible(&line.label);
    let note = visible(&line.note);
    let told = line.told();
    let value = joined(&[&told, &note], ", ");
    // One line where it has room, so that figures stand in a column.
    let has_room = |value: &str| {
        !value.is_empty() && label.width() < LABEL && value.width() <= WIDTH - LABEL - 3
    };
    let in_column = |value: &str| format!("{first}{} {value}", fitted(&label, LABEL));
    let mut below = "";
    if has_room(&value) {
        writeln!(out, "{}", in_column(&value))?;
    } else {
        below = &note;
        if has_room(&told) {
            writeln!(out, "{}", in_column(&told))?;
        } else {
            let text = joined(&[&label, &told, &line.standing()], ": ");
            write!(out, "{}", paragraph(&first, &text, WIDTH))?;
        }
    }
    if !below.is_empty() {
        write!(out, "{}", paragraph("    ", below, WIDTH))?;
    }
    if !line.source.is_empty() {
        let source = format!("[{}]", visible(&line.source));
        write!(out, "{}", paragraph("    ", &source, WIDTH))?;
    }
    Ok(())
}

/// The parts that say something, in one text.
fn joined(parts: &[&str], by: &str) -> String {
    let parts: Vec<&str> = parts.iter().copied().filter(|it| !it.is_empty()).collect();
    parts.join(by)
}

fn footing(out: &mut dyn Write, from: &Provenance) -> Result<()> {
    let draws = if from.draws == 0 {
        "No simulated variations: as measured alone.".to_owned()
    } else {
        format!(
            "In brackets the interval that holds 95 % of {} draws.",
            from.draws
        )
    };
    let signs = "✓ met  – not met  ? not known  ! warning  ✗ refused  ≠ does not add up";
    write!(out, "{}", paragraph("", &draws, WIDTH))?;
    writeln!(out, "{signs}")?;
    writeln!(out, "{}", from.in_a_line())?;
    Ok(())
}
