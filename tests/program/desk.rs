//! A folder of files for one test.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]
#![allow(dead_code, reason = "two programs of tests ask for more or less of it")]

use std::fs;
use std::path::{Path, PathBuf};

/// An empty folder, gone with what is in it when the test ends.
pub(crate) struct Desk(PathBuf);

impl Desk {
    /// An empty folder of this run.
    pub(crate) fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("rimwise-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).expect("a folder");
        Self(folder)
    }

    /// A folder with the demonstration in the file of [`Desk::case`].
    pub(crate) fn demonstration(name: &str) -> Self {
        let desk = Self::new(name);
        let (_, case) = files::shipped::SCENARIOS[0];
        fs::write(desk.case(), case).expect("the demonstration");
        desk
    }

    /// The folder.
    pub(crate) fn folder(&self) -> &Path {
        &self.0
    }

    /// Where its case is.
    pub(crate) fn case(&self) -> PathBuf {
        self.0.join("case.ron")
    }

    /// The text of its case.
    pub(crate) fn text(&self) -> String {
        fs::read_to_string(self.case()).expect("the case")
    }

    /// A path in it.
    pub(crate) fn path(&self, name: &str) -> String {
        self.0.join(name).display().to_string()
    }

    /// The names of all that is in it, in order.
    pub(crate) fn names(&self) -> Vec<String> {
        let entries = fs::read_dir(&self.0).expect("a folder");
        let name = |entry: fs::DirEntry| entry.file_name().to_string_lossy().into_owned();
        let mut names: Vec<String> = entries.flatten().map(name).collect();
        names.sort();
        names
    }

    /// Writes a file; its path.
    pub(crate) fn file(&self, name: &str, text: &str) -> String {
        let path = self.0.join(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        fs::write(&path, text).expect("a file");
        path.display().to_string()
    }

    /// Writes the case of a shipped scenario with more fields; its path.
    pub(crate) fn scenario(&self, name: &str, fields: &str) -> String {
        let (_, text) = files::shipped::scenario(name).expect("a scenario");
        let end = text.rfind(')').expect("the end of the case");
        self.file("case.ron", &format!("{}{fields}\n)\n", &text[..end]))
    }
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}
