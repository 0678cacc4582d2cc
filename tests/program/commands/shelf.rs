//! Shapes of the user's own, and what is not in stock today.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use serde_json::Value;
use std::path::PathBuf;
use std::process::Command;

/// A folder for settings with a catalogue of one's own, gone with it.
struct Settings(PathBuf);

impl Settings {
    fn with(own: &str) -> Self {
        let name = format!("rimwise-own-shapes-{}", std::process::id());
        let folder = std::env::temp_dir().join(name);
        std::fs::create_dir_all(folder.join("rimwise")).expect("a folder");
        std::fs::write(folder.join("rimwise/shapes.ron"), own).expect("a catalogue");
        Self(folder)
    }

    fn rank(&self, format: &str) -> String {
        let output = Command::new(env!("CARGO_BIN_EXE_rimwise"))
            .env("LC_ALL", "C.UTF-8")
            .env("TERM", "xterm")
            .args(["rank", "outlet-infant", "--draws", "64", "--format", format])
            .env("XDG_CONFIG_HOME", &self.0)
            .output()
            .expect("the program starts");
        assert!(output.status.success(), "{output:?}");
        String::from_utf8(output.stdout).expect("UTF-8")
    }
}

impl Drop for Settings {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

#[test]
fn what_is_put_aside_keeps_its_place_and_is_said_not_to_be_there() {
    let none = Settings::with(r#"(format: 2, title: "mine", shapes: [], out_of_stock: [])"#);
    let report: Value = serde_json::from_str(&none.rank("json")).expect("JSON");
    let first = &report["candidates"][0];
    let name = format!(
        "{}/{}",
        first["shape"].as_str().expect("a shape"),
        first["size"].as_str().expect("a size")
    );
    assert_eq!(first["in_stock"], true);
    drop(none);

    let own = format!(r#"(format: 2, title: "mine", shapes: [], out_of_stock: ["{name}"])"#);
    let without = Settings::with(&own);
    let again: Value = serde_json::from_str(&without.rank("json")).expect("JSON");
    let mut expected = first.clone();
    expected["in_stock"] = false.into();
    assert_eq!(again["candidates"][0], expected);
    assert_ne!(again["inputs_sha256"], report["inputs_sha256"]);
    let table = without.rank("table");
    let words: Vec<&str> = table.split_whitespace().collect();
    let table = words.join(" ");
    for says in [
        "of 157 sizes".to_owned(),
        "1 more is not in stock today;".to_owned(),
        "among them would be first.".to_owned(),
        "– not in stock".to_owned(),
        "– not in stock today; next up".to_owned(),
    ] {
        assert!(table.contains(&says), "{says}\n{table}");
    }
    assert!(
        without
            .rank("csv")
            .lines()
            .nth(1)
            .expect("a row")
            .ends_with(",false,")
    );
}
