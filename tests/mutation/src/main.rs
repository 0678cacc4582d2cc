//! Plants faults into a copy of the program, one for each process, and counts those
//! that no test notices. Usage, from the head of the tree:
//!
//! ```text
//! cargo run --release --manifest-path tests/mutation/Cargo.toml -- COPY \
//!   [--outside TEST]… [--sample N] [--seed S] [--seconds MOST] [--jobs N] [FILE…]
//! ```
//!
//! Every fault of each FILE, and N drawn from all other files. Each is held against the
//! units of its crate and the tests of each TEST of the outside checks. Results are added
//! to `COPY/faults.tsv`; what was killed is not run again, what survived is where a TEST
//! is named. Those of `tests/mutation/equal.tsv` change nothing that can be seen, for the
//! reason that stands there: they are counted apart.

mod fault;
mod planting;
mod tests_of;

use anyhow::{Context, Result, bail};
use planting::Planted;
use std::collections::{BTreeMap, BTreeSet};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering::Relaxed};
use std::time::{Duration, Instant};
use tests_of::{Ended, Test};

struct Asked {
    copy: PathBuf,
    files: Vec<String>,
    outside: Vec<String>,
    sample: usize,
    seed: u64,
    /// How much of the time of its tests a fault is given.
    most: Duration,
    jobs: usize,
}

fn asked() -> Result<Asked> {
    let mut words = std::env::args().skip(1);
    let mut asked = Asked {
        copy: words.next().context("where is the copy to lie?")?.into(),
        files: Vec::new(),
        outside: Vec::new(),
        sample: 0,
        seed: 24,
        most: Duration::from_mins(1),
        jobs: 2,
    };
    while let Some(word) = words.next() {
        let mut number = || -> Result<u64> { Ok(words.next().context("a number")?.parse()?) };
        match word.as_str() {
            "--outside" => asked.outside.push(words.next().context("which test?")?),
            "--sample" => asked.sample = usize::try_from(number()?)?,
            "--seed" => asked.seed = number()?,
            "--seconds" => asked.most = Duration::from_secs(number()?),
            "--jobs" => asked.jobs = usize::try_from(number()?)?,
            _ => asked.files.push(word),
        }
    }
    Ok(asked)
}

fn main() -> Result<()> {
    let asked = asked()?;
    let tree = std::env::current_dir()?;
    copy_tree(&tree, &asked.copy)?;
    let copy = asked.copy.canonicalize()?;
    let chosen = chosen(&tree, &asked)?;
    let count = chosen.len();
    let began = Instant::now();
    let (kept, dropped) = planting::plant(&tree, &copy, chosen)?;
    println!(
        "{count} faults, of which {} do not build ({:.0?})",
        dropped.len(),
        began.elapsed()
    );
    let packages: BTreeSet<&str> = kept.iter().map(Planted::package).collect();
    let tests = tests_of::build(&copy, &packages, &asked.outside)?;
    println!("{} tests built ({:.0?})", tests.len(), began.elapsed());
    let tests = measured(tests, &copy, asked.jobs)?;
    println!("{} tests timed ({:.0?})", tests.len(), began.elapsed());
    let results = copy.join("faults.tsv");
    run(&kept, &tests, &results, &asked)?;
    println!("({:.0?})", began.elapsed());
    table(&results, &equal(&tree)?)
}

/// The faults that change nothing, as they are named in the results.
fn equal(tree: &Path) -> Result<BTreeSet<String>> {
    let text = std::fs::read_to_string(tree.join("tests/mutation/equal.tsv"))?;
    let first = |line: &str| line.split('\t').next().map(str::to_owned);
    Ok(text.lines().filter_map(first).collect())
}

/// Copies what git knows; what the copy has built stays.
fn copy_tree(tree: &Path, copy: &Path) -> Result<()> {
    for part in ["crates", "tests", "scenarios", "catalogs", "docs"] {
        let _ = std::fs::remove_dir_all(copy.join(part));
    }
    let listed = Command::new("git")
        .args(["ls-files"])
        .current_dir(tree)
        .output()?;
    for file in String::from_utf8(listed.stdout)?.lines() {
        let to = copy.join(file);
        if let Some(folder) = to.parent() {
            std::fs::create_dir_all(folder)?;
        }
        std::fs::copy(tree.join(file), &to)?;
        // An old time keeps what was built of the same text.
        let time = std::fs::metadata(tree.join(file))?.modified()?;
        std::fs::File::options()
            .append(true)
            .open(&to)?
            .set_modified(time)?;
    }
    Ok(())
}

/// The faults that are asked for, numbered.
fn chosen(tree: &Path, asked: &Asked) -> Result<Vec<Planted>> {
    let listed = Command::new("git")
        .args(["ls-files", "crates/*/src/*.rs"])
        .current_dir(tree)
        .output()?;
    let listed = String::from_utf8(listed.stdout)?;
    let is_test = |file: &str| {
        file.contains("/tests") || file.ends_with("tests.rs") || file.contains("/tui/scripts")
    };
    let mut faults = Vec::new();
    let mut others = Vec::new();
    for file in listed.lines().filter(|file| !is_test(file)) {
        let source = std::fs::read_to_string(tree.join(file))?;
        let of_file = fault::faults(&source).with_context(|| file.to_owned())?;
        let whole = asked.files.iter().any(|one| one == file);
        let to = if whole { &mut faults } else { &mut others };
        to.extend(of_file.into_iter().map(|fault| (file.to_owned(), fault)));
    }
    if let Some(missing) = asked
        .files
        .iter()
        .find(|file| !listed.lines().any(|it| it == *file))
    {
        bail!("no such file: {missing}");
    }
    // Every one of the others has the same chance (Fisher and Yates).
    let mut state = asked.seed;
    for index in 0..asked.sample.min(others.len()) {
        let left = (others.len() - index) as u64;
        others.swap(
            index,
            index + usize::try_from(split_mix(&mut state) % left)?,
        );
    }
    others.truncate(asked.sample);
    faults.extend(others);
    let numbered = faults.into_iter().zip(1..);
    Ok(numbered
        .map(|((file, fault), id)| Planted { id, file, fault })
        .collect())
}

/// `SplitMix64` (Steele, Lea and Flood 2014), from memory.
fn split_mix(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mut z = *state;
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

fn measured(tests: Vec<Test>, copy: &Path, jobs: usize) -> Result<Vec<Test>> {
    let waiting = Mutex::new(tests);
    let done = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        let each = |job: usize| {
            let notes = copy.join(format!("reached-{job}"));
            while let Some(test) = { waiting.lock().ok().and_then(|mut it| it.pop()) } {
                let Some(test) = tests_of::measured(test, &notes)? else {
                    continue;
                };
                if let Ok(mut done) = done.lock() {
                    done.push(test);
                }
            }
            anyhow::Ok(())
        };
        let running: Vec<_> = (0..jobs)
            .map(|job| scope.spawn(move || each(job)))
            .collect();
        running
            .into_iter()
            .try_for_each(|one| one.join().unwrap_or(Ok(())))
    })?;
    Ok(done.into_inner().unwrap_or_default())
}

/// Holds each fault against its tests, those first that notice much in little time.
fn run(faults: &[Planted], tests: &[Test], results: &Path, asked: &Asked) -> Result<()> {
    let known = std::fs::read_to_string(results).unwrap_or_default();
    let is_done = |line: &&str| asked.outside.is_empty() || !line.contains("\tsurvived\t");
    let known = known.lines().filter(is_done);
    let known: BTreeSet<&str> = known.filter_map(|line| line.split('\t').next()).collect();
    let out = std::fs::OpenOptions::new()
        .create(true)
        .append(true)
        .open(results)?;
    let out = Mutex::new(out);
    let next = AtomicUsize::new(0);
    let noticed: Vec<AtomicUsize> = tests.iter().map(|_| AtomicUsize::new(0)).collect();
    std::thread::scope(|scope| {
        let each = || {
            while let Some(one) = faults.get(next.fetch_add(1, Relaxed)) {
                let key = format!(
                    "{}:{}:{} {}",
                    one.file, one.fault.at.0, one.fault.at.1, one.fault.says
                );
                if known.contains(key.as_str()) {
                    continue;
                }
                let line = held_against(one, tests, &noticed, asked.most)?;
                if let Ok(mut out) = out.lock() {
                    writeln!(out, "{key}\t{line}")?;
                }
            }
            anyhow::Ok(())
        };
        let running: Vec<_> = (0..asked.jobs).map(|_| scope.spawn(each)).collect();
        running
            .into_iter()
            .try_for_each(|one| one.join().unwrap_or(Ok(())))
    })
}

/// What came of a fault: the word, how many of the tests that reach it were run, the
/// seconds, and the test that noticed it.
fn held_against(
    fault: &Planted,
    tests: &[Test],
    noticed: &[AtomicUsize],
    most: Duration,
) -> Result<String> {
    let began = Instant::now();
    let mut those: Vec<usize> = (0..tests.len())
        .filter(|&index| tests[index].is_for(fault))
        .collect();
    those.sort_by_cached_key(|&index| {
        let share = tests[index].takes.as_micros() / (1 + noticed[index].load(Relaxed) as u128);
        (tests[index].package == "tests", share)
    });
    let (mut ran, mut spent) = (0, Duration::ZERO);
    for &index in &those {
        let test = &tests[index];
        if ran > 0 && spent + test.takes > most {
            continue;
        }
        ran += 1;
        spent += test.takes;
        let ended = test.run(fault.id)?;
        if ended != Ended::Passed {
            noticed[index].fetch_add(1, Relaxed);
            let how = if ended == Ended::Failed {
                "killed"
            } else {
                "timeout"
            };
            let seconds = began.elapsed().as_secs_f64();
            return Ok(format!(
                "{how}\t{ran}/{}\t{seconds:.1}\t{}",
                those.len(),
                test.name
            ));
        }
    }
    let seconds = began.elapsed().as_secs_f64();
    Ok(format!("survived\t{ran}/{}\t{seconds:.1}\t", those.len()))
}

/// Killed of all, file by file, with the interval of Wilson (1927) at 95 %.
fn table(results: &Path, equal: &BTreeSet<String>) -> Result<()> {
    let text = std::fs::read_to_string(results)?;
    // Of a fault that was run again the last line counts.
    let last: BTreeMap<&str, &str> = text
        .lines()
        .filter_map(|line| line.split_once('\t'))
        .collect();
    let mut rows: BTreeMap<&str, [usize; 3]> = BTreeMap::new();
    for (key, came) in last {
        let file = key.split(':').next().unwrap_or_default();
        let survived = came.starts_with("survived");
        let changes_nothing = survived && equal.contains(key);
        for name in [file, "in all"] {
            let [killed, equal, all] = rows.entry(name).or_default();
            *killed += usize::from(!survived);
            *equal += usize::from(changes_nothing);
            *all += 1;
        }
    }
    for (file, [killed, equal, all]) in rows {
        let (low, high) = wilson(killed, all);
        let (low_apart, high_apart) = wilson(killed, all - equal);
        println!(
            "| {file} | {killed} of {all} | {:.0} to {:.0} % | {equal} | {:.0} to {:.0} % |",
            100.0 * low,
            100.0 * high,
            100.0 * low_apart,
            100.0 * high_apart
        );
    }
    Ok(())
}

#[allow(clippy::cast_precision_loss, reason = "counts of faults are small")]
fn wilson(hits: usize, all: usize) -> (f64, f64) {
    const Z: f64 = 1.959_964;
    let (n, p) = (all as f64, hits as f64 / all as f64);
    let middle = p + Z * Z / (2.0 * n);
    let half = Z * (p * (1.0 - p) / n + Z * Z / (4.0 * n * n)).sqrt();
    let whole = 1.0 + Z * Z / n;
    ((middle - half) / whole, (middle + half) / whole)
}
