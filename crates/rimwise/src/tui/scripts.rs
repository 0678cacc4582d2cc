//! Scripts played on the whole program but its terminal: keys, pastes, mouse, sizes,
//! answers late or stale, the file changed by something else, a disk that fails.
//!
//! `RIMWISE_SCRIPTS=300` plays so many, `RIMWISE_TRANSCRIPTS=FOLDER` writes down
//! what followed on each step (with `RIMWISE_FRAMES=1` the frames as well), so that
//! `diff -r` compares one state of the code with another; the paths in them are the
//! same with the same `RIMWISE_DESK=FOLDER`. `RIMWISE_REPLAY=FILE` plays the record
//! of a report.

mod chance;
mod desk;
mod play;
mod procedure;
mod script;

use super::input::Input;
use super::recorder::{CASE, HEAD, Recorder};
use desk::{Desk, Start};
use files::{Fault, Operation};
use play::{Act, Play};
use std::collections::BTreeMap;
use std::ffi::OsString;
use std::io::{self, Write};
use std::sync::{Arc, Mutex};
use std::time::Duration;

/// How many scripts are played every day.
const DAILY: u64 = 30;

/// A record in memory.
#[derive(Clone, Default)]
struct Text(Arc<Mutex<Vec<u8>>>);

impl Write for Text {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.lock().unwrap().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Text {
    fn read(&self) -> String {
        String::from_utf8(self.0.lock().unwrap().clone()).unwrap()
    }
}

/// What came of some scripts.
#[derive(Default)]
struct Table {
    scripts: usize,
    steps: usize,
    replayed: usize,
    /// How often each operation failed in each way.
    faults: BTreeMap<(Operation, Fault), usize>,
    /// Programs killed with unsaved changes that were said to be safe.
    killed: usize,
}

impl Table {
    fn add(&mut self, other: Self) {
        self.scripts += other.scripts;
        self.steps += other.steps;
        self.replayed += other.replayed;
        self.killed += other.killed;
        for (key, count) in other.faults {
            *self.faults.entry(key).or_default() += count;
        }
    }
}

/// Plays the script of a number, replays its record, and kills the program.
fn run(number: u64) -> Table {
    let start = Start::of(number);
    let desk = Desk::new(number);
    start.lay(&desk);
    let record = Text::default();
    let recorder = Recorder::new(Box::new(record.clone()), false);
    let mut play = Play::new(start, &desk, Some(recorder));
    let acts = script::play(number, &mut play);
    let mut table = Table {
        scripts: 1,
        steps: play.transcript.len(),
        faults: play.disk.faults(),
        ..Table::default()
    };
    write_down(number, &play.transcript);
    let transcript = std::mem::take(&mut play.transcript);
    table.killed += usize::from(kill(number, play, &desk));
    drop(desk);

    // A record knows what came in, and nothing of disks and other programs.
    if acts.iter().all(|act| matches!(act, Act::In(_))) {
        let desk = Desk::new(number);
        start.lay(&desk);
        let mut replay = Play::new(start, &desk, None);
        // The first line is the size of the first frame.
        for line in record.read().lines().skip(1) {
            let (at, input) = line.split_once(' ').unwrap();
            let input: Input = input.parse().unwrap();
            replay.step(Duration::from_millis(at.parse().unwrap()), &Act::In(input));
        }
        for (first, second) in transcript.iter().zip(&replay.transcript) {
            assert_eq!(first, second, "script {number} replayed");
        }
        assert_eq!(transcript.len(), replay.transcript.len(), "script {number}");
        table.replayed = 1;
    }
    table
}

/// Kills a program; whether it had said that what was not saved is safe: then it is
/// offered and restored.
fn kill(number: u64, play: Play, desk: &Desk) -> bool {
    let session = &play.program.session;
    let home = session.document().home().clone();
    let is_of_desk = home.file() == Some(&desk.case());
    let is_safe = session.is_unsaved() && session.has_journal() && is_of_desk;
    let case = session.document().case().clone();
    drop(play);
    if !is_safe {
        return false;
    }
    let mut again = Play::new(Start::File, desk, None);
    again.press("r");
    let found = again.program.session.document().case();
    assert!(
        *found == case,
        "script {number}: what was confirmed is lost"
    );
    true
}

fn write_down(number: u64, transcript: &[String]) {
    if let Some(folder) = std::env::var_os("RIMWISE_TRANSCRIPTS") {
        std::fs::create_dir_all(&folder).unwrap();
        let path = std::path::Path::new(&folder).join(format!("script-{number:03}"));
        std::fs::write(path, transcript.join("\n") + "\n").unwrap();
    }
}

/// What windows left beside cases in the folder where the tests run: what is typed as a
/// path leads there.
fn left_here() -> Vec<OsString> {
    let here = std::fs::read_dir(".").unwrap().flatten();
    let names = here.map(|entry| entry.file_name());
    let is_left = |name: &OsString| name.to_string_lossy().contains("rimwise-");
    names.filter(is_left).collect()
}

#[test]
fn scripts_are_played_replayed_and_killed() {
    let before = left_here();
    let count = std::env::var("RIMWISE_SCRIPTS").map(|it| it.parse().unwrap());
    let count: u64 = count.unwrap_or(DAILY);
    let threads = std::thread::available_parallelism().map_or(1, usize::from) as u64;
    let mut table = Table::default();
    std::thread::scope(|scope| {
        let shares: Vec<_> = (0..threads)
            .map(|share| {
                scope.spawn(move || {
                    let mut table = Table::default();
                    for number in (share..count).step_by(usize::try_from(threads).unwrap()) {
                        table.add(run(number));
                    }
                    table
                })
            })
            .collect();
        for share in shares {
            table.add(share.join().unwrap());
        }
    });
    println!(
        "{} scripts, {} steps, {} replayed from their record, {} killed with changes, 0 lost",
        table.scripts, table.steps, table.replayed, table.killed
    );
    for ((operation, fault), count) in &table.faults {
        println!("{count:>6} {operation:?} {fault:?}");
    }
    assert!(table.replayed > 0 && table.killed > 0);
    assert_eq!(left_here(), before, "left outside the folder of a script");
}

/// A record of the program, with its head: `RIMWISE_REPLAY=FILE`.
#[test]
fn the_record_of_a_report_is_played() {
    let Some(path) = std::env::var_os("RIMWISE_REPLAY") else {
        return;
    };
    let text = std::fs::read_to_string(path).unwrap();
    let play = replay(&text);
    println!("{}", play.transcript.join("\n"));
    println!("{}", play.frame_text());
}

/// Plays a record that begins with its head.
fn replay(text: &str) -> Play {
    let mut lines = text.lines();
    assert_eq!(lines.next(), Some(HEAD));
    let of_file = lines.clone().any(|line| line == "home file");
    let case: Vec<&str> = lines
        .clone()
        .filter_map(|it| it.strip_prefix(CASE))
        .collect();
    let start = if of_file { Start::File } else { Start::Shipped };
    let desk = Desk::new(u64::from(u32::MAX));
    std::fs::write(desk.case(), case.join("\n") + "\n").unwrap();
    let mut play = Play::new(start, &desk, None);
    for line in lines {
        let Some((at, input)) = line.split_once(' ') else {
            continue;
        };
        if let (Ok(at), Ok(input)) = (at.parse(), input.parse()) {
            play.step(Duration::from_millis(at), &Act::In(input));
        }
    }
    play
}

#[test]
fn a_record_keeps_no_words_of_a_procedure() {
    let desk = Desk::new(u64::from(u32::MAX) - 2);
    let (_, text) = files::shipped::scenario("contact-first").unwrap();
    let text = text.replacen("answer: no,", "set_aside: \"wilma\", answer: no,", 1);
    std::fs::write(desk.case(), text).unwrap();
    let play = Play::new(Start::File, &desk, None);
    let case = play.program.session.document().case();
    let mut seen = case.procedure.trials.iter().flat_map(|trial| &trial.seen);
    assert!(seen.any(|one| one.set_aside.is_some()));
    let path = desk.path("record");
    drop(Recorder::create(&path, &play.program.session).unwrap());
    let text = std::fs::read_to_string(&path).unwrap();
    for word in ["coronary cusp", "oesophageal long axis", "wilma"] {
        assert!(!text.contains(word), "{word} is in\n{text}");
    }
    assert!(text.contains("touches"), "{text}");
}

#[test]
fn a_record_holds_figures_and_nobodys_words() {
    let desk = Desk::new(u64::from(u32::MAX) - 1);
    Start::File.lay(&desk);
    let path = desk.path("record");
    let mut play = Play::new(Start::File, &desk, None);
    play.program
        .record(Recorder::create(&path, &play.program.session).unwrap());
    play.press("enter 7 . 3 enter s W i l m a enter W W i l m a esc N W i l m a");
    play.step(
        play.now(),
        &Act::In(Input::Paste("Wilma Muster\n7".to_owned())),
    );
    play.press("esc esc down right");
    play.step(play.now(), &Act::In(Input::Paste("+4.5".to_owned())));
    // The readings of the quantity that is selected are shown.
    play.press("up");
    let text = std::fs::read_to_string(&path).unwrap();
    let typed: Vec<&str> = text
        .lines()
        .filter(|line| !line.starts_with(CASE))
        .collect();
    let keys = typed.iter().filter_map(|line| line.split_once(" key "));
    let keys: Vec<&str> = keys.map(|(_, key)| key).collect();
    assert_eq!(
        keys.join(" "),
        "enter 7 . 3 enter s x x x x x enter W x x x x x esc N x x x x x esc esc down right up"
    );
    assert!(
        typed
            .iter()
            .any(|line| line.ends_with("paste \"xxxxx xxxxxx\\nx\""))
    );
    assert!(typed.iter().any(|line| line.ends_with("paste \"+4.5\"")));
    assert!(text.contains("a recorded case"));
    let title = &play.program.session.document().case().title;
    assert!(!text.contains(title.as_str()), "{title} is in\n{text}");
    // And it can be played.
    let frame = replay(&text).frame_text();
    assert!(
        frame.contains("a recorded case") && frame.contains("7.3"),
        "{frame}"
    );
}
