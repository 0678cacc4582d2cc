//! A folder of files for one test.

use std::fs;
use std::ops::Deref;
use std::path::{Path, PathBuf};

/// An empty folder, gone with what is in it when the test ends.
pub struct Folder(PathBuf);

impl Folder {
    /// An empty folder of this run; tests that run side by side give it different names.
    ///
    /// # Panics
    ///
    /// Where it cannot be made.
    pub fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("rimwise-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&path);
        fs::create_dir_all(&path).expect("a folder");
        Self(path)
    }
}

impl Deref for Folder {
    type Target = Path;

    fn deref(&self) -> &Path {
        &self.0
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}
