//! A whole procedure in keys: criteria written, two deployments, the second released.

use super::desk::{Desk, Start};
use super::play::{Act, Play};
use crate::tui::input::Input;
use measurement::Answer;
use sizing::trial::{CameOfIt, CriterionState, Seen};
use std::io::{BufRead, BufReader, Write as _};
use std::os::unix::process::ExitStatusExt;
use std::process::{Command, Stdio};
use std::time::Duration;

/// The keys once the devices are pinned, with what they do.
const KEYS: &[(&str, &str)] = &[
    ("7", "the page of trials"),
    ("F F", "release criteria of both pinned sizes"),
    ("enter", "puncture"),
    ("enter", "the first size is opened"),
    ("right enter", "seen by transoesophageal echo"),
    (
        "right right right right enter",
        "a jet of 1.5 mm at the edge",
    ),
    ("end right enter", "recaptured"),
    ("down enter", "the second size is opened"),
    ("down right enter", "no jet at the edge"),
    ("right enter", "none through the fabric"),
    ("right enter right enter right enter", "no valve leaks"),
    (
        "right enter right enter right enter",
        "no cusp and no chorda is held",
    ),
    ("right enter right enter", "no gradient more than before"),
    ("right enter", "rhythm as before"),
    ("right enter", "it does not slip"),
    ("right enter", "the discs are flat"),
    ("right enter", "pressure as before"),
    ("end left enter", "released"),
];

/// So many keys are enough for a procedure.
const MOST_KEYS: usize = 60;

fn keys() -> impl Iterator<Item = &'static str> {
    KEYS.iter().flat_map(|(keys, _)| keys.split(' '))
}

/// The demonstration in a file, its first devices pinned.
fn pinned(desk: &Desk) -> Play {
    std::fs::write(desk.case(), files::shipped::SCENARIOS[0].1).unwrap();
    let mut play = Play::new(Start::File, desk, None);
    // The list pins the first devices.
    play.press("tab");
    let label = play.next_answer(0).unwrap();
    play.step(Duration::from_secs(1), &Act::In(Input::Reply(label)));
    assert_eq!(play.program.session.document().bays().len(), 2);
    play
}

#[test]
fn a_procedure_takes_no_more_than_sixty_keys() {
    assert!(keys().count() <= MOST_KEYS, "{} keys", keys().count());
    let desk = Desk::new(902);
    let mut play = pinned(&desk);
    for key in keys() {
        play.press(key);
    }
    let case = play.program.session.document().case().clone();
    let procedure = &case.procedure;
    assert!(procedure.criteria.iter().all(|one| !one.after_opening));
    let came = procedure.trials.iter().map(|trial| trial.came_of_it);
    let both = [Some(CameOfIt::Recaptured), Some(CameOfIt::Released)];
    assert_eq!(came.collect::<Vec<_>>(), both);
    let [first, second] = &procedure.trials[..] else {
        panic!("two deployments");
    };
    assert_eq!(first.seen[0].seen, Seen::Value(1.5));
    for one in procedure.criteria_of(&second.size) {
        assert_eq!(
            one.state(procedure, second),
            CriterionState::Inside,
            "{one:?}"
        );
    }
    let jet = procedure.criteria_of(&first.size).next().unwrap();
    assert_eq!(jet.state(procedure, first), CriterionState::Between);
    assert!(second.seen.iter().all(|one| one.by == first.seen[0].by));
    let slips = second
        .seen
        .iter()
        .find(|one| one.what == sizing::trial::ObservationKind::Slips);
    assert_eq!(slips.unwrap().seen, Seen::Answer(Answer::No));
}

#[test]
fn killed_between_any_two_keys_the_last_confirmed_observation_is_there() {
    let desk = Desk::new(903);
    let mut play = pinned(&desk);
    let copy = Desk::new(904);
    let mut changes = 0;
    for (index, key) in keys().enumerate() {
        play.press(key);
        let session = &play.program.session;
        let case = session.document().case().clone();
        let is_changed = session.is_unsaved();
        // What lies on the disk at this moment is what a killed program leaves.
        copy.take_files_of(&desk);
        let mut again = Play::new(Start::File, &copy, None);
        if is_changed {
            changes += 1;
            again.press("r");
        }
        let found = again.program.session.document().case();
        assert!(
            found.procedure == case.procedure,
            "after key {index}, {key}"
        );
    }
    assert!(changes > 40, "{changes}");
}

/// Where a child is told its folder and how many keys it presses.
const CHILD: [&str; 2] = ["RIMWISE_KILLED_DESK", "RIMWISE_KILLED_KEYS"];
/// What a child says when it has pressed them.
const PRESSED: &str = "all keys pressed";

#[test]
#[ignore = "the child of the next test, which kills it"]
fn presses_keys_and_waits_to_be_killed() {
    let [Some(folder), Some(count)] = CHILD.map(std::env::var_os) else {
        return;
    };
    let desk = Desk::at(folder.into());
    let count = count.to_str().unwrap().parse().unwrap();
    let mut play = pinned(&desk);
    for key in keys().take(count) {
        play.press(key);
    }
    println!("{PRESSED}");
    std::io::stdout().flush().unwrap();
    std::thread::sleep(Duration::from_mins(5));
}

/// A process of its own is killed with -9 after a third of the keys (after each with
/// `RIMWISE_SCRIPTS=300`), and what it leaves is opened again, who was here included.
#[test]
fn a_process_killed_after_a_key_leaves_the_last_confirmed_observation() {
    let step = if std::env::var_os("RIMWISE_SCRIPTS").is_some() {
        1
    } else {
        3
    };
    let expected_on = Desk::new(906);
    let mut expected = pinned(&expected_on);
    let mut killed = 0;
    for (index, key) in keys().enumerate() {
        expected.press(key);
        if (index + 1) % step != 0 {
            continue;
        }
        let desk = Desk::new(907);
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["--ignored", "--exact", "--nocapture"])
            .arg("tui::scripts::procedure::presses_keys_and_waits_to_be_killed")
            .env(CHILD[0], desk.folder())
            .env(CHILD[1], (index + 1).to_string())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let mut said = lines.map(Result::unwrap);
        assert!(
            said.any(|line| line.contains(PRESSED)),
            "key {index}, {key}"
        );
        child.kill().unwrap();
        assert_eq!(child.wait().unwrap().signal(), Some(9));
        killed += 1;

        let session = &expected.program.session;
        let mut again = Play::new(Start::File, &desk, None);
        if session.is_unsaved() {
            again.press("r");
        }
        let found = &again.program.session.document().case().procedure;
        assert!(
            *found == session.document().case().procedure,
            "killed after key {index}, {key}"
        );
    }
    assert!(killed >= keys().count() / step, "{killed}");
}
