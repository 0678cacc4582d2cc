//! How long both engines take, and what share of what the machine can do that
//! is: all figures from one run, as ratios beside the seconds.
//!
//! `cargo bench -p outside --bench engines`

#![expect(
    clippy::expect_used,
    reason = "a bench that cannot run has nothing to say"
)]

use outside::sample::{many_sizes, scenario, shipped_catalogue, shipped_rules, shipped_sizes};
use outside::stress;
use sizing::break_even::break_even;
use sizing::engine::{Counter, Engine, Fast, Plain, Question};
use sizing::fit_map::{Axis, Refinement, nearest_form};
use sizing::{Case, Draws, Setting, Size, Work};
use sizing::{Row, rows};
use std::hint::black_box;
use std::process::Command;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::time::Instant;

const DRAWS: usize = 4096;
const RUNS: usize = 7;

fn main() {
    let peak = peak();
    println!(
        "multiply-add loop in f32, one thread: {:.1} Gflop/s",
        peak / 1e9
    );
    println!("best of {RUNS} runs; with sampling and preparation unless said\n");
    let infant = scenario("outlet-infant");
    let job = Job::new(
        "500 sizes, 4,096 draws",
        infant.clone(),
        many_sizes(500),
        DRAWS,
    );
    let plain = job.plain_rate();
    println!(
        "reference, one thread: {:.2} million candidate-draws a second, counting alone\n",
        plain / 1e6
    );
    let prepared = best(|| {
        black_box(job.prepared(&Fast));
    });
    println!("sampling and preparation alone: {:.1} ms", 1e3 * prepared);
    job.report(peak, plain);
    Job::new("shipped catalogue", infant.clone(), shipped_sizes(), DRAWS).report(peak, plain);
    for (name, case) in stress::cases() {
        Job::new(name, case, many_sizes(500), DRAWS).report(peak, plain);
    }
    Job::new("8,000 sizes", infant.clone(), many_sizes(8000), DRAWS).report(peak, plain);
    Job::new("65,536 draws", infant, many_sizes(500), 1 << 16).report(peak, plain);
    println!("most memory so far: {}\n", most_memory());
    break_evens(&job);
    maps(&job.setting);
    peer(&job);
}

/// Break-even of every reading of one size.
fn break_evens(job: &Job) {
    let times = job
        .sizes
        .iter()
        .zip(&job.rows)
        .step_by(9)
        .map(|(size, rows)| {
            best(|| {
                black_box(break_even(&job.setting, size, 0.0, rows, None));
            })
        });
    let mut times: Vec<f64> = times.collect();
    times.sort_by(f64::total_cmp);
    println!(
        "break-even of all readings of one size: median {:.2} ms, longest {:.2} ms",
        1e3 * times[times.len() / 2],
        1e3 * times[times.len() - 1]
    );
}

/// A fit map of 60 × 40 at 1,024 draws, on two threads.
fn maps(setting: &Setting) {
    let cancel = AtomicBool::new(false);
    let work = Work {
        threads: 2,
        cancel: &cancel,
    };
    let form = nearest_form(setting, &[shipped_catalogue()]).expect("a form");
    let seconds = best(|| {
        let counter = Fast.prepare(Draws::new(setting, 1024, 1).expect("draws"));
        let (waists, overhangs) = (Axis::of_waists(setting, 60), Axis::of_overhangs(40));
        let mut map = Refinement::new(setting, &*counter, form.clone(), waists, overhangs);
        black_box(map.whole(&work));
    });
    println!("fit map of 60 × 40 at 1,024 draws: {:.1} ms", 1e3 * seconds);
}

/// The numpy peer, run beside: void where it says so.
fn peer(job: &Job) {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/peers/numpy_engine.py");
    let Ok(output) = Command::new("python3").arg(script).output() else {
        println!("no python3: the peer was not run");
        return;
    };
    let text = String::from_utf8_lossy(&output.stdout);
    print!("{text}");
    let rate = text
        .lines()
        .find_map(|line| line.trim().strip_prefix("2 processes:"))
        .and_then(|rest| rest.split_whitespace().next()?.parse::<f64>().ok());
    let questions = job.questions();
    let seconds = best(|| job.run(&questions, 2));
    if let (true, Some(rate)) = (output.status.success(), rate) {
        let ours = (job.sizes.len() * job.draws) as f64 / seconds / 1e6;
        println!(
            "{:.0} times the peer on two: {ours:.1} against {rate:.2}",
            ours / rate
        );
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

/// Sizes to be counted over draws of a case.
struct Job {
    name: &'static str,
    setting: Setting,
    sizes: Vec<Size>,
    rows: Vec<Vec<Row>>,
    draws: usize,
}

impl Job {
    fn new(name: &'static str, case: Case, sizes: Vec<Size>, draws: usize) -> Self {
        let setting = Setting::new(Arc::new(case), Arc::new(shipped_rules()));
        let rows = sizes
            .iter()
            .map(|size| rows(&setting, &size.occluder))
            .collect();
        Self {
            name,
            setting,
            sizes,
            rows,
            draws,
        }
    }

    fn questions(&self) -> Vec<Question<'_>> {
        let each = self.sizes.iter().zip(&self.rows);
        each.map(|(size, rows)| Question {
            setting: &self.setting,
            size,
            turn: 0.0,
            rows,
        })
        .collect()
    }

    /// Candidate-draws of the reference in a second, on one thread.
    fn plain_rate(&self) -> f64 {
        const FEW: usize = 25;
        let counter = self.prepared(&Plain);
        let questions = self.questions();
        let some: Vec<Question> = questions
            .iter()
            .step_by(questions.len() / FEW)
            .copied()
            .collect();
        black_box(counter.count(&some[0]));
        let start = Instant::now();
        black_box(counter.count_all(&some));
        (some.len() * self.draws) as f64 / start.elapsed().as_secs_f64()
    }

    fn prepared(&self, engine: &dyn Engine) -> Box<dyn Counter> {
        engine.prepare(Draws::new(&self.setting, self.draws, 1).expect("draws"))
    }

    fn run(&self, questions: &[Question], threads: usize) {
        let work = Work {
            threads,
            cancel: &AtomicBool::new(false),
        };
        black_box(self.prepared(&Fast).count_on(&work, questions));
    }

    fn report(&self, peak: f64, plain: f64) {
        let questions = self.questions();
        let work = (self.sizes.len() * self.draws) as f64;
        let [one, two] = [1, 2].map(|threads| best(|| self.run(&questions, threads)));
        println!(
            "{:<36} {:>8.1} ms on one thread, {:>8.1} ms on two: {:>6.1} million candidate-draws \
             a second, {:>4.0} times the reference's one thread; {:>4.0} operations of the peak each",
            self.name,
            1e3 * one,
            1e3 * two,
            work / two / 1e6,
            work / two / plain,
            peak * one / work
        );
    }
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

const LANES: usize = 64;
const PEAK_STEPS: usize = 4_000_000;

/// Operations a second of independent multiply-adds in f32, unfused as in the
/// kernel: what the arithmetic units can do at most.
fn peak() -> f64 {
    let seconds = best(|| multiply_adds(PEAK_STEPS));
    2.0 * (LANES * PEAK_STEPS) as f64 / seconds
}

#[multiversion::multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn multiply_adds(steps: usize) {
    let mut lanes = [1.0_f32; LANES];
    let (factor, term) = (black_box(0.999_999), black_box(1e-6));
    for _ in 0..steps {
        for lane in &mut lanes {
            *lane = *lane * factor + term;
        }
    }
    black_box(lanes);
}
