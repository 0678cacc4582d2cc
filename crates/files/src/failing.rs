//! Every operation of the store made to fail, once and from there on: nothing that
//! was confirmed is lost, and what is on disk is whole.

use crate::journal::journal_of;
use crate::scratch::Scratch;
use crate::*;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

/// What a disk was asked, and the paths with bytes that were not forced to disk.
#[derive(Clone, Default)]
struct Log(Arc<Mutex<OperationLog>>);

#[derive(Default)]
struct OperationLog {
    operations: Vec<(Operation, PathBuf)>,
    unforced: Vec<PathBuf>,
}

impl Log {
    fn count(&self, operation: Operation) -> usize {
        let asked = self.0.lock().unwrap();
        let of_kind = asked.operations.iter().filter(|(one, _)| *one == operation);
        of_kind.count()
    }

    /// Whether everything that was written is on disk.
    fn is_forced(&self) -> bool {
        self.0.lock().unwrap().unforced.is_empty()
    }
}

/// Where a disk fails: at the operation of a number, and after it or not.
#[derive(Clone, Copy, Debug)]
struct FailurePoint {
    at: usize,
    fault: Fault,
    lasts: bool,
}

/// A disk that fails by a plan, with what it was asked.
fn disk(plan: Option<FailurePoint>) -> (Disk, Log) {
    let log = Log::default();
    let seen = log.clone();
    let disk = Disk::failing(move |operation, path| {
        let mut asked = seen.0.lock().unwrap();
        let number = asked.operations.len();
        asked.operations.push((operation, path.to_owned()));
        let plan = plan.filter(|plan| number == plan.at || plan.lasts && number > plan.at);
        // What is interrupted again and again would never end, here as anywhere.
        let fault = plan.map(|plan| plan.fault);
        let fault =
            fault.filter(|it| *it != Fault::Interrupted || Some(number) == plan.map(|it| it.at));
        if matches!(fault, None | Some(Fault::Short)) {
            match operation {
                Operation::Write | Operation::Cut => asked.unforced.push(path.to_owned()),
                Operation::Sync => asked.unforced.retain(|one| one != path),
                _ => {}
            }
        }
        fault
    });
    (disk, log)
}

/// What is done on a disk that may fail; it asserts what must hold all along, and
/// says whether all of it was confirmed.
type Story = fn(&Disk, &Scratch) -> bool;

/// How often each kind of operation failed in each way, and how often that was told.
#[derive(Default)]
struct Table(BTreeMap<(Operation, Fault), (usize, usize)>);

/// Plays a story once for every operation, every way to fail, and both ways to go on.
fn play(name: &str, story: Story, table: &mut Table) {
    let (well, log) = disk(None);
    let scratch = Scratch::new(&format!("failing-{name}"));
    assert!(story(&well, &scratch), "{name}: on a disk that is well");
    let operations = log.0.lock().unwrap().operations.clone();
    drop(scratch);
    for (at, (operation, _)) in operations.iter().enumerate() {
        for fault in Fault::ALL {
            for lasts in [false, true] {
                let scratch = Scratch::new(&format!("failing-{name}"));
                let plan = FailurePoint { at, fault, lasts };
                let is_confirmed = story(&disk(Some(plan)).0, &scratch);
                let harmless = matches!(fault, Fault::Interrupted | Fault::Short);
                assert!(is_confirmed || !harmless, "{name}: {operation:?} {plan:?}");
                let row = table.0.entry((*operation, fault)).or_default();
                row.0 += 1;
                row.1 += usize::from(!is_confirmed);
            }
        }
    }
}

const WAS: &str = "rim 2.4\n";

/// A case is saved; what failed is tried again.
fn a_save(disk: &Disk, scratch: &Scratch) -> bool {
    let path = scratch.path("case.ron");
    fs::write(&path, WAS).unwrap();
    let was = Digest::of(WAS.as_bytes());
    let saved = save(disk, &path, "rim 1.9\n", Expect::Same(was));
    let text = fs::read_to_string(&path).unwrap();
    assert!(
        ["rim 1.9\n", WAS].contains(&text.as_str()),
        "{text:?} is no whole text"
    );
    if saved.is_ok() {
        assert_eq!(text, "rim 1.9\n");
    }
    // Whatever failed: once the disk is well it is saved, and nobody is asked.
    save(&Disk::default(), &path, "rim 1.9\n", Expect::Same(was)).unwrap();
    assert_eq!(fs::read_to_string(&path).unwrap(), "rim 1.9\n");
    saved.is_ok()
}

/// Changes are recorded, a row of nudges among them, forced to disk, and found.
fn a_journal(disk: &Disk, scratch: &Scratch) -> bool {
    let case = scratch.path("case.ron");
    fs::write(&case, WAS).unwrap();
    let mut journal = Journal::new(disk, &case, WAS);
    let changes = [
        ("2.4→1.9", "rim 1.9\n", false),
        ("1.9→2.0", "rim 2.0\n", false),
        ("1.9→2.1", "rim 2.1\n", true),
        ("title", "title: a long one\nrim 2.1\n", false),
    ];
    let mut confirmed = None;
    let mut all = true;
    for (called, text, goes_on) in changes {
        let recorded = journal.record(called, text, goes_on).is_ok();
        let forced = journal.force().is_ok();
        if recorded {
            confirmed = Some(text);
        }
        all &= recorded && forced;
        // Killed here, what was confirmed is found.
        let found = Recovery::find(&Disk::default(), &case, Some(WAS)).unwrap();
        let found = found.map(|found| found.text);
        assert_eq!(found.as_deref(), confirmed, "after {called}");
    }
    // Once the disk is well, what was not taken is, and the rest is forced.
    drop(journal);
    let on_disk = fs::read_to_string(&case).unwrap();
    assert_eq!(on_disk, WAS);
    all
}

/// Cases are noted as open.
fn a_recent_list(disk: &Disk, scratch: &Scratch) -> bool {
    let path = scratch.path("state/recent.ron");
    let recent = Recent::new(disk.clone(), path.clone());
    let noted = ["/a.ron", "/b.ron"].map(|case| recent.note(Path::new(case)));
    let cases = Recent::new(Disk::default(), path).cases();
    let names: Vec<&str> = cases.iter().filter_map(|it| it.to_str()).collect();
    let whole: [&[&str]; 4] = [&[], &["/a.ron"], &["/b.ron"], &["/b.ron", "/a.ron"]];
    assert!(whole.contains(&names.as_slice()), "{names:?}");
    if noted[1].is_ok() {
        assert_eq!(names.first(), Some(&"/b.ron"));
    }
    noted.iter().all(Result::is_ok)
}

/// The user's own catalogue is written into a folder that is not there yet.
fn an_own_catalogue(disk: &Disk, scratch: &Scratch) -> bool {
    let path = scratch.path("settings/shapes.ron");
    let mut expect = Expect::NoFile;
    let mut all = true;
    let mut before = None;
    for text in ["one", "two"] {
        let saved = save_in_own_folder(disk, &path, text, expect);
        let now = fs::read_to_string(&path).ok();
        assert!(now.as_deref() == Some(text) || now == before, "{now:?}");
        if let Ok(saved) = &saved {
            assert_eq!(now.as_deref(), Some(text));
            expect = Expect::Same(saved.digest);
        } else {
            expect = Expect::Anything;
        }
        all &= saved.is_ok();
        before = now;
    }
    all
}

/// A case is entered and left.
fn a_presence(disk: &Disk, scratch: &Scratch) -> bool {
    let case = scratch.path("case.ron");
    let entered = Presence::enter(disk, &case);
    let is_alone = match &entered {
        Ok(EntryOutcome::Alone(_)) => {
            let other = Presence::enter(&Disk::default(), &case);
            assert!(
                matches!(other, Ok(EntryOutcome::Held(_))),
                "held, and not told"
            );
            true
        }
        // Nobody is told to be alone who may not be.
        Ok(EntryOutcome::Held(_)) | Err(_) => false,
    };
    drop(entered);
    // Whatever is left of it holds nobody up.
    let again = Presence::enter(&Disk::default(), &case);
    assert!(matches!(again, Ok(EntryOutcome::Alone(_))), "{again:?}");
    is_alone
}

#[test]
fn whatever_operation_fails_nothing_confirmed_is_lost() {
    let mut table = Table::default();
    let stories: [(&str, Story); 5] = [
        ("save", a_save),
        ("journal", a_journal),
        ("recent", a_recent_list),
        ("own", an_own_catalogue),
        ("presence", a_presence),
    ];
    for (name, story) in stories {
        play(name, story, &mut table);
    }
    println!("operation   fault        failed  told  lost");
    for ((operation, fault), (failed, told)) in &table.0 {
        // Lost would have failed an assertion of its story.
        let (operation, fault) = (format!("{operation:?}"), format!("{fault:?}"));
        println!("{operation:<12}{fault:<12}{failed:>7}{told:>6}{:>6}", 0);
    }
    for operation in Operation::ALL {
        let is_asked = table.0.contains_key(&(operation, Fault::Broken));
        assert!(is_asked, "no story asks for {operation:?}");
    }
}

#[test]
fn what_is_saved_or_forced_is_on_disk() {
    let scratch = Scratch::new("failing-forced");
    let (disk, log) = disk(None);
    let path = scratch.path("case.ron");
    save(&disk, &path, WAS, Expect::NoFile).unwrap();
    assert!(log.is_forced());
    let syncs = [log.count(Operation::Sync), log.count(Operation::SyncFolder)];
    assert_eq!(syncs, [1, 1], "the text, then its name");

    let mut journal = Journal::new(&disk, &path, WAS);
    journal.record("a", "rim 1\n", false).unwrap();
    assert!(log.is_forced(), "a new journal");
    for (value, goes_on) in [("2", false), ("3", true), ("4", true)] {
        journal
            .record("b", &format!("rim {value}\n"), goes_on)
            .unwrap();
        assert!(!log.is_forced(), "the system's, not yet on disk");
    }
    let before = log.count(Operation::Sync);
    journal.force().unwrap();
    assert!(log.is_forced());
    assert_eq!(
        log.count(Operation::Sync) - before,
        1,
        "a row is forced once"
    );
    journal.force().unwrap();
    assert_eq!(
        log.count(Operation::Sync) - before,
        1,
        "nothing is left to force"
    );
}

/// A system that could not force bytes to disk may take them for forced from then
/// on: only a new file is known to be there.
#[test]
fn what_could_not_be_forced_is_written_anew() {
    let scratch = Scratch::new("failing-sync");
    let case = scratch.path("case.ron");
    fs::write(&case, WAS).unwrap();
    let fails = Arc::new(Mutex::new(0));
    let counter = Arc::clone(&fails);
    let disk = Disk::failing(move |operation, path| {
        let mut fails = counter.lock().unwrap();
        let is_journal = path
            .to_str()
            .is_some_and(|it| it.ends_with("rimwise-journal"));
        (operation == Operation::Sync && is_journal && *fails > 0).then(|| {
            *fails -= 1;
            Fault::Broken
        })
    });
    let mut journal = Journal::new(&disk, &case, WAS);
    journal.record("a", "rim 1\n", false).unwrap();
    journal.force().unwrap();
    journal.record("b", "rim 2\n", false).unwrap();
    *fails.lock().unwrap() = 1;
    let inode = |path: &Path| std::os::unix::fs::MetadataExt::ino(&fs::metadata(path).unwrap());
    let path = journal_of(&case);
    let before = inode(&path);
    journal.force().unwrap();
    assert_ne!(
        inode(&path),
        before,
        "forced again without being written anew"
    );
    // And it goes on in the new file.
    journal.record("c", "rim 3\n", false).unwrap();
    let found = Recovery::find(&Disk::default(), &case, Some(WAS))
        .unwrap()
        .unwrap();
    assert_eq!((found.changes.len(), found.text.as_str()), (3, "rim 3\n"));
}
