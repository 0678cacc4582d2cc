//! How long what follows from a trial takes on two threads, and how much memory: what was
//! seen taken in, the list and the unions made again, targeted rounds, a forecast.
//!
//! `cargo bench -p outside --bench trials`

#![expect(
    clippy::expect_used,
    reason = "a bench that cannot run has nothing to say"
)]

use outside::page::set;
use outside::sample::{scenario, shipped_catalogue};
use outside::trials::distance_seen;
use sizing::engine::{Engine, Fast};
use sizing::trial::{Moment, Observation, PairCache, foretell, take_in, weigh, what_next};
use sizing::{Case, Catalogue, Setting, Work, rank};
use std::hint::black_box;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::time::Instant;

const DRAWS: usize = 4096;
const RUNS: usize = 5;

fn main() {
    let never = AtomicBool::new(false);
    let bench = Bench {
        catalogues: vec![shipped_catalogue()],
        work: Work {
            threads: 2,
            cancel: &never,
        },
    };
    let touched = scenario("contact-first");
    let seen = touched.procedure.trials[0].seen.clone();
    println!("two threads, {DRAWS} draws, best of {RUNS} runs");
    println!("memory at the start: {}", most_memory());
    bench.weighed("a size opened, nothing seen yet", &with(&touched, &[]));
    bench.weighed("the first observation", &with(&touched, &seen[..1]));
    bench.weighed("two observations", &with(&touched, &seen[..2]));
    let opened = with(&touched, &[]);
    bench.weighed_again("nothing seen yet, the draws known", &opened, None);
    let first = with(&touched, &seen[..1]);
    bench.weighed_again("the first observation after it", &first, Some(&opened));
    bench.weighed_again("the second observation after it", &touched, Some(&first));
    bench.weighed_again("what was seen last taken back", &first, Some(&touched));
    bench.listed("the same, the list and the unions", &touched);
    println!("most memory with a trial open: {}", most_memory());
    bench.foretold("a forecast at opening", &touched, Moment::Opened);
    bench.foretold("a forecast at closing", &touched, Moment::Closed);
    println!("most memory after a forecast: {}", most_memory());
    for name in [
        "pulled-through",
        "nothing-left",
        "observation-against-reading",
    ] {
        bench.weighed(name, &scenario(name));
    }
    bench.weighed(
        "a distance that the readings hardly allow",
        &unlikely(&touched),
    );
    bench.weighed(
        "a distance seen three times that few draws explain",
        &distance_seen(&[2.5, 2.6, 2.7], 0.3),
    );
    println!("most memory after targeted rounds: {}", most_memory());
}

struct Bench<'a> {
    catalogues: Vec<Catalogue>,
    work: Work<'a>,
}

impl Bench<'_> {
    fn weighed(&self, name: &str, case: &Case) {
        let setting = set(case.clone());
        let mut rounds = 0;
        let seconds = best(|| {
            let weighing = weigh(&setting, &self.catalogues, DRAWS, 1, &self.work);
            rounds = weighing.expect("trials").expect("never cancelled").rounds;
        });
        println!("{name}: {:.1} ms, {rounds} targeted rounds", 1e3 * seconds);
    }

    /// What a further confirmed key costs, by what the last one left.
    fn weighed_again(&self, name: &str, case: &Case, before: Option<&Case>) {
        let setting = set(case.clone());
        let before = before.map_or_else(
            || {
                let mut none = case.clone();
                none.procedure.trials.clear();
                set(none)
            },
            |before| set(before.clone()),
        );
        let mut least = f64::INFINITY;
        for _ in 0..RUNS {
            let mut cache = PairCache::new();
            let mut weighed = |of: &Setting| {
                let weighing = cache.weigh(of, &self.catalogues, (DRAWS, 1), &self.work);
                black_box(weighing.expect("trials").expect("never cancelled"));
            };
            weighed(&before);
            let from = Instant::now();
            weighed(&setting);
            least = least.min(from.elapsed().as_secs_f64());
        }
        println!("{name}: {:.1} ms", 1e3 * least);
    }

    fn listed(&self, name: &str, case: &Case) {
        let setting = set(case.clone());
        let taken_in = self.taken_in(&setting);
        let (believed, draws) = (taken_in.0, taken_in.1);
        let counter = Fast.prepare(draws);
        let seconds = best(|| {
            let ranking = rank(&believed, &self.catalogues, Some(&*counter), &self.work);
            let ranking = ranking.expect("never cancelled");
            black_box(what_next(&ranking, counter.draws().weights()));
        });
        println!("{name}, weighing aside: {:.1} ms", 1e3 * seconds);
    }

    fn taken_in(&self, setting: &Setting) -> (Arc<Setting>, sizing::Draws) {
        let taken_in = take_in(setting, &self.catalogues, DRAWS, 1, &self.work);
        let taken_in = taken_in.expect("trials").expect("never cancelled");
        (taken_in.setting, taken_in.draws.expect("draws that agree"))
    }

    fn foretold(&self, name: &str, case: &Case, moment: Moment) {
        let setting = set(case.clone());
        let trial = &case.procedure.trials[0].id;
        let by = (DRAWS, 1);
        let seconds = best(|| {
            let all = &self.catalogues;
            let forecast = foretell(&setting, all, trial, moment, by, &self.work);
            black_box(forecast.expect("a trial"));
        });
        println!("{name}: {:.1} ms", 1e3 * seconds);
    }
}

/// A case of whose trial so much was seen.
fn with(case: &Case, seen: &[Observation]) -> Case {
    let mut case = case.clone();
    case.procedure.trials[0].seen = seen.to_vec();
    case
}

/// A distance of 6 mm where the readings have next to none: few draws agree.
fn unlikely(case: &Case) -> Case {
    let mut case = case.clone();
    let seen = &mut case.procedure.trials[0].seen;
    seen.truncate(1);
    seen[0].what = sizing::trial::ObservationKind::Distance;
    seen[0].seen = sizing::trial::Seen::Value(6.0);
    case
}

fn best(mut run: impl FnMut()) -> f64 {
    let times = (0..RUNS).map(|_| {
        let from = Instant::now();
        run();
        from.elapsed().as_secs_f64()
    });
    times.fold(f64::INFINITY, f64::min)
}

/// The most memory the process had (Linux), or that it is not known.
fn most_memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmHWM"));
    line.map_or_else(
        || "not known".to_owned(),
        |line| line.trim_start_matches("VmHWM:").trim().to_owned(),
    )
}
