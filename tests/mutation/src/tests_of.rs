//! The tests of the copy: which there are, how long each takes, which faults it reaches.

use crate::planting::Planted;
use anyhow::{Result, bail};
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// One test in its executable.
#[derive(Clone, Debug)]
pub struct Test {
    /// The executable.
    pub program: PathBuf,
    /// The folder it runs in.
    pub folder: PathBuf,
    /// The folder of its package, from the head of the tree.
    pub package: String,
    /// Its name.
    pub name: String,
    /// How long it takes without a fault.
    pub takes: Duration,
    /// The faults it reaches.
    pub reaches: BTreeSet<u32>,
}

/// How a test ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// It passed.
    Passed,
    /// It failed, or the process died.
    Failed,
    /// It took far longer than without a fault.
    TooLong,
}

impl Test {
    /// Whether the test is one that a fault is held against: the units of its own
    /// crate, or a check against the outside.
    pub fn is_for(&self, fault: &Planted) -> bool {
        self.reaches.contains(&fault.id)
            && (self.package == fault.package() || self.package == "tests")
    }

    /// Runs it with one fault.
    pub fn run(&self, fault: u32) -> Result<Ended> {
        const SPARE: Duration = Duration::from_secs(6);
        self.call("PLANTED", &fault.to_string(), self.takes * 8 + SPARE)
    }

    fn call(&self, key: &str, value: &str, most: Duration) -> Result<Ended> {
        // A fault may ask for memory without end.
        const KILOBYTES: u32 = 6_000_000;
        let mut child = Command::new("bash")
            .args(["-c", &format!("ulimit -v {KILOBYTES}; exec \"$0\" \"$@\"")])
            .arg(&self.program)
            .args([
                "--exact",
                &self.name,
                "--test-threads",
                "1",
                "--include-ignored",
            ])
            .current_dir(&self.folder)
            .env(key, value)
            // One fault leaves no seeds to the next, and none is made small.
            .env("PROPTEST_DISABLE_FAILURE_PERSISTENCE", "true")
            .env("PROPTEST_MAX_SHRINK_ITERS", "0")
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()?;
        let began = Instant::now();
        loop {
            if let Some(status) = child.try_wait()? {
                return Ok(if status.success() {
                    Ended::Passed
                } else {
                    Ended::Failed
                });
            }
            if began.elapsed() > most {
                child.kill()?;
                child.wait()?;
                return Ok(Ended::TooLong);
            }
            std::thread::sleep(Duration::from_millis(2));
        }
    }
}

/// Builds the units of some packages and some outside checks, and lists each test.
pub fn build(copy: &Path, packages: &BTreeSet<&str>, outside: &[String]) -> Result<Vec<Test>> {
    let mut units = Command::new("cargo");
    units.args(["test", "--offline", "--no-run", "--lib", "--bins"]);
    for package in packages {
        units.args(["--package", package.trim_start_matches("crates/")]);
    }
    let mut tests = built(copy, units)?;
    if !outside.is_empty() {
        let mut checks = Command::new("cargo");
        checks.args(["test", "--offline", "--no-run", "--package", "outside"]);
        for test in outside {
            checks.args(["--test", test]);
        }
        tests.extend(built(copy, checks)?);
    }
    Ok(tests)
}

/// What a call of cargo builds.
fn built(copy: &Path, mut cargo: Command) -> Result<Vec<Test>> {
    cargo.arg("--message-format=json");
    let given = cargo.current_dir(copy).output()?;
    if !given.status.success() {
        bail!(
            "tests do not build: {}",
            String::from_utf8_lossy(&given.stderr)
        );
    }
    let copy = copy.canonicalize()?;
    let mut tests = Vec::new();
    for line in String::from_utf8_lossy(&given.stdout).lines() {
        let Ok(message) = serde_json::from_str::<Value>(line) else {
            continue;
        };
        let (Some(program), Some(manifest)) = (
            message["executable"].as_str(),
            message["manifest_path"].as_str(),
        ) else {
            continue;
        };
        if message["profile"]["test"] != true {
            continue;
        }
        let Some(folder) = Path::new(manifest).parent() else {
            continue;
        };
        let package = folder.strip_prefix(&copy)?.display().to_string();
        let listed = Command::new(program)
            .args(["--list", "--format", "terse"])
            .output()?;
        for line in String::from_utf8_lossy(&listed.stdout).lines() {
            if let Some(name) = line.strip_suffix(": test") {
                tests.push(Test {
                    program: program.into(),
                    folder: folder.into(),
                    package: package.clone(),
                    name: name.into(),
                    takes: Duration::ZERO,
                    reaches: BTreeSet::new(),
                });
            }
        }
    }
    Ok(tests)
}

/// Runs a test without a fault: how long it takes and which faults it reaches. One
/// that fails already is left out.
pub fn measured(mut test: Test, notes: &Path) -> Result<Option<Test>> {
    const MOST: Duration = Duration::from_mins(4);
    let _ = std::fs::remove_file(notes);
    let ended = test.call("PLANTED_REACHED", &notes.display().to_string(), MOST)?;
    if ended != Ended::Passed {
        eprintln!("left out, {ended:?} without a fault: {}", test.name);
        return Ok(None);
    }
    let reached = std::fs::read_to_string(notes).unwrap_or_default();
    test.reaches = reached
        .lines()
        .filter_map(|line| line.parse().ok())
        .collect();
    let began = Instant::now();
    if test.call("PLANTED", "0", MOST)? != Ended::Passed {
        return Ok(None);
    }
    test.takes = began.elapsed();
    Ok(Some(test))
}
