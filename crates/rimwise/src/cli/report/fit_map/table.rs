//! The map in letters, 80 columns wide.

use super::Mapped;
use crate::cli::args::WIDTH;
use crate::cli::report::head_and_foot::{exceptions, footing, opening};
use crate::text::{fitted, paragraph};
use anyhow::Result;
use sizing::fit_map::{FitMap, Mark};
use sizing::house_rules::Parameter;
use std::io::Write;

/// Columns left of the map: an overhang and its line.
const MARGIN: usize = 6;
/// How many columns and rows of letters a map has at most.
const MOST: (usize, usize) = (72, 40);
/// Columns between two waists that are named.
const NAMED: usize = 10;
/// A size of the catalogue.
const MARK: char = '@';
/// The letters of the bands of chance, the highest first.
const LETTERS: [char; 4] = ['#', '+', '-', '·'];
/// The chance under which little is left to hope for.
const LITTLE: f64 = 0.1;

/// Writes a map as letters, with what would fit above it.
pub(crate) fn write(out: &mut dyn Write, mapped: &Mapped) -> Result<()> {
    opening(out, mapped.setting.case())?;
    exceptions(out, mapped.setting)?;
    write!(
        out,
        "{}",
        paragraph("What would fit: ", &mapped.would_fit.says(), WIDTH)
    )?;
    write!(out, "{}", paragraph("", &form(mapped), WIDTH))?;
    writeln!(out)?;
    letters(out, mapped)?;
    writeln!(out)?;
    write!(out, "{}", paragraph("", &legend(mapped), WIDTH))?;
    footing(out, mapped.from)
}

fn form(mapped: &Mapped) -> String {
    let form = &mapped.map.form;
    format!(
        "Two equal discs on the axis, {:.1} mm thick; length {:.1} mm; conformability {:.2}; \
         braid angle {:.0}°.",
        form.thickness,
        form.length,
        form.conformability,
        form.braid_angle.to_degrees()
    )
}

/// The map: overhangs upward, waists to the right.
fn letters(out: &mut dyn Write, mapped: &Mapped) -> Result<()> {
    let map = mapped.map;
    let columns = shown(map.waists.count, MOST.0);
    let rows = shown(map.overhangs.count, MOST.1);
    writeln!(out, "overhang, mm")?;
    for &row in rows.iter().rev() {
        let line: String = columns
            .iter()
            .map(|&column| letter(mapped, (column, row), (columns[1], rows[1])))
            .collect();
        let label = format!("{:>4.1} ", map.overhangs.value(row));
        writeln!(out, "{label}{}", format!("│{line}").trim_end())?;
    }
    writeln!(
        out,
        "{}└{}",
        " ".repeat(MARGIN - 1),
        "─".repeat(columns.len())
    )?;
    let mut axis = " ".repeat(MARGIN);
    for named in columns.chunks(NAMED) {
        let waist = format!("{:.1}", map.waists.value(named[0]));
        if named.len() >= waist.len() {
            axis.push_str(&fitted(&waist, named.len()));
        }
    }
    writeln!(out, "{}  waist, mm", axis.trim_end())?;
    Ok(())
}

/// Every so many of a number of columns or rows, so that there is room for them.
fn shown(count: usize, most: usize) -> Vec<usize> {
    (0..count).step_by(count.div_ceil(most)).collect()
}

/// A letter for a cell, or for the mark in the cells it stands for.
fn letter(mapped: &Mapped, cell: (usize, usize), every: (usize, usize)) -> char {
    let is_here = |mark: &Mark| {
        mark.cell(mapped.map)
            .is_some_and(|at| at.0 - at.0 % every.0 == cell.0 && at.1 - at.1 % every.1 == cell.1)
    };
    if near(mapped).any(is_here) {
        return MARK;
    }
    let chance = mapped.map.chance(cell.0, cell.1).unwrap_or(0.0);
    let band = bands(mapped).iter().position(|&least| chance >= least);
    band.map_or(' ', |band| LETTERS[band])
}

/// The least chance of each band.
fn bands(mapped: &Mapped) -> [f64; 4] {
    let parameter = |of| mapped.setting.parameter(of);
    [
        parameter(Parameter::ChanceFits),
        parameter(Parameter::ChanceDoesNotFit),
        LITTLE,
        f64::MIN_POSITIVE,
    ]
}

fn near<'a>(mapped: &'a Mapped) -> impl Iterator<Item = &'a Mark> {
    mapped.marks.iter().filter(|mark| mark.is_near)
}

fn legend(mapped: &Mapped) -> String {
    let [fits, borderline, little, _] =
        bands(mapped).map(|least| format!("{:.0} %", 100.0 * least));
    let on_map = |map: &FitMap, mark: &Mark| mark.cell(map).is_some();
    let shown = near(mapped).filter(|mark| on_map(mapped.map, mark)).count();
    format!(
        "{} {fits} or more, {} {borderline} or more, {} {little} or more, {} less, blank none; {MARK} a \
         size of the catalogue near this form ({shown} here, {} more are not near it or not \
         here).",
        LETTERS[0],
        LETTERS[1],
        LETTERS[2],
        LETTERS[3],
        mapped.marks.len() - shown,
    )
}
