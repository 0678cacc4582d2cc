//! Every kind of file a user can edit, changed at random.

use crate::held;
use crate::mutant::{edited, mutant, tokens};
use files::{parse_case, parse_catalogue, parse_guidance, parse_house_rules, shipped};
use outside::sample::{scenario, shipped_rules};
use outside::stream::Stream;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::time::{Duration, Instant};

/// How many texts of each kind are made where `RIMWISE_MUTANTS` does not say.
const FEW: u64 = 300;

/// Longer than this no text takes, on a machine with much else to do.
const PATIENCE: Duration = Duration::from_secs(20);

/// More memory than this the whole run never takes, kB.
const MOST_MEMORY: u64 = 300 * 1024;

pub(crate) fn how_many() -> u64 {
    std::env::var("RIMWISE_MUTANTS").map_or(FEW, |said| said.parse().unwrap())
}

/// The most memory this process had so far, kB; 0 where the system does not say.
fn memory() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let number = line.and_then(|line| line.split_whitespace().next()?.parse().ok());
    number.unwrap_or(0)
}

/// Reads a text; whether it was sound. Where that fails the text is kept and named.
fn read(kind: &str, name: &str, text: &str, read: &impl Fn(&str) -> bool) -> bool {
    let start = Instant::now();
    let result = catch_unwind(AssertUnwindSafe(|| read(text)));
    let took = start.elapsed();
    if let Ok(is_sound) = result
        && took <= PATIENCE
    {
        is_sound
    } else {
        let path = std::env::temp_dir().join(format!("rimwise-{kind}-{name}.ron"));
        std::fs::write(&path, text).unwrap();
        panic!("{kind} {name} failed after {took:?}: {}", path.display());
    }
}

/// What stands in `corpus/` of a kind, then as many mutants of its files as are asked
/// for. `test` says whether a text was sound: where too few are, nothing behind the
/// parser was tried.
pub(crate) fn every(kind: &str, files: &[&str], test: impl Fn(&str) -> bool) {
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/hostile/corpus");
    let mut kept: Vec<_> = std::fs::read_dir(corpus)
        .into_iter()
        .flatten()
        .map(|entry| entry.unwrap().path())
        .filter(|path| {
            path.file_name()
                .unwrap()
                .to_string_lossy()
                .starts_with(kind)
        })
        .collect();
    kept.sort();
    for path in kept {
        let text = std::fs::read_to_string(&path).unwrap();
        read(
            kind,
            &path.file_stem().unwrap().to_string_lossy(),
            &text,
            &test,
        );
    }
    let cut: Vec<Vec<&str>> = files.iter().map(|file| tokens(file)).collect();
    let all: Vec<&str> = cut.iter().flatten().copied().collect();
    let mut sound = 0;
    for number in 0..how_many() {
        let mut stream = Stream(number);
        // The first numbers of neighbouring seeds are neighbours.
        let _ = stream.number();
        let file = stream.place(cut.len());
        let text = if number % 2 == 0 {
            edited(files[file], &all, &mut stream)
        } else {
            mutant(&cut[file], &all, &mut stream)
        };
        sound += u64::from(read(kind, &number.to_string(), &text, &test));
    }
    assert!(10 * sound >= how_many(), "only {sound} were sound");
    let memory = memory();
    assert!(memory <= MOST_MEMORY, "{memory} kB");
}

fn scenarios() -> Vec<&'static str> {
    shipped::SCENARIOS.iter().map(|one| one.1).collect()
}

#[test]
fn a_case_whatever_stands_in_it() {
    let sizes = held::few_sizes();
    every("case", &scenarios(), |text| {
        match parse_case("mutant.ron", text) {
            Err(faults) => {
                held::faults(&faults);
                false
            }
            Ok(case) => {
                held::warnings(&case.faults_under(&shipped_rules()));
                held::case(case.into_value(), shipped_rules(), sizes.clone());
                true
            }
        }
    });
}

#[test]
fn a_catalogue_whatever_stands_in_it() {
    every(
        "catalogue",
        &[shipped::SHAPES.1],
        |text| match parse_catalogue("mutant.ron", text) {
            Err(faults) => {
                held::faults(&faults);
                false
            }
            Ok(catalogue) => {
                held::catalogue(catalogue.into_value());
                true
            }
        },
    );
}

#[test]
fn rules_whatever_stands_in_them() {
    let sizes = held::few_sizes();
    every(
        "rules",
        &[shipped::HOUSE_RULES.1],
        |text| match parse_house_rules("mutant.ron", text) {
            Err(faults) => {
                held::faults(&faults);
                false
            }
            Ok(rules) => {
                held::case(scenario("outlet-infant"), rules.into_value(), sizes.clone());
                true
            }
        },
    );
}

#[test]
fn guidance_whatever_stands_in_it() {
    every(
        "guidance",
        &[shipped::GUIDANCE.1],
        |text| match parse_guidance("mutant.ron", text) {
            Err(faults) => {
                held::faults(&faults);
                false
            }
            Ok(guidance) => {
                held::guidance(guidance.value());
                true
            }
        },
    );
}
