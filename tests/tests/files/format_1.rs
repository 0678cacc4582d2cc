//! Files of version 0.1: each opens, says the same in today's words, and is ranked
//! as it was before format 2.
//!
//! The files are those that 0.1 shipped. `old/rankings.txt` was written by the
//! program as it was before format 2, from the same cases, catalogue and rules.

#![expect(clippy::unwrap_used, reason = "what fails here fails a test")]

use files::{
    Diagnostic, Disk, FileKind, Ground, Recovery, in_todays_words, parse_case, parse_catalogue,
    parse_guidance, parse_house_rules, parse_lesson,
};
use measurement::Quantity;
use sizing::engine::{Engine, Fast};
use sizing::{Draws, Neighbour, Work, rank};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Draws of the rankings that are compared.
const DRAWS: usize = 1024;

/// Every file of 0.1 by its name.
fn files_of_0_1() -> BTreeMap<String, String> {
    let folder = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/files/old"));
    let mut found = BTreeMap::new();
    for folder in [folder.to_owned(), folder.join("scenarios")] {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_some_and(|it| it == "ron") {
                let name = path.file_name().unwrap().to_str().unwrap().to_owned();
                found.insert(name, fs::read_to_string(&path).unwrap());
            }
        }
    }
    assert_eq!(found.len(), 19);
    found
}

/// Comments, and how many lines there are.
fn layout(text: &str) -> (Vec<&str>, usize) {
    let comments = text.lines().filter(|line| line.contains("//"));
    let comments = comments.filter_map(|line| line.split_once("//"));
    (comments.map(|(_, it)| it).collect(), text.lines().count())
}

#[test]
fn each_opens_and_says_the_same_in_todays_words() {
    for (name, old) in files_of_0_1() {
        let new = in_todays_words(&name, &old).unwrap().unwrap();
        assert!(new.contains("format: 2,"), "{name}");
        assert_eq!(layout(&old), layout(&new), "{name}");
        assert_eq!(in_todays_words(&name, &new).unwrap(), None, "{name}");
        let is_same = match FileKind::of(&old) {
            FileKind::Case => {
                parse_case(&name, &old).unwrap().value() == parse_case(&name, &new).unwrap().value()
            }
            FileKind::Catalogue => {
                let read = |text| parse_catalogue(&name, text).unwrap().into_value();
                read(&old) == read(&new)
            }
            FileKind::HouseRules => {
                let read = |text| parse_house_rules(&name, text).unwrap().into_value();
                read(&old) == read(&new)
            }
            FileKind::Guidance => {
                let read = |text| parse_guidance(&name, text).unwrap().into_value();
                read(&old) == read(&new)
            }
            FileKind::Lesson => unreachable!("0.1 had no lessons"),
        };
        assert!(is_same, "{name}");
    }
}

#[test]
fn each_case_is_ranked_as_it_was_under_the_same_rules() {
    let files = files_of_0_1();
    let read = |name: &str| files[name].as_str();
    let rules = parse_house_rules("rules", read("house_rules.ron")).unwrap();
    let shapes = parse_catalogue("shapes", read("shapes.ron")).unwrap();
    let (rules, shapes) = (Arc::new(rules.into_value()), shapes.into_value());
    let guidance = outside::sample::shipped_limits();
    let (mut expected, mut count) = (include_str!("old/rankings.txt").lines(), 0);
    for expected in expected.by_ref().filter(|line| !line.starts_with('#')) {
        let (name, expected) = expected.split_once(": ").unwrap();
        let case = parse_case(name, read(&format!("{name}.ron"))).unwrap();
        let case = Arc::new(case.into_value());
        let setting = Arc::new(files::setting(case, rules.clone(), Some(&guidance)));
        let counter = Fast.prepare(Draws::new(&setting, DRAWS, 1).unwrap());
        let never = AtomicBool::new(false);
        let work = Work {
            threads: 2,
            cancel: &never,
        };
        let list = rank(
            &setting,
            std::slice::from_ref(&shapes),
            Some(&*counter),
            &work,
        )
        .unwrap();
        let (mut text, mut verdicts) = (String::new(), BTreeMap::new());
        for one in &list.candidates {
            let verdict = one.judged.verdict.word();
            *verdicts.entry(verdict).or_insert(0) += 1;
            let chance = one.chances.as_ref().map_or_else(
                || "-".to_owned(),
                |chances| format!("{:.6}", chances.chance.value),
            );
            let (shape, size) = (&one.shape, &one.size.label);
            writeln!(text, "{shape}/{size} {verdict} {chance}").unwrap();
        }
        let of = |verdict| verdicts.get(verdict).copied().unwrap_or(0);
        let said = format!(
            "{}, {} {} {} {}, {:016x}",
            list.candidates.len(),
            of("fits"),
            of("borderline"),
            of("not rated"),
            of("does not fit"),
            digest(&text),
        );
        assert_eq!(said, expected, "{name}\n{text}");
        count += 1;
    }
    assert_eq!(count, 16);
}

/// The 64-bit FNV-1a digest of a text.
fn digest(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |digest, byte| {
        (digest ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// What the files of 0.1 cannot have is the shipped file's, and this is said.
#[test]
fn old_rules_are_lent_what_came_later() {
    let old = &files_of_0_1()["house_rules.ron"];
    let rules = parse_house_rules("house_rules.ron", old).unwrap();
    let (rules, shipped) = (rules.value(), outside::sample::shipped_rules());
    for list in ["measured_first", "caps", "observations", "model_errors"] {
        assert!(rules.from_shipped.contains(&list), "{list}");
    }
    assert_eq!(rules.model_errors, shipped.model_errors);
    assert_eq!(rules.observations, shipped.observations);
}

fn first(faults: Vec<Diagnostic>) -> String {
    faults.into_iter().next().unwrap().to_string()
}

#[test]
fn a_file_that_mixes_words_is_told_the_right_one() {
    let old = &files_of_0_1()["slit.ron"];
    let new = in_todays_words("slit.ron", old).unwrap().unwrap();
    for (from, to, says) in [
        (
            "\"defect.rotation\"",
            "\"throat.turn\"",
            "found throat.turn, expected defect.rotation.",
        ),
        ("access: ", "route: ", "access"),
        ("out_of_reach: ", "no_such_neighbour: ", "out_of_reach"),
    ] {
        assert_eq!(new.matches(from).count(), 1, "{from}");
        let fault = first(parse_case("slit.ron", &new.replace(from, to)).unwrap_err());
        assert!(
            fault.contains(says) && fault.contains("format 1"),
            "{fault}"
        );
        let fault = first(parse_case("slit.ron", &old.replace(to, from)).unwrap_err());
        assert!(fault.contains("format 2"), "{fault}");
    }
}

/// Any word of format 1 left in a file of format 2.
#[test]
fn each_old_word_in_a_file_of_format_2_is_told_todays() {
    let mut told = 0;
    for (name, old) in files_of_0_1() {
        let new = in_todays_words(&name, &old).unwrap().unwrap();
        let lines: Vec<&str> = new.lines().collect();
        for (index, (was, is)) in old.lines().zip(&lines).enumerate() {
            if was == *is || was.contains("format: 1") {
                continue;
            }
            let mut mixed = lines.clone();
            mixed[index] = was;
            let fault = first(faults(&name, &mixed.join("\n")));
            let at = format!("{name}:{}:", index + 1);
            assert!(fault.starts_with(&at), "{fault}");
            let expected = fault.split(", expected ").nth(1).unwrap();
            let expected = expected.split(". ").next().unwrap();
            assert!(is.contains(expected) && !was.contains(expected), "{fault}");
            assert!(fault.contains("is a word of format 1"), "{fault}");
            told += 1;
        }
    }
    assert!(told > 100, "{told}");
}

/// The faults of a file of any kind.
fn faults(name: &str, text: &str) -> Vec<Diagnostic> {
    match FileKind::of(text) {
        FileKind::Case => parse_case(name, text).unwrap_err(),
        FileKind::Catalogue => parse_catalogue(name, text).unwrap_err(),
        FileKind::HouseRules => parse_house_rules(name, text).unwrap_err(),
        FileKind::Guidance => parse_guidance(name, text).unwrap_err(),
        FileKind::Lesson => parse_lesson(name, text).unwrap_err(),
    }
}

/// A window of 0.1 was killed over three changes: their journal, with old words in
/// what it puts in and takes out.
#[test]
fn a_journal_of_0_1_is_restored_and_its_case_saved_in_todays_words() {
    let old = &files_of_0_1()["slit.ron"];
    let folder = std::env::temp_dir().join(format!("rimwise-old-journal-{}", std::process::id()));
    fs::create_dir_all(&folder).unwrap();
    let path = folder.join("case.ron");
    fs::write(&path, old).unwrap();
    let journal = include_bytes!("old/slit.journal");
    fs::write(folder.join(".case.ron.rimwise-journal"), journal).unwrap();
    let found = Recovery::find(&Disk::default(), &path, Some(old));
    fs::remove_dir_all(&folder).unwrap();
    let found = found.unwrap().unwrap();
    assert_eq!(
        (found.changes.len(), found.ground, found.torn),
        (3, Ground::Theirs, 0)
    );
    let restored = parse_case("case.ron", &found.text).unwrap();
    assert!(found.text.contains("of: \"throat.major\", value: 9.1"));
    let case = restored.value();
    let values = |of: Quantity| {
        let readings = case.readings.iter().filter(move |one| one.quantity == of);
        readings.map(|one| one.value).collect::<Vec<_>>()
    };
    assert_eq!(values(Quantity::DEFECT_LONG_AXIS), [8.5, 9.1]);
    assert!(!case.absent.contains(&Neighbour::LeftOutflow));
    assert!(case.absent.contains(&Neighbour::RightOutflow));
    let saved = restored.saved_with(case).unwrap();
    assert_eq!(saved.value(), case);
    let text = saved.source().original();
    assert_eq!(layout(&found.text), layout(&text));
    assert!(text.contains("format: 2,") && text.contains("of: \"defect.long_axis\", value: 9.1"));
}

#[test]
fn faults_of_an_old_file_are_told_in_its_own_words_and_places() {
    let old = &files_of_0_1()["slit.ron"];
    let line =
        |text: &str, what: &str| 1 + text.lines().position(|line| line.contains(what)).unwrap();
    let wrong = old.replacen(
        "of: \"throat.turn\", value: 35",
        "of: \"throat.turn\", value: 999",
        1,
    );
    let fault = first(parse_case("slit.ron", &wrong).unwrap_err());
    let at = format!("slit.ron:{}:", line(old, "\"throat.turn\""));
    assert!(
        fault.starts_with(&at) && fault.contains("found 999"),
        "{fault}"
    );
    let wrong = old.replacen("route: antegrade", "route: sideways", 1);
    let fault = first(parse_case("slit.ron", &wrong).unwrap_err());
    let at = format!("slit.ron:{}:12: route: found sideways", line(old, "route:"));
    assert!(fault.starts_with(&at), "{fault}");
}
