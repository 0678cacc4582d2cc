//! What someone plants beside a case, or in its place, is refused: links are not
//! followed, pipes not waited for, and a long journal costs no more than its length.

use crate::journal::journal_of;
use crate::scratch::Scratch;
use crate::store::beside;
use crate::*;
use std::fs;
use std::os::unix::fs::symlink;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::mpsc::channel;
use std::time::{Duration, Instant};

const TEXT: &str = "rim 2.4\n";

/// A pipe that nobody writes to.
fn pipe(path: &Path) {
    assert!(Command::new("mkfifo").arg(path).status().unwrap().success());
}

/// What comes of something that must not wait.
fn at_once<T: Send + 'static>(what: &str, run: impl FnOnce() -> T + Send + 'static) -> T {
    let (sender, done) = channel();
    std::thread::spawn(move || sender.send(run()));
    let done = done.recv_timeout(Duration::from_secs(10));
    done.unwrap_or_else(|_| panic!("{what} waits"))
}

/// Reads what stands at a path; what it says, where it says why not.
type Reader = fn(&Path) -> Option<String>;

#[test]
fn no_reader_waits_on_a_pipe_or_reads_a_device() {
    let scratch = Scratch::new("hostile-pipe");
    let fifo = scratch.path("pipe.ron");
    pipe(&fifo);
    for path in [fifo.as_path(), Path::new("/dev/zero"), scratch.folder()] {
        let name = path.display().to_string();
        let readers: [(&str, Reader); 6] = [
            ("a case", |path| {
                Some(read_case(path).unwrap_err().to_string())
            }),
            ("a catalogue", |path| {
                Some(read_catalogue(path).unwrap_err().to_string())
            }),
            ("rules", |path| {
                Some(read_house_rules(path).unwrap_err().to_string())
            }),
            ("limits", |path| {
                Some(read_guidance(path).unwrap_err().to_string())
            }),
            ("a list of cases", |path| {
                assert!(
                    Recent::new(Disk::default(), path.to_owned())
                        .cases()
                        .is_empty()
                );
                None
            }),
            ("a digest", |path| {
                assert!(matches!(
                    digest_on_disk(&Disk::default(), path),
                    Err(StoreError::NotAFile { .. })
                ));
                None
            }),
        ];
        for (what, read) in readers {
            let path = path.to_owned();
            let says = at_once(&format!("{what} at {name}"), move || read(&path));
            let is_told = says.is_none_or(|says| says.contains("not a plain file"));
            assert!(is_told, "{what} at {name}");
        }
        let case = path.to_owned();
        let entered = at_once("entering", move || Presence::enter(&Disk::default(), &case));
        assert!(
            matches!(entered, Err(StoreError::NotAFile { .. })),
            "{name}"
        );
    }
}

#[test]
fn a_pipe_in_place_of_a_lock_or_a_journal_is_refused_and_left() {
    let scratch = Scratch::new("hostile-pipe-beside");
    let case = scratch.path("case.ron");
    fs::write(&case, TEXT).unwrap();
    for path in [beside(&case, "rimwise-open"), journal_of(&case)] {
        pipe(&path);
    }
    let entered = at_once("entering", {
        let case = case.clone();
        move || Presence::enter(&Disk::default(), &case)
    });
    assert!(matches!(entered, Err(StoreError::NotOwn { .. })));
    let found = at_once("finding", move || {
        Recovery::find(&Disk::default(), &case, Some(TEXT))
    });
    assert!(matches!(
        found,
        Err(JournalError::Unread(StoreError::NotOwn { .. }))
    ));
    assert_eq!(scratch.names().len(), 3);
}

#[test]
fn a_lock_that_turned_into_a_pipe_is_left_at_once() {
    let scratch = Scratch::new("hostile-drop");
    let case = scratch.path("case.ron");
    let EntryOutcome::Alone(presence) = Presence::enter(&Disk::default(), &case).unwrap() else {
        panic!("held");
    };
    let lock = beside(&case, "rimwise-open");
    fs::remove_file(&lock).unwrap();
    pipe(&lock);
    at_once("leaving", move || drop(presence));
    assert!(lock.symlink_metadata().is_ok(), "it is not ours");
}

/// Something of the user's that is worth keeping, and links to it.
fn planted(scratch: &Scratch, at: &Path, hard: bool) -> PathBuf {
    let target = scratch.path("thesis.txt");
    fs::write(&target, "years of work").unwrap();
    let _ = fs::remove_file(at);
    if hard {
        fs::hard_link(&target, at).unwrap();
    } else {
        symlink(&target, at).unwrap();
    }
    target
}

#[test]
fn a_lock_file_follows_no_planted_link() {
    let scratch = Scratch::new("hostile-lock");
    let case = scratch.path("case.ron");
    let lock = beside(&case, "rimwise-open");
    for hard in [false, true] {
        let target = planted(&scratch, &lock, hard);
        let error = Presence::enter(&Disk::default(), &case).unwrap_err();
        assert!(matches!(error, StoreError::NotOwn { .. }), "{error}");
        assert!(error.to_string().contains("Move it away"), "{error}");
        assert_eq!(fs::read_to_string(&target).unwrap(), "years of work");
    }
    // A link that leads nowhere makes no file there.
    fs::remove_file(&lock).unwrap();
    symlink(scratch.path("new"), &lock).unwrap();
    assert!(matches!(
        Presence::enter(&Disk::default(), &case),
        Err(StoreError::NotOwn { .. })
    ));
    assert!(!scratch.path("new").exists());
    // A file under the name that is longer than any lock is nobody's lock.
    fs::remove_file(&lock).unwrap();
    fs::write(&lock, "x".repeat(10_000)).unwrap();
    assert!(matches!(
        Presence::enter(&Disk::default(), &case),
        Err(StoreError::NotOwn { .. })
    ));
    assert_eq!(fs::metadata(&lock).unwrap().len(), 10_000);
}

#[test]
fn a_journal_follows_no_planted_link() {
    let scratch = Scratch::new("hostile-journal");
    let (case, other) = (scratch.path("case.ron"), scratch.path("other.ron"));
    for path in [&case, &other] {
        fs::write(path, TEXT).unwrap();
    }
    let mut journal = Journal::new(&Disk::default(), &other, TEXT);
    journal.record("one", "rim 1\n", false).unwrap();
    let (planted, target) = (journal_of(&case), journal_of(&other));
    for hard in [false, true] {
        let _ = fs::remove_file(&planted);
        if hard {
            fs::hard_link(&target, &planted).unwrap();
        } else {
            symlink(&target, &planted).unwrap();
        }
        let found = Recovery::find(&Disk::default(), &case, Some(TEXT));
        assert!(matches!(
            found,
            Err(JournalError::Unread(StoreError::NotOwn { .. }))
        ));
    }
    // Planted after it was looked at: not written to.
    fs::remove_file(&planted).unwrap();
    fs::copy(&target, &planted).unwrap();
    let found = Recovery::find(&Disk::default(), &case, Some(TEXT))
        .unwrap()
        .unwrap();
    fs::remove_file(&planted).unwrap();
    symlink(&target, &planted).unwrap();
    let before = fs::read(&target).unwrap();
    assert!(found.restore().is_err());
    assert_eq!(fs::read(&target).unwrap(), before);
}

/// A journal of small changes of a long text, as long as it may be.
fn long_journal(scratch: &Scratch, length: usize, changes: usize) -> (PathBuf, String) {
    let case = scratch.path("case.ron");
    let text = "x".repeat(length);
    fs::write(&case, &text).unwrap();
    let mut journal = Journal::new(&Disk::default(), &case, &text);
    for change in 0..changes {
        let last = if change % 2 == 0 { "y" } else { "z" };
        let text = format!("{}{last}", &text[1..]);
        if journal.record("c", &text, false).is_err() {
            break;
        }
    }
    (case, text)
}

#[test]
fn a_long_journal_is_read_in_time_that_grows_with_its_length() {
    let scratch = Scratch::new("hostile-long");
    let mut times = Vec::new();
    for changes in [2_000, 20_000] {
        let (case, text) = long_journal(&scratch, 8_192, changes);
        let start = Instant::now();
        let found = Recovery::find(&Disk::default(), &case, Some(&text))
            .unwrap()
            .unwrap();
        times.push(start.elapsed());
        assert_eq!(found.changes.len(), changes);
    }
    // Ten times the changes; a square would be a hundred times.
    assert!(times[1] < 40 * times[0], "{times:?}");
}
