//! What a crash, an editor or someone with an intent leaves beside a case, and in the
//! files that the program keeps for itself.

use crate::held::shown;
use crate::mutants::{every, how_many};
use files::{Disk, KeptLooks, Recent, Recovery, Scores, visible};
use outside::folder::Folder;
use outside::stream::Stream;
use std::fs;

/// A journal whose bytes are other ones: what is offered of it is text that its own
/// checksums vouch for, or nothing.
#[test]
fn a_journal_whatever_stands_in_it() {
    let folder = Folder::new("journal");
    let case = folder.join("case.ron");
    let old = include_str!("../files/old/scenarios/slit.ron");
    fs::write(&case, old).unwrap();
    let journal = include_bytes!("../files/old/slit.journal");
    let beside = folder.join(".case.ron.rimwise-journal");
    for number in 0..how_many().max(1_000) {
        let mut stream = Stream(number);
        let _ = stream.number();
        let mut bytes = journal.to_vec();
        for _ in 0..=stream.place(4) {
            let at = stream.place(bytes.len());
            match stream.place(4) {
                0 => bytes[at] = journal[stream.place(journal.len())],
                1 => bytes.truncate(at),
                2 => bytes.insert(at, journal[stream.place(journal.len())] ^ 0x55),
                _ => {
                    let part = bytes[at..].to_vec();
                    bytes.extend(part);
                }
            }
            if bytes.is_empty() {
                break;
            }
        }
        fs::write(&beside, &bytes).unwrap();
        match Recovery::find(&Disk::default(), &case, Some(old)) {
            Ok(None) => {}
            Ok(Some(found)) => assert!(found.changes.len() <= 3, "{number}"),
            Err(error) => shown(&error.to_string()),
        }
    }
}

/// Lists that are a convenience: what cannot be read of them counts as nothing.
#[test]
fn lists_of_its_own_whatever_stands_in_them() {
    let folder = Folder::new("lists");
    let path = folder.join("list.ron");
    let recent = "// Cases.\n[\"/home/a/one.ron\", \"/home/a/two.ron\"]\n";
    every("recent", &[recent], |text| {
        fs::write(&path, text).unwrap();
        for case in Recent::new(Disk::default(), path.clone()).cases() {
            shown(&visible(&case.to_string_lossy()));
        }
        true
    });
    let looks = "{ \"xterm-256color\": (pictures: \"cells\", colours: \"dark\") }\n";
    every("looks", &[looks], |text| {
        fs::write(&path, text).unwrap();
        let _ = KeptLooks::new(Disk::default(), path.clone()).of("xterm-256color");
        true
    });
    let scores = "// How lessons went.\n{ \"a-wide-waist\": (right: 4, asked: 5) }\n";
    every("scores", &[scores], |text| {
        fs::write(&path, text).unwrap();
        let _ = Scores::new(Disk::default(), path.clone()).of("a-wide-waist");
        true
    });
}
