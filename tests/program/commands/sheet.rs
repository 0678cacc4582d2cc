//! `rimwise sheet`, as its users call it.

use crate::call::{Call, complaint, text};
use crate::desk::Desk;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

const DEMONSTRATION: &str = "outlet-infant";

fn rimwise(arguments: &[&str], folder: &Path) -> Output {
    Call::of(arguments).few_draws().within(folder).output()
}

/// The calls that `--help` and the manual give as examples do what they say.
#[test]
fn every_example_of_the_help_can_be_called() {
    let desk = Desk::new("sheet-examples");
    let folder = desk.folder();
    let scenarios = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/");
    let monday = fs::read_to_string(format!("{scenarios}outlet-infant.ron")).expect("a case");
    fs::write(folder.join("monday.ron"), &monday).expect("a file");
    let friday = monday.replacen("value: 4.6", "value: 5.0", 1);
    assert_ne!(monday, friday);
    fs::write(folder.join("friday.ron"), friday).expect("a file");
    let manual = text(&["manual"]);
    let mut called = 0;
    for command in ["compare", "draw", "sheet", "lesson"] {
        let help = text(&[command, "--help"]);
        assert!(help.contains("The decision, the implant's own"), "{help}");
        let examples = help
            .lines()
            .filter_map(|line| line.strip_prefix("  rimwise "));
        let mut of_this = 0;
        for example in examples {
            assert!(manual.replace('\\', "").contains(example), "{example}");
            let words: Vec<&str> = example.split(' ').collect();
            // A lesson has its own draws.
            let output = match command {
                "lesson" => Call::of(&words).within(folder).output(),
                _ => rimwise(&words, folder),
            };
            assert!(output.status.success(), "{example}: {}", complaint(&output));
            let written = match words.iter().position(|word| *word == "--out") {
                Some(index) => fs::read(folder.join(words[index + 1])).expect("a file"),
                None => output.stdout,
            };
            assert!(written.len() > 500, "{example}");
            of_this += 1;
        }
        assert!(of_this >= 2, "{help}");
        called += of_this;
    }
    assert!(called >= 10, "{called} examples");
}

#[test]
fn a_bad_file_is_named_and_the_rest_is_done() {
    let desk = Desk::new("sheet-several");
    let folder = desk.folder();
    fs::write(folder.join("bad.ron"), "(format: 2, title: 3)").expect("a file");
    let output = rimwise(
        &[
            "sheet",
            DEMONSTRATION,
            "bad.ron",
            "no-such-case",
            "slit",
            "--out",
            "week.pdf",
        ],
        folder,
    );
    assert_eq!(output.status.code(), Some(2), "{}", complaint(&output));
    assert!(
        complaint(&output).contains("bad.ron"),
        "{}",
        complaint(&output)
    );
    assert!(
        complaint(&output).contains("no-such-case"),
        "{}",
        complaint(&output)
    );
    let file = fs::read(folder.join("week.pdf")).expect("the rest");
    assert!(file.starts_with(b"%PDF-1.7"));
    let text = rimwise(&["sheet", DEMONSTRATION, "bad.ron", "slit"], folder);
    assert_eq!(text.status.code(), Some(2));
    let text = String::from_utf8(text.stdout).expect("UTF-8");
    assert!(
        text.contains("Files without a sheet") && text.contains("bad.ron"),
        "{text}"
    );
    assert!(text.contains("short aortic rim"), "{text}");
    // Where nothing is left nothing is written.
    let none = rimwise(
        &["sheet", "bad.ron", "no-such-case", "--out", "none.pdf"],
        folder,
    );
    assert_eq!(none.status.code(), Some(2));
    assert!(!folder.join("none.pdf").exists());
}

#[test]
fn what_cannot_be_done_is_refused_with_the_remedy() {
    let desk = Desk::new("sheet-refused");
    let folder = desk.folder();
    let five = ["even/5x3"; 5].map(|size| ["--size", size]).concat();
    let calls: [(&[&str], &str); 4] = [
        (&["--out", "sheet.doc"], "add --format pdf, html or text"),
        (&["--size", "no/such"], "shapes are:"),
        (&["slit", "--size", "even/5x3"], "leave it out"),
        (&five, "room for 4 sizes"),
    ];
    for (more, remedy) in calls {
        let arguments = [&["sheet", DEMONSTRATION], more].concat();
        let output = rimwise(&arguments, folder);
        assert_eq!(output.status.code(), Some(2), "{more:?}");
        assert!(
            complaint(&output).contains(remedy),
            "{more:?}: {}",
            complaint(&output)
        );
    }
}

#[test]
fn every_run_writes_the_same_bytes() {
    let desk = Desk::new("sheet-bytes");
    let folder = desk.folder();
    for format in ["pdf", "html", "text"] {
        let call = ["sheet", DEMONSTRATION, "--format", format];
        let first = rimwise(&call, folder).stdout;
        assert!(first.len() > 1000, "{format}");
        assert!(first == rimwise(&call, folder).stdout, "{format}");
    }
}

/// What others say of the file, where they are installed.
#[test]
fn other_readers_find_the_file_whole_tagged_and_with_its_faces() {
    let desk = Desk::new("sheet-readers");
    let folder = desk.folder();
    let call = ["sheet", DEMONSTRATION, "slit", "--out", "sheet.pdf"];
    assert!(rimwise(&call, folder).status.success());
    let ask = |program: &str, arguments: &[&str]| {
        let asked = Command::new(program)
            .args(arguments)
            .arg(folder.join("sheet.pdf"))
            .output();
        let Ok(output) = asked else {
            eprintln!("skipped: {program} is not installed");
            return None;
        };
        assert!(output.status.success(), "{program}: {output:?}");
        Some(String::from_utf8_lossy(&output.stdout).into_owned())
    };
    if let Some(says) = ask("qpdf", &["--check"]) {
        assert!(
            says.contains("No syntax or stream encoding errors"),
            "{says}"
        );
    }
    if let Some(says) = ask("pdffonts", &[]) {
        let faces: Vec<&str> = says.lines().skip(2).collect();
        assert_eq!(faces.len(), 2, "{says}");
        assert!(
            faces.iter().all(|face| face.contains("yes yes yes")),
            "{says}"
        );
    }
    if let Some(says) = ask("pdfinfo", &["-struct-text"]) {
        for tag in ["Document", "H1", "Figure", "H2", "Table", "TH", "TD"] {
            assert!(says.contains(tag), "{tag}: {says}");
        }
    }
    if let Some(says) = ask("pdfinfo", &[]) {
        assert!(says.contains("Tagged:          yes"), "{says}");
        assert!(!says.contains("CreationDate"), "{says}");
    }
}

/// What changed since the conference, and a guard against an old sheet on the wall.
#[test]
fn a_later_state_says_in_what_it_differs() {
    let desk = Desk::new("sheet-states");
    let folder = desk.folder();
    let text = files::shipped::scenario(DEMONSTRATION).expect("a case").1;
    fs::write(folder.join("old.ron"), text).expect("a file");
    let rim = "of: \"aortic.rim\", value: 1.5";
    assert!(text.contains(rim), "the reading that is changed");
    let later = text.replace(rim, "of: \"aortic.rim\", value: 2.6");
    fs::write(folder.join("new.ron"), later).expect("a file");
    let says = |arguments: &[&str]| {
        let output = rimwise(arguments, folder);
        assert!(output.status.success(), "{}", complaint(&output));
        let text = String::from_utf8(output.stdout).expect("UTF-8");
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let compared = says(&["compare", "old.ron", "--with", "new.ron"]);
    assert!(
        compared.contains("(aortic-rim-long): 1.5 mm → 2.6 mm"),
        "{compared}"
    );
    assert!(compared.contains("Differs in 1 reading and "), "{compared}");
    let same = says(&["compare", "old.ron", "--with", "old.ron"]);
    assert!(same.contains("Differs in nothing."), "{same}");
    // The sheet names the earlier state by what `rank` prints of it.
    let ranked = says(&["rank", "old.ron"]);
    let digest = ranked.rsplit(' ').next().expect("a digest");
    let sheet = says(&["sheet", "new.ron", "--since", "old.ron"]);
    let line = format!("Differs from the earlier state, inputs {digest}, in 1 reading and ");
    assert!(sheet.contains(&line), "{line} in {sheet}");
    assert!(
        !sheet.contains("old.ron"),
        "a file's name may name a patient"
    );
}
