use super::*;
use crate::scratch::Scratch;
use proptest::prelude::*;
use std::fs::{self, File};
use std::os::unix::fs::PermissionsExt;

const CHANGES: [(&str, &str); 4] = [
    ("aortic rim: 2.4 mm → 1.9 mm", "rim 1.9\n"),
    ("aortic rim: 1.9 mm → 2 mm", "rim 2\n"),
    ("title: Ä\u{1b}[2J", "title Ä\nrim 2\n"),
    ("reading \"weight\" taken out", "rim 2\n"),
];
const TEXT: &str = "rim 2.4\n";

/// A file that takes no byte: what a full disk does.
fn full() -> DiskFile {
    let full = File::options().write(true).open("/dev/full").unwrap();
    Disk::default().file(Path::new("/dev/full"), full)
}

/// A journal that died with all the changes in it, and its bytes.
fn died(scratch: &Scratch) -> (PathBuf, PathBuf, Vec<u8>) {
    let case = scratch.path("case.ron");
    fs::write(&case, TEXT).unwrap();
    let mut journal = Journal::new(&Disk::default(), &case, TEXT);
    for (called, text) in CHANGES {
        journal.record(called, text, false).unwrap();
    }
    let path = scratch.path(".case.ron.rimwise-journal");
    let bytes = fs::read(&path).unwrap();
    (case, path, bytes)
}

fn find(case: &Path) -> Option<Recovery> {
    let on_disk = fs::read_to_string(case).ok();
    Recovery::find(&Disk::default(), case, on_disk.as_deref()).unwrap()
}

fn called(count: usize) -> Vec<String> {
    let changes = CHANGES.iter().take(count);
    changes
        .map(|(called, _)| crate::visible(called).into_owned())
        .collect()
}

#[test]
fn what_was_confirmed_is_found_and_gone_on_with() {
    let scratch = Scratch::new("journal-found");
    let (case, ..) = died(&scratch);
    let found = find(&case).unwrap();
    assert_eq!(found.changes, called(4));
    assert_eq!(found.text, CHANGES[3].1);
    assert_eq!((found.ground, found.torn), (Ground::Theirs, 0));
    let mut journal = found.restore().unwrap();
    journal.record("one more", "rim 3\n", false).unwrap();
    drop(journal);
    let found = find(&case).unwrap();
    assert_eq!((found.changes.len(), found.text.as_str()), (5, "rim 3\n"));
    found.discard().unwrap();
    assert!(find(&case).is_none());
    assert_eq!(scratch.names(), ["case.ron"]);
}

#[test]
fn what_was_saved_is_not_restored() {
    let scratch = Scratch::new("journal-saved");
    let (case, path, bytes) = died(&scratch);
    let mut journal = find(&case).unwrap().restore().unwrap();
    fs::write(&case, journal.text()).unwrap();
    // Killed between the save and the drop of the journal.
    assert!(find(&case).is_none());
    let text = journal.text().to_owned();
    journal.saved(&text).unwrap();
    assert_eq!(scratch.names(), ["case.ron"]);
    // Saved before the last two changes, the later text the same as an earlier one.
    fs::write(&path, &bytes).unwrap();
    fs::write(&case, CHANGES[2].1).unwrap();
    let found = find(&case).unwrap();
    assert_eq!(found.changes, called(4)[3..]);
    assert_eq!(found.ground, Ground::Theirs);
    // Changes that lead back to what is on disk are nothing to restore.
    fs::write(&case, CHANGES[1].1).unwrap();
    assert!(find(&case).is_none());
}

#[test]
fn another_text_on_disk_is_told() {
    let scratch = Scratch::new("journal-other");
    let (case, ..) = died(&scratch);
    fs::write(&case, "by hand").unwrap();
    let found = find(&case).unwrap();
    assert_eq!((found.ground, found.changes.len()), (Ground::Other, 4));
    fs::remove_file(&case).unwrap();
    let found = find(&case).unwrap();
    assert_eq!(
        (found.ground, found.text.as_str()),
        (Ground::Other, CHANGES[3].1)
    );
}

#[test]
fn cut_at_any_byte_what_is_whole_is_restored() {
    let scratch = Scratch::new("journal-cut");
    let (case, path, bytes) = died(&scratch);
    let mut most = 0;
    for length in 0..=bytes.len() {
        fs::write(&path, &bytes[..length]).unwrap();
        let found = match Recovery::find(&Disk::default(), &case, Some(TEXT)) {
            Ok(found) => found,
            Err(error) => {
                assert!(matches!(error, JournalError::Broken { .. }) && most == 0);
                continue;
            }
        };
        let count = found.as_ref().map_or(0, |found| found.changes.len());
        assert!(count == most || count == most + 1);
        most = count;
        let Some(found) = found else { continue };
        assert_eq!(
            (found.changes.as_slice(), found.text.as_str()),
            (&called(count)[..], CHANGES[count - 1].1)
        );
        // What was torn is written over by what comes next.
        let mut journal = found.restore().unwrap();
        journal.record("next", "next\n", false).unwrap();
        let again = find(&case).unwrap();
        assert_eq!(
            (again.changes.len(), again.text.as_str(), again.torn),
            (count + 1, "next\n", 0)
        );
    }
    assert_eq!(most, CHANGES.len());
}

#[test]
fn any_bit_flipped_restores_nothing_wrong() {
    let scratch = Scratch::new("journal-flip");
    let (_, _, bytes) = died(&scratch);
    for bit in 0..bytes.len() * 8 {
        let mut flipped = bytes.clone();
        flipped[bit / 8] ^= 1 << (bit % 8);
        check(&flipped);
    }
}

/// Whatever is read is a beginning of what was recorded.
fn check(bytes: &[u8]) {
    let Some(whole) = record::read(bytes, TEXT) else {
        return;
    };
    assert!(whole.length <= bytes.len());
    assert_eq!(whole.on_disk, Some(0), "the text it builds on");
    let count = whole.called.len();
    let last = CHANGES[..count].last().map_or(TEXT, |(_, text)| *text);
    assert_eq!(whole.text, last);
    for (read, (called, _)) in whole.called.iter().zip(CHANGES) {
        assert_eq!(read, called);
    }
}

#[test]
fn it_is_as_private_as_the_file() {
    let scratch = Scratch::new("journal-mode");
    let case = scratch.path("case.ron");
    fs::write(&case, TEXT).unwrap();
    fs::set_permissions(&case, fs::Permissions::from_mode(0o600)).unwrap();
    let mut journal = Journal::new(&Disk::default(), &case, TEXT);
    assert_eq!(scratch.names(), ["case.ron"]);
    journal.record("x", "x", false).unwrap();
    let mode = fs::metadata(scratch.path(".case.ron.rimwise-journal")).unwrap();
    assert_eq!(mode.permissions().mode() & 0o777, 0o600);
}

#[test]
fn what_cannot_be_written_is_told_and_changes_nothing() {
    let scratch = Scratch::new("journal-full");
    let (case, path, bytes) = died(&scratch);
    let mut journal = find(&case).unwrap().restore().unwrap();
    let large = "x".repeat(usize::try_from(CAP).unwrap());
    assert!(matches!(
        journal.record("large", &large, false),
        Err(JournalError::Full)
    ));
    let full = full();
    let kept = journal.file.replace((full, 0));
    let error = journal
        .record("lost", "lost\n", false)
        .unwrap_err()
        .to_string();
    assert!(
        error.contains("not safe") && error.contains("Make room"),
        "{error}"
    );
    assert_eq!(
        (journal.text(), fs::read(&path).unwrap()),
        (CHANGES[3].1, bytes)
    );
    journal.file = kept;
    journal.record("found", "found\n", false).unwrap();
    assert_eq!(find(&case).unwrap().text, "found\n");
    let mut nowhere = Journal::new(&Disk::default(), &scratch.path("none/case.ron"), TEXT);
    assert!(matches!(
        nowhere.record("x", "x", false),
        Err(JournalError::NotWritten(StoreError::NoFolder { .. }))
    ));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_bytes_never_panic(bytes in prop::collection::vec(any::<u8>(), 0..200), keep in 0..300_usize) {
        let mut journal = record::beginning(TEXT);
        let (called, text) = CHANGES[0];
        let patch = Patch::between(TEXT, text);
        journal.extend(record::change(called, &patch, false, &Digest::of(TEXT.as_bytes())).0);
        journal.truncate(keep);
        journal.extend(&bytes);
        check(&journal);
        record::read(&bytes, TEXT);
    }
}

/// What a change is called, the text after it, and whether it goes on with the one
/// before.
type Change = (&'static str, &'static str, bool);

#[test]
fn a_row_of_nudges_is_one_change_and_each_of_it_is_kept() {
    let scratch = Scratch::new("journal-row");
    let case = scratch.path("case.ron");
    let rows: [(&[Change], &[&str]); 6] = [
        (&[("1→2", "2", false), ("1→3", "3", true)], &["1→3"]),
        (
            &[("0→1", "1", false), ("1→2", "2", false), ("1→3", "3", true)],
            &["0→1", "1→3"],
        ),
        // It ends where it began.
        (
            &[("0→1", "1", false), ("1→2", "2", false), ("", "1", true)],
            &["0→1"],
        ),
        (&[("0→1", "1", false), ("", "0", true)], &[]),
        // On its way it passed what is on disk.
        (
            &[("0→1", "1", false), ("1→0", "0", false), ("", "1", true)],
            &["0→1"],
        ),
        // Nothing is there to go on with.
        (&[("0→1", "1", true)], &["0→1"]),
    ];
    for (row, told) in rows {
        fs::write(&case, "0").unwrap();
        let mut journal = Journal::new(&Disk::default(), &case, "0");
        for (called, text, goes_on) in row {
            journal.record(called, text, *goes_on).unwrap();
            let kept = find(&case).map_or_else(|| "0".to_owned(), |found| found.text);
            assert_eq!(&kept, text, "written at once: {row:?}");
        }
        let found = find(&case);
        let changes = found.map(|found| found.changes).unwrap_or_default();
        assert_eq!(changes, told, "{row:?}");
        journal.saved("0").unwrap();
    }
}

#[test]
fn what_was_not_written_is_not_gone_on_with() {
    let scratch = Scratch::new("journal-row-full");
    let (case, ..) = died(&scratch);
    let mut journal = find(&case).unwrap().restore().unwrap();
    let full = full();
    let kept = journal.file.replace((full, 0));
    assert!(journal.record("2→3", "rim 3\n", false).is_err());
    journal.file = kept;
    journal.record("2→4", "rim 4\n", true).unwrap();
    let found = find(&case).unwrap();
    assert_eq!((found.changes.len(), found.text.as_str()), (5, "rim 4\n"));
}

#[test]
fn the_work_of_reading_a_journal_has_a_bound_that_its_writer_keeps() {
    let scratch = Scratch::new("journal-work");
    let (case, path, _) = died(&scratch);
    let mut journal = find(&case).unwrap().restore().unwrap();
    assert_eq!(
        journal.work,
        CHANGES.iter().map(|it| it.1.len() as u64).sum()
    );
    journal.work = WORK - 5;
    assert!(matches!(
        journal.record("rim", "rim 4\n", false),
        Err(JournalError::Full)
    ));
    assert_eq!(find(&case).unwrap().text, CHANGES[3].1);

    // Planted by hand: a mebibyte that is made another again and again.
    let text = "x".repeat(1024 * 1024);
    let mut bytes = record::beginning(&text);
    let mut sum = Digest::of(text.as_bytes());
    for change in 0..2 * WORK / text.len() as u64 {
        let patch = Patch {
            gone: 0..1,
            come: char::from(b'a' + u8::try_from(change % 26).unwrap()).to_string(),
        };
        let (change, next) = record::change("", &patch, false, &sum);
        bytes.extend(change);
        sum = next;
    }
    fs::write(&path, bytes).unwrap();
    let found = Recovery::find(&Disk::default(), &case, Some(&text));
    assert!(matches!(found, Err(JournalError::Broken { .. })));
}

#[test]
fn a_case_that_was_never_saved_is_found() {
    let scratch = Scratch::new("journal-new");
    let case = scratch.path("new.ron");
    Journal::new(&Disk::default(), &case, "")
        .record("a new case", TEXT, false)
        .unwrap();
    let found = find(&case).unwrap();
    assert_eq!((found.ground, found.text.as_str()), (Ground::Theirs, TEXT));
}
