//! What the program is made of besides its own crates, with the licence of each, on a
//! page that the manual prints.
//!
//! `RIMWISE_LICENCES=1` writes the page anew.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;
use std::process::Command;

/// What stands over the list.
const HEAD: &str = "# Licences

rimwise is under MIT or Apache-2.0, at your choice. The embedded face is a subset of \
Liberation Sans, under the SIL Open Font License 1.1. What else the program is built from, on \
any system, made from `cargo tree` and held to it by a test:

";

/// Every crate that the program is built from and that is not its own.
fn dependencies() -> BTreeSet<String> {
    let project = concat!(env!("CARGO_MANIFEST_DIR"), "/..");
    let asked = [
        "tree",
        "-p",
        "rimwise",
        "-e",
        "normal",
        "--target",
        "all",
        "--prefix",
        "none",
        "--format",
        "{p}\t{l}",
        "--locked",
        "--offline",
    ];
    let told = Command::new(env!("CARGO"))
        .args(asked)
        .current_dir(project)
        .output()
        .expect("cargo");
    let told = String::from_utf8(told.stdout).expect("text");
    let lines = told.lines().filter(|line| !line.contains(" (/"));
    lines
        .filter_map(|line| line.trim_end_matches(" (*)").split_once('\t'))
        .map(|(name, licence)| {
            let name = name.trim_end_matches(" (proc-macro)").replace(" v", " ");
            format!("- {name}: {}", licence.replace('/', " OR "))
        })
        .collect()
}

#[test]
fn the_page_of_licences_has_every_crate_of_the_program() {
    let path = PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../docs/licences.md"));
    let all = dependencies();
    if all.is_empty() {
        // Cargo tells nothing where a crate of another system was never fetched.
        eprintln!("skipped: cargo tree tells nothing offline");
        return;
    }
    assert!(all.len() > 50, "{all:?}");
    assert!(all.iter().all(|line| !line.ends_with(": ")), "{all:?}");
    let lines: Vec<String> = all.into_iter().collect();
    let page = format!("{HEAD}{}\n", lines.join("\n"));
    if std::env::var_os("RIMWISE_LICENCES").is_some() {
        fs::write(&path, &page).expect("it is written");
    }
    let kept = fs::read_to_string(&path).expect("the page");
    assert!(
        kept == page,
        "docs/licences.md is not of today: run this test with RIMWISE_LICENCES=1"
    );
}
