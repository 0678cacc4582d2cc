//! How long a sheet takes once its case is ranked: beside the milliseconds, the share of
//! what it may take.
//!
//! `cargo bench -p outside --bench sheets`

#![expect(
    clippy::expect_used,
    reason = "a bench that cannot run has nothing to say"
)]

use files::{visible, workup_input};
use outside::sample::{scenario, shipped_catalogue, shipped_limits, shipped_rules};
use paper::{Bundle, Format, Paper, Provenance, Sheet, SheetRequest};
use scene::plate::Orientation;
use sizing::engine::{Engine, Fast};
use sizing::{Draws, Work, rank};
use std::hint::black_box;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::time::Instant;
use workup::Workup;

const RUNS: usize = 10;
const DRAWS: usize = 4096;

/// What a sheet may take after the ranking, seconds.
const BUDGET: f64 = 150e-3;

fn main() {
    println!(
        "best of {RUNS} runs; {DRAWS} simulated variations; budget {} ms\n",
        1e3 * BUDGET
    );
    for name in ["outlet-infant", "three-neighbours", "nothing-left"] {
        measure(name);
    }
}

fn measure(name: &str) {
    let limits = shipped_limits();
    let setting = files::setting(
        Arc::new(scenario(name)),
        Arc::new(shipped_rules()),
        Some(&limits),
    );
    let counter = Fast.prepare(Draws::new(&setting, DRAWS, 1).expect("a number of draws"));
    let work = Work {
        threads: 1,
        cancel: &AtomicBool::new(false),
    };
    let setting = Arc::new(setting);
    let catalogues = [shipped_catalogue()];
    let start = Instant::now();
    let ranking = rank(&setting, &catalogues, Some(counter.as_ref()), &work).expect("a list");
    println!(
        "{name}: ranked once in {:.0} ms",
        1e3 * start.elapsed().as_secs_f64()
    );
    let worked_up = || Workup::new(&workup_input(&setting), &limits, DRAWS, 1).expect("a page");
    let workup = worked_up();
    let from = Provenance {
        inputs_sha256: "0123456789abcdef".repeat(4),
        seed: 1,
        draws: DRAWS,
    };
    let made = |shown: usize, paper: Paper| -> Sheet {
        let request = SheetRequest {
            ranking: &ranking,
            workup: &workup,
            weighed: None,
            shown: ranking.on_shelf().take(shown).collect(),
            otherwise: Vec::new(),
            since: None,
            from: &from,
            orientation: Orientation::default(),
            paper,
            visible,
        };
        request.sheet()
    };
    tell("work-up", best(|| drop(black_box(worked_up()))));
    for paper in Paper::ALL {
        for shown in [1, 2, 4] {
            let seconds = best(|| drop(black_box(made(shown, paper))));
            tell(&format!("{paper:?}, {shown} drawn"), seconds);
        }
    }
    let bundle = Bundle {
        sheets: vec![made(2, Paper::A4)],
        faults: Vec::new(),
        id: from.inputs_sha256.clone(),
        is_one: false,
    };
    for format in [Format::Pdf, Format::Html, Format::Text] {
        let seconds = best(|| drop(black_box(format.bytes(&bundle))));
        tell(&format!("  as {format:?}"), seconds);
    }
}

fn tell(what: &str, seconds: f64) {
    let share = 100.0 * seconds / BUDGET;
    println!(
        "  {what:16} {:7.2} ms  {share:4.0} % of its budget",
        1e3 * seconds
    );
}

/// The shortest of a number of runs, in seconds.
fn best(mut work: impl FnMut()) -> f64 {
    let runs = (0..RUNS).map(|_| {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64()
    });
    runs.fold(f64::INFINITY, f64::min)
}
