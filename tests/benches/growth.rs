//! What an edit costs, part by part, and how that grows with sizes, draws and cases.
//!
//! `cargo bench -p outside --bench growth`

#![expect(
    clippy::expect_used,
    reason = "a bench that cannot run has nothing to say"
)]

use outside::page::set;
use outside::sample::{case_names, many_sizes, scenario, shipped_catalogue};
use sizing::engine::{Engine, Fast};
use sizing::{Assessment, Case, Catalogue, Draws, Setting, Shape, Work, rank};
use std::hint::black_box;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::time::Instant;

const DRAWS: usize = 4096;
const RUNS: usize = 7;

fn main() {
    let never = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &never,
    };
    println!("two threads, best of {RUNS} runs where they are short");
    parts_of_an_edit(&work);
    with_draws(&work);
    with_sizes(&work);
    with_cases(&work);
}

/// What is done for an edit of each scenario, at the shipped catalogue.
fn parts_of_an_edit(work: &Work) {
    println!("\nms: set and worked up, measured, listed | drawn, laid out, counted, listed");
    let catalogues = vec![shipped_catalogue()];
    for name in case_names() {
        let case = scenario(name);
        let setting = Arc::new(set(case.clone()));
        let measured = || Assessment::new(&setting, &catalogues, work).expect("never cancelled");
        let drawn = || Draws::new(&setting, DRAWS, Draws::SEED).expect("draws");
        let assessment = measured();
        let counter = Fast.prepare(drawn());
        let times = [
            best(|| drop(set(case.clone()))),
            best(|| drop(measured())),
            best(|| drop(assessment.rank(None, work))),
            best(|| drop(drawn())),
            best(|| drop(Fast.prepare(drawn()))),
            best(|| drop(assessment.rank(Some(&*counter), work))),
        ];
        let ms = times.map(|seconds| 1e3 * seconds);
        println!(
            "{name:<32} {:6.2} {:6.2} {:6.2} | {:6.2} {:6.2} {:6.2}",
            ms[0],
            ms[1],
            ms[2],
            ms[3],
            ms[4] - ms[3],
            ms[5]
        );
    }
}

fn with_draws(work: &Work) {
    let setting = Arc::new(set(scenario("outlet-infant")));
    let catalogues = vec![shipped_catalogue()];
    let numbers = (12..=19).map(|power| 1_usize << power);
    line("draws, shipped catalogue", numbers, |draws| {
        let drawn = Draws::new(&setting, draws, Draws::SEED).expect("draws");
        let counter = Fast.prepare(drawn);
        black_box(rank(&setting, &catalogues, Some(&*counter), work));
    });
}

fn with_sizes(work: &Work) {
    let setting = Arc::new(set(scenario("outlet-infant")));
    line(
        "sizes, 4,096 draws",
        [158, 1_000, 10_000].into_iter(),
        |sizes| {
            let catalogues = vec![catalogue(sizes)];
            let drawn = Draws::new(&setting, DRAWS, Draws::SEED).expect("draws");
            let counter = Fast.prepare(drawn);
            black_box(rank(&setting, &catalogues, Some(&*counter), work));
        },
    );
}

/// Many cases one after the other, each on one thread as a call of many has it.
fn with_cases(work: &Work) {
    let catalogues = vec![shipped_catalogue()];
    let cases: Vec<Case> = case_names().map(scenario).collect();
    let alone = Work {
        threads: 1,
        ..*work
    };
    line(
        "cases, on one thread",
        [1, 100, 1_000].into_iter(),
        |number| {
            for case in cases.iter().cycle().take(number) {
                let setting: Arc<Setting> = Arc::new(set(case.clone()));
                let drawn = Draws::new(&setting, DRAWS, Draws::SEED).expect("draws");
                let counter = Fast.prepare(drawn);
                black_box(rank(&setting, &catalogues, Some(&*counter), &alone));
            }
        },
    );
}

/// Prints what each number costs, with the power of the number by which that grows, and the
/// most memory up to then.
fn line(name: &str, numbers: impl Iterator<Item = usize>, mut run: impl FnMut(usize)) {
    println!("\n{name}");
    let mut points = Vec::new();
    for number in numbers {
        let start = Instant::now();
        run(number);
        let first = start.elapsed().as_secs_f64();
        let again = if first < LONG {
            best(|| run(number))
        } else {
            first
        };
        let seconds = first.min(again);
        println!(
            "{number:>8}: {:9.1} ms, {:8.2} us each, most memory so far {}",
            1e3 * seconds,
            1e6 * seconds / number as f64,
            most_memory()
        );
        points.push((libm::log(number as f64), libm::log(seconds)));
    }
    println!("grows by the power {:.2}", slope(&points));
}

/// What takes longer is run once.
const LONG: f64 = 1.0;

/// The slope of the least squares line through points.
fn slope(points: &[(f64, f64)]) -> f64 {
    let number = points.len() as f64;
    let mean = |of: &dyn Fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>() / number;
    let (x, y) = (mean(&|point| point.0), mean(&|point| point.1));
    let product = mean(&|point| (point.0 - x) * (point.1 - y));
    product / mean(&|point| (point.0 - x) * (point.0 - x))
}

/// A catalogue of one shape with many sizes.
fn catalogue(sizes: usize) -> Catalogue {
    let shape = Shape {
        id: "many".into(),
        name: "many sizes".into(),
        about: String::new(),
        sizes: many_sizes(sizes),
    };
    Catalogue {
        shapes: vec![shape],
        ..shipped_catalogue()
    }
}

/// The most memory the process had (Linux), or that it is not known.
fn most_memory() -> String {
    std::fs::read_to_string("/proc/self/status")
        .ok()
        .and_then(|status| {
            let line = status.lines().find(|line| line.starts_with("VmHWM"))?;
            Some(line.trim_start_matches("VmHWM:").trim().to_owned())
        })
        .unwrap_or_else(|| "not known".into())
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
