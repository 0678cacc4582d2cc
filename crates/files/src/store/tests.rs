use super::*;
use crate::scratch::Scratch;
use std::fs::{self, File};
use std::os::unix::fs::{PermissionsExt, symlink};

fn mode(path: &Path) -> u32 {
    fs::metadata(path).unwrap().permissions().mode() & 0o777
}

fn set_mode(path: &Path, mode: u32) {
    fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
}

#[test]
fn a_new_file_and_the_same_again() {
    let scratch = Scratch::new("store-new");
    let path = scratch.path("case.ron");
    let first = save(&Disk::default(), &path, "one", Expect::NoFile)
        .unwrap()
        .digest;
    assert_eq!(
        digest_on_disk(&Disk::default(), &path).unwrap(),
        Some(first)
    );
    let second = save(&Disk::default(), &path, "two", Expect::Same(first))
        .unwrap()
        .digest;
    assert_eq!(
        (fs::read_to_string(&path).unwrap().as_str(), second),
        ("two", Digest::of(b"two"))
    );
    assert_eq!(scratch.names(), ["case.ron"]);
}

#[test]
fn nobodys_work_is_written_over() {
    let scratch = Scratch::new("store-changed");
    let path = scratch.path("case.ron");
    let read = save(&Disk::default(), &path, "read", Expect::NoFile)
        .unwrap()
        .digest;
    fs::write(&path, "theirs").unwrap();
    let kept = |expect| {
        (
            save(&Disk::default(), &path, "mine", expect).unwrap_err(),
            fs::read_to_string(&path).unwrap(),
        )
    };
    assert!(
        matches!(kept(Expect::Same(read)), (StoreError::Changed { .. }, text) if text == "theirs")
    );
    assert!(matches!(kept(Expect::NoFile), (StoreError::Exists { .. }, text) if text == "theirs"));
    save(&Disk::default(), &path, "mine", Expect::Anything).unwrap();
    fs::remove_file(&path).unwrap();
    assert!(matches!(
        save(&Disk::default(), &path, "mine", Expect::Same(read)),
        Err(StoreError::Gone { .. })
    ));
    save(&Disk::default(), &path, "mine", Expect::Anything).unwrap();
    assert_eq!(scratch.names(), ["case.ron"]);
}

#[test]
fn a_file_of_format_1_is_kept_beside_what_is_saved_over_it() {
    let scratch = Scratch::new("store-format-1");
    let path = scratch.path("case.ron");
    let over = |text| save(&Disk::default(), &path, text, Expect::Anything).unwrap();
    let beside = scratch.path("case.ron.format1");
    assert_eq!(over("(format: 1, title: \"a\")").kept, None);
    assert_eq!(over("(format: 1, title: \"b\")").kept, None);
    set_mode(&path, 0o600);
    assert_eq!(over("(format: 2, title: \"b\")").kept, Some(beside.clone()));
    assert_eq!(mode(&beside), 0o600);
    // Once: a second one does not take its place.
    over("(format: 1, title: \"c\")");
    assert_eq!(over("(format: 2, title: \"c\")").kept, None);
    let kept = fs::read_to_string(&beside).unwrap();
    assert_eq!(kept, "(format: 1, title: \"b\")");
}

#[test]
fn the_mode_stays() {
    let scratch = Scratch::new("store-mode");
    let path = scratch.path("case.ron");
    save(&Disk::default(), &path, "x", Expect::NoFile).unwrap();
    for bits in [0o600, 0o644, 0o664, 0o640] {
        set_mode(&path, bits);
        save(&Disk::default(), &path, "y", Expect::Anything).unwrap();
        assert_eq!(mode(&path), bits);
    }
    set_mode(&path, 0o444);
    assert!(matches!(
        save(&Disk::default(), &path, "z", Expect::Anything),
        Err(StoreError::ReadOnly { .. })
    ));
    assert_eq!(fs::read_to_string(&path).unwrap(), "y");
}

#[test]
fn a_link_stays_a_link() {
    let scratch = Scratch::new("store-link");
    fs::create_dir(scratch.path("far")).unwrap();
    let real = scratch.path("far/case.ron");
    fs::write(&real, "was").unwrap();
    for (link, target) in [("a.ron", "far/case.ron"), ("b.ron", "a.ron")] {
        symlink(target, scratch.path(link)).unwrap();
    }
    symlink(scratch.path("far/none.ron"), scratch.path("dangling.ron")).unwrap();
    save(
        &Disk::default(),
        &scratch.path("b.ron"),
        "is",
        Expect::Same(Digest::of(b"was")),
    )
    .unwrap();
    assert_eq!(fs::read_to_string(&real).unwrap(), "is");
    save(
        &Disk::default(),
        &scratch.path("dangling.ron"),
        "new",
        Expect::NoFile,
    )
    .unwrap();
    assert_eq!(
        fs::read_to_string(scratch.path("far/none.ron")).unwrap(),
        "new"
    );
    assert_eq!(scratch.names(), ["a.ron", "b.ron", "dangling.ron", "far"]);
    // A link to itself leads nowhere and is not replaced.
    symlink("loop.ron", scratch.path("loop.ron")).unwrap();
    assert!(
        save(
            &Disk::default(),
            &scratch.path("loop.ron"),
            "x",
            Expect::Anything
        )
        .is_err()
    );
    assert!(
        fs::symlink_metadata(scratch.path("loop.ron"))
            .unwrap()
            .is_symlink()
    );
}

#[test]
fn what_is_no_file_or_has_no_folder_is_refused() {
    let scratch = Scratch::new("store-refused");
    assert!(matches!(
        save(&Disk::default(), scratch.folder(), "x", Expect::Anything),
        Err(StoreError::NotAFile { .. })
    ));
    assert!(matches!(
        save(
            &Disk::default(),
            Path::new("/dev/null"),
            "x",
            Expect::Anything
        ),
        Err(StoreError::NotAFile { .. })
    ));
    let nowhere = scratch.path("none/case.ron");
    assert!(matches!(
        save(&Disk::default(), &nowhere, "x", Expect::NoFile),
        Err(StoreError::NoFolder { .. })
    ));
    let hostile = scratch.path("none/\u{1b}[2J.ron");
    let message = save(&Disk::default(), &hostile, "x", Expect::NoFile)
        .unwrap_err()
        .to_string();
    assert!(
        !message.contains('\u{1b}') && message.contains("[2J.ron"),
        "{message}"
    );
}

#[test]
fn errors_of_the_system_say_what_to_do() {
    let told = |kind: ErrorKind| StoreError::of(Path::new("case.ron"), kind.into()).to_string();
    for (kind, remedy) in [
        (ErrorKind::StorageFull, "Make room"),
        (ErrorKind::QuotaExceeded, "Make room"),
        (ErrorKind::PermissionDenied, "may not be written to"),
        (ErrorKind::ReadOnlyFilesystem, "may not be written to"),
        (ErrorKind::TimedOut, "Save elsewhere"),
    ] {
        assert!(told(kind).contains(remedy), "{}", told(kind));
    }
}

#[test]
fn drafts_left_behind_are_swept() {
    let scratch = Scratch::new("store-drafts");
    let path = scratch.path("case.ron");
    let old = scratch.path(".case.ron.rimwise-draft-1-0");
    let young = scratch.path(".case.ron.rimwise-draft-2-0");
    for draft in [&old, &young] {
        fs::write(draft, "half").unwrap();
    }
    let long_ago = std::time::SystemTime::now() - std::time::Duration::from_hours(2);
    File::options()
        .write(true)
        .open(&old)
        .unwrap()
        .set_modified(long_ago)
        .unwrap();
    save(&Disk::default(), &path, "x", Expect::NoFile).unwrap();
    assert_eq!(scratch.names(), [".case.ron.rimwise-draft-2-0", "case.ron"]);
}

#[test]
fn what_is_written_for_others_replaces_nothing_unasked_and_follows_no_link() {
    let scratch = Scratch::new("store-out");
    let disk = Disk::default();
    let path = scratch.path("sheet.pdf");
    write_out(&disk, &path, b"first", false).unwrap();
    let again = write_out(&disk, &path, b"second", false).unwrap_err();
    assert!(matches!(again, StoreError::Exists { .. }), "{again}");
    assert_eq!(fs::read(&path).unwrap(), b"first");
    set_mode(&path, 0o640);
    write_out(&disk, &path, b"second", true).unwrap();
    assert_eq!(
        (fs::read(&path).unwrap(), mode(&path)),
        (b"second".to_vec(), 0o640)
    );
    // What is no file of its own is never written into, whatever the user said.
    symlink(&path, scratch.path("link.pdf")).unwrap();
    symlink(scratch.path("none"), scratch.path("dangling.pdf")).unwrap();
    fs::create_dir(scratch.path("folder.pdf")).unwrap();
    let fifo = scratch.path("pipe.pdf");
    let made = std::process::Command::new("mkfifo").arg(&fifo).status();
    assert!(made.unwrap().success());
    for name in ["link.pdf", "dangling.pdf", "folder.pdf", "pipe.pdf"] {
        for over in [false, true] {
            let error = write_out(&disk, &scratch.path(name), b"third", over).unwrap_err();
            assert!(
                matches!(error, StoreError::NotAFile { .. }),
                "{name}: {error}"
            );
        }
    }
    assert_eq!(fs::read(&path).unwrap(), b"second");
    let device = write_out(&disk, Path::new("/dev/null"), b"third", true).unwrap_err();
    assert!(matches!(device, StoreError::NotAFile { .. }), "{device}");
    let nowhere = write_out(&disk, &scratch.path("no/sheet.pdf"), b"third", false).unwrap_err();
    assert!(matches!(nowhere, StoreError::NoFolder { .. }), "{nowhere}");
    set_mode(&path, 0o440);
    let kept = write_out(&disk, &path, b"third", true).unwrap_err();
    assert!(matches!(kept, StoreError::ReadOnly { .. }), "{kept}");
}

/// Whatever of the disk fails, what stood there stands there, and no draft is left.
#[test]
fn a_sheet_is_written_whole_or_not_at_all() {
    let scratch = Scratch::new("store-out-failing");
    let path = scratch.path("sheet.pdf");
    for operation in Operation::ALL {
        for fault in [Fault::NoRoom, Fault::Broken] {
            fs::write(&path, "before").unwrap();
            let disk = Disk::failing(move |asked, _| (asked == operation).then_some(fault));
            let written = write_out(&disk, &path, b"after", true);
            let now = fs::read(&path).unwrap();
            match (written, operation) {
                // The name alone was not forced to disk.
                (_, Operation::SyncFolder | Operation::Remove) | (Ok(()), _) => {
                    assert_eq!(now, b"after", "{operation:?}");
                }
                (Err(_), _) => assert_eq!(now, b"before", "{operation:?}"),
            }
            for draft in scratch.names() {
                assert!(
                    draft == "sheet.pdf" || operation == Operation::Remove,
                    "{draft} is left after {operation:?}"
                );
            }
        }
    }
}
