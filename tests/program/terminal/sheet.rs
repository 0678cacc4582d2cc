//! The sheet for the team, written from the screen.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use crate::played::Played;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A folder with the demonstration in a file.
fn desk(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("rimwise-e-{}-{name}", std::process::id()));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    let case = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../scenarios/outlet-infant.ron"
    );
    fs::copy(case, folder.join("7.ron")).expect("a case");
    folder
}

fn played(folder: &Path) -> Played {
    let home = folder.to_string_lossy().into_owned();
    let mut played = Played::start(&["7.ron"], &[("HOME", &home)], (100, 30));
    // Its chance: the list is whole.
    played.wait_for("72 %");
    played
}

/// The same list, the same sizes: the same sheet as the command line writes.
#[test]
fn the_sheet_of_the_screen_is_that_of_the_command_line() {
    let folder = desk("same");
    let mut played = played(&folder);
    played.send("E");
    played.wait_for("sheet in the file");
    played.send("\r");
    played.wait_for("sheet written");
    for format in ["html", "txt"] {
        played.send("E");
        played.wait_for("sheet in the file");
        played.send("\u{15}");
        played.paste(&format!("7.{format}"));
        played.send("\r");
        played.wait_for(&format!("sheet written: 7.{format}"));
    }
    // Over what is there it is written where the operator says so alone.
    let first = fs::read(folder.join("7.txt")).expect("a sheet");
    fs::write(folder.join("7.txt"), "notes").expect("a file");
    played.send("E");
    played.wait_for("sheet in the file");
    played.send("\u{15}");
    played.paste("7.txt");
    played.send("\r");
    played.wait_for("is there already");
    assert_eq!(fs::read(folder.join("7.txt")).expect("it"), b"notes");
    played.send("o");
    played.wait_for("sheet written: 7.txt");
    assert_eq!(fs::read(folder.join("7.txt")).expect("it"), first);
    // Who asks for one and leaves finds it.
    played.send("E");
    played.wait_for("sheet in the file");
    played.send("\u{15}");
    played.paste("last.pdf");
    played.send("\rq");
    assert_eq!(played.exit(), 0);
    for (name, of) in [
        ("7.pdf", "pdf"),
        ("7.html", "html"),
        ("7.txt", "text"),
        ("last.pdf", "pdf"),
    ] {
        let output = Command::new(env!("CARGO_BIN_EXE_rimwise"))
            .args(["sheet", "7.ron", "--format", of])
            .current_dir(&folder)
            .env("LC_ALL", "C.UTF-8")
            .env("XDG_CONFIG_HOME", "/nowhere")
            .output()
            .expect("the program starts");
        let written = fs::read(folder.join(name)).expect("a sheet");
        assert!(written.len() > 1000, "{name}");
        assert!(written == output.stdout, "{name} is another sheet");
    }
    let _ = fs::remove_dir_all(&folder);
}

#[test]
fn what_is_no_place_for_a_sheet_is_refused_with_the_remedy() {
    let folder = desk("refused");
    let mut played = played(&folder);
    std::os::unix::fs::symlink(folder.join("7.ron"), folder.join("link.pdf")).expect("a link");
    for (path, why) in [
        ("7.doc", "has to end in .pdf, .html or .txt"),
        ("link.pdf", "not a file that can be saved to"),
        ("no/7.pdf", "its folder is not there"),
    ] {
        played.send("E");
        played.wait_for("sheet in the file");
        played.send("\u{15}");
        played.paste(path);
        played.send("\r");
        played.wait_for(why);
        played.send("\u{1b}");
        played.wait_for_quiet();
    }
    played.send("q");
    assert_eq!(played.exit(), 0);
    let _ = fs::remove_dir_all(&folder);
}
