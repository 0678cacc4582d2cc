//! How long a look-back over a folder of 10,000 cases takes, and how much memory: read,
//! made records of, and put together, as `rimwise lookback` does.
//!
//! `cargo bench -p outside --bench look_back [-- CASES]`

#![expect(
    clippy::expect_used,
    reason = "a bench that cannot run has nothing to say"
)]

use outside::cohort::{CASES, Plan, cohort};
use outside::sample::shipped_rules;
use sizing::look_back::{CaseRecord, LookBack};
use std::path::{Path, PathBuf};
use std::time::Instant;

fn main() {
    let mut numbers = std::env::args().filter_map(|it| it.parse::<usize>().ok());
    let cases = numbers.next().unwrap_or(10_000);
    let folder = std::env::temp_dir().join(format!("look-back-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let paths = written(&folder, cases);
    let rules = shipped_rules();
    for threads in [1, 2] {
        let from = Instant::now();
        let parts = paths.chunks(cases.div_ceil(threads));
        let records: Vec<CaseRecord> = std::thread::scope(|scope| {
            let each = parts.map(|some| {
                let rules = &rules;
                scope.spawn(move || {
                    let records = some.iter().map(|path| {
                        let file = files::read_case(path).expect("a case");
                        CaseRecord::of(file.value(), "", rules)
                    });
                    records.collect::<Vec<CaseRecord>>()
                })
            });
            let each: Vec<_> = each.collect();
            let each = each.into_iter().map(|one| one.join().expect("no panic"));
            each.flatten().collect()
        });
        let read = from.elapsed().as_secs_f64();
        let from = Instant::now();
        let found = LookBack::of(&records);
        let together = from.elapsed().as_secs_f64();
        println!(
            "{} cases, {threads} threads: read in {read:.1} s, put together in {together:.2} s; \
             most memory {}",
            found.cases,
            most_memory()
        );
    }
    std::fs::remove_dir_all(&folder).expect("the folder goes");
}

/// A cohort again and again, each time under other names.
fn written(folder: &Path, cases: usize) -> Vec<PathBuf> {
    let cohort = cohort(Plan {
        seed: 20,
        cases: CASES.min(cases),
        rim_too_large_by: 0.0,
    });
    let each = cohort.iter().cycle().take(cases).enumerate();
    each.map(|(number, case)| {
        let mut case = case.clone();
        let name = format!("invented-{number:05}");
        let path = folder.join(format!("{name}.ron"));
        case.procedure.case_id = Some(name);
        std::fs::write(&path, files::new_case(&case)).expect("room on the disk");
        path
    })
    .collect()
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
