//! How long the reference engine takes, and what share of what the machine can
//! do that is: all figures from one run, as ratios beside the seconds.
//!
//! `cargo bench -p outside --bench plain_engine`

#![expect(
    clippy::expect_used,
    reason = "a bench that cannot run has nothing to say"
)]

use outside::sample::{scenario, shipped_catalogue, shipped_rules};
use sizing::engine::Plain;
use sizing::{Draws, Setting, Work, rank};
use std::hint::black_box;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::time::Instant;

const DRAWS: usize = 4096;
const RUNS: usize = 5;

fn main() {
    let setting = Arc::new(Setting::new(
        Arc::new(scenario("outlet-infant")),
        Arc::new(shipped_rules()),
    ));
    let catalogue = [shipped_catalogue()];
    let sizes: usize = catalogue[0]
        .shapes
        .iter()
        .map(|shape| shape.sizes.len())
        .sum();
    let never = AtomicBool::new(false);
    let draws = Draws::new(&setting, DRAWS, 1).expect("draws");
    let ranked = |threads, draws: Option<&Draws>| {
        let work = Work {
            engine: &Plain,
            threads,
            cancel: &never,
        };
        black_box(rank(&setting, &catalogue, draws, &work));
    };
    let peak = best(|| multiply_adds(PEAK_STEPS));
    let operations = 2.0 * LANES as f64 * PEAK_STEPS as f64 / peak;
    println!("{sizes} sizes, {DRAWS} draws, best of {RUNS} runs");
    println!(
        "multiply-add loop, one thread: {:.2} Gflop/s",
        operations / 1e9
    );
    let preparing = best(|| {
        black_box(Draws::new(&setting, DRAWS, 1).expect("draws"));
    });
    let nominal = best(|| ranked(1, None));
    let one = best(|| ranked(1, Some(&draws)));
    let two = best(|| ranked(2, Some(&draws)));
    let work = (sizes * DRAWS) as f64;
    for (what, seconds) in [
        ("draws prepared, two threads", preparing),
        ("values as read", nominal),
        ("counted, one thread", one),
        ("counted, two threads", two),
    ] {
        println!(
            "{what:<28} {:>8.1} ms  {:>6.2} of one thread's counting",
            1e3 * seconds,
            seconds / one
        );
    }
    println!(
        "{:.2} million candidate-draws a second on one thread, {:.0} operations of the peak each",
        work / one / 1e6,
        operations * one / work
    );
}

/// The shortest of several runs, in seconds.
fn best(mut run: impl FnMut()) -> f64 {
    (0..RUNS)
        .map(|_| {
            let start = Instant::now();
            run();
            start.elapsed().as_secs_f64()
        })
        .fold(f64::INFINITY, f64::min)
}

const LANES: usize = 32;
const PEAK_STEPS: usize = 20_000_000;

/// Independent multiply-adds: what the arithmetic units can do at most.
fn multiply_adds(steps: usize) {
    let mut lanes = [1.0_f64; LANES];
    let (factor, term) = (black_box(0.999_999), black_box(1e-6));
    for _ in 0..steps {
        for lane in &mut lanes {
            *lane = *lane * factor + term;
        }
    }
    black_box(lanes);
}
