//! Cases that were open recently.

use crate::own_file::OwnFile;
use crate::ron_text::quoted;
use crate::{Disk, StoreError};
use std::fmt::Write;
use std::path::{Path, PathBuf};

/// The file of the cases that were open recently.
///
/// It is a convenience: what cannot be read of it counts as nothing, and it is
/// written anew with the next case that is opened.
#[derive(Clone, Debug)]
pub struct Recent {
    file: OwnFile,
}

/// The most cases that are remembered.
const MOST: usize = 20;

/// The largest file that is read, in bytes.
const CAP: u64 = 256 * 1024;

/// The comment over the list.
const HEAD: &str = "// Cases that were open, the newest first. It may be deleted.\n";

impl Recent {
    /// The list in a file, which need not exist yet.
    pub const fn new(disk: Disk, path: PathBuf) -> Self {
        Self {
            file: OwnFile::new(disk, path),
        }
    }

    /// The paths of the cases, the newest first, whether they still exist or not.
    pub fn cases(&self) -> Vec<PathBuf> {
        let mut cases: Vec<PathBuf> = self.file.read(CAP);
        cases.truncate(MOST);
        cases
    }

    /// Puts a case first; a path that is not valid UTF-8 is not remembered.
    pub fn note(&self, case: &Path) -> Result<(), StoreError> {
        let case = std::path::absolute(case).unwrap_or_else(|_| case.to_owned());
        let mut cases = self.cases();
        if cases.first() == Some(&case) {
            return Ok(());
        }
        cases.retain(|other| *other != case);
        cases.insert(0, case);
        self.file.write(&written(&cases))
    }
}

fn written(cases: &[PathBuf]) -> String {
    let mut text = HEAD.to_owned();
    text.push_str("[\n");
    for case in cases.iter().take(MOST).filter_map(|case| case.to_str()) {
        // Writing to a string does not fail.
        let _ = writeln!(text, "    {},", quoted(case));
    }
    text.push_str("]\n");
    text
}

#[cfg(unix)]
#[cfg(test)]
mod tests {
    use super::*;
    use crate::scratch::Scratch;
    use std::fs;

    #[test]
    fn the_newest_stands_first_and_each_once() {
        let scratch = Scratch::new("recent");
        let recent = Recent::new(Disk::default(), scratch.path("state/recent.ron"));
        assert!(recent.cases().is_empty());
        for case in ["/a.ron", "/b \"c\"\u{1b}.ron", "/a.ron"] {
            recent.note(Path::new(case)).unwrap();
        }
        let cases = [PathBuf::from("/a.ron"), PathBuf::from("/b \"c\"\u{1b}.ron")];
        assert_eq!(recent.cases(), cases);
        for number in 0..2 * MOST {
            recent.note(Path::new(&format!("/{number}.ron"))).unwrap();
        }
        assert_eq!(recent.cases().len(), MOST);
    }

    #[test]
    fn a_list_that_is_none_counts_as_nothing() {
        let scratch = Scratch::new("recent-broken");
        let path = scratch.path("recent.ron");
        for text in ["", "{", "[1]", "[\"/a\"", &"[".repeat(10_000)] {
            fs::write(&path, text).unwrap();
            assert!(
                Recent::new(Disk::default(), path.clone())
                    .cases()
                    .is_empty()
            );
        }
        fs::write(&path, [0xff, 0xfe]).unwrap();
        let recent = Recent::new(Disk::default(), path);
        recent.note(Path::new("/a.ron")).unwrap();
        assert_eq!(recent.cases(), [PathBuf::from("/a.ron")]);
    }
}
