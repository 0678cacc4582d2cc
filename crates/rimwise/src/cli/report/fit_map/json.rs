//! The map as JSON, stable from its first version.

use super::super::harmless;
use super::super::json::{FORMAT, rounded};
use super::Mapped;
use anyhow::Result;
use serde::Serialize;
use sizing::fit_map::{Axis, Nearest, Room};
use sizing::house_rules::Parameter;
use std::io::Write;

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    program: String,
    case: &'a str,
    inputs_sha256: &'a str,
    seed: u64,
    draws: usize,
    exceptions: &'a [String],
    form: OfForm,
    waists_mm: Vec<f64>,
    overhangs_mm: Vec<f64>,
    /// Waist after waist, overhang after overhang.
    chances: Vec<Vec<Option<f64>>>,
    chance_errors: Vec<Vec<Option<f64>>>,
    lines: Vec<Lines>,
    marks: Vec<Marked<'a>>,
    sentence: String,
    r#box: Option<Block>,
    nearest: Point,
    limit: Option<Stopped>,
    missing: Vec<&'a str>,
}

#[derive(Serialize)]
struct OfForm {
    length_mm: f64,
    disc_thickness_mm: f64,
    conformability: f64,
    braid_angle_deg: f64,
}

#[derive(Serialize)]
struct Lines {
    chance: f64,
    /// Each a list of waist and overhang.
    lines: Vec<Vec<[f64; 2]>>,
}

#[derive(Serialize)]
struct Marked<'a> {
    size: &'a str,
    waist_mm: f64,
    overhang_mm: f64,
    near: bool,
}

#[derive(Serialize)]
struct Block {
    chance: f64,
    waists_mm: [f64; 2],
    overhangs_mm: [f64; 2],
    lengths_mm: [f64; 2],
}

#[derive(Serialize)]
struct Point {
    waist_mm: f64,
    overhang_mm: f64,
    length_mm: f64,
    chance: f64,
}

#[derive(Serialize)]
struct Stopped {
    check: &'static str,
    of: &'static str,
}

/// Writes a map as JSON.
pub(crate) fn write(out: &mut dyn Write, mapped: &Mapped) -> Result<()> {
    let map = mapped.map;
    let each = |of: &dyn Fn(usize, usize) -> Option<f64>| {
        (0..map.waists.count)
            .map(|column| {
                (0..map.overhangs.count)
                    .map(|row| of(column, row).map(rounded))
                    .collect()
            })
            .collect()
    };
    let would_fit = mapped.would_fit;
    let report = Report {
        format: FORMAT,
        program: format!("rimwise {}", env!("CARGO_PKG_VERSION")),
        case: &mapped.setting.case().title,
        inputs_sha256: &mapped.from.inputs_sha256,
        seed: mapped.from.seed,
        draws: mapped.from.draws,
        exceptions: mapped.setting.exceptions(),
        form: OfForm {
            length_mm: rounded(map.form.length),
            disc_thickness_mm: rounded(map.form.thickness),
            conformability: rounded(map.form.conformability),
            braid_angle_deg: rounded(map.form.braid_angle.to_degrees()),
        },
        waists_mm: values(&map.waists),
        overhangs_mm: values(&map.overhangs),
        chances: each(&|column, row| map.chance(column, row)),
        chance_errors: each(&|column, row| Some(map.cell(column, row)?.chance.error)),
        lines: [Parameter::ChanceDoesNotFit, Parameter::ChanceFits]
            .map(|parameter| lines(mapped, mapped.setting.parameter(parameter)))
            .into(),
        marks: mapped
            .marks
            .iter()
            .map(|mark| Marked {
                size: &mark.name,
                waist_mm: rounded(mark.waist),
                overhang_mm: rounded(mark.overhang),
                near: mark.is_near,
            })
            .collect(),
        sentence: would_fit.says(),
        r#box: would_fit.room.as_ref().map(block),
        nearest: point(&would_fit.nearest),
        limit: would_fit.stop.map(|stop| Stopped {
            check: stop.check,
            of: stop.of.label(),
        }),
        missing: map.missing.iter().map(|one| one.address()).collect(),
    };
    harmless::pretty(out, &report)
}

fn values(axis: &Axis) -> Vec<f64> {
    (0..axis.count)
        .map(|index| rounded(axis.value(index)))
        .collect()
}

fn lines(mapped: &Mapped, chance: f64) -> Lines {
    Lines {
        chance,
        lines: mapped
            .map
            .lines(chance)
            .into_iter()
            .map(|line| {
                line.into_iter()
                    .map(|(waist, overhang)| [rounded(waist), rounded(overhang)])
                    .collect()
            })
            .collect(),
    }
}

fn block(room: &Room) -> Block {
    let both = |(from, to): (f64, f64)| [rounded(from), rounded(to)];
    Block {
        chance: rounded(room.chance),
        waists_mm: both(room.waists),
        overhangs_mm: both(room.overhangs),
        lengths_mm: both(room.lengths),
    }
}

fn point(nearest: &Nearest) -> Point {
    Point {
        waist_mm: rounded(nearest.waist),
        overhang_mm: rounded(nearest.overhang),
        length_mm: rounded(nearest.length),
        chance: rounded(nearest.chance),
    }
}
