//! Cases that were open before.

use crate::ron_text::quoted;
use crate::{Disk, Expect, StoreError, save_in_own_folder};
use std::fmt::Write;
use std::io::Read;
use std::path::{Path, PathBuf};

/// The list of cases that were open before, in a file of its own.
///
/// It is a convenience: what cannot be read of it counts as nothing, and it is
/// written anew with the next case that is opened.
#[derive(Clone, Debug)]
pub struct Recent {
    disk: Disk,
    path: PathBuf,
}

/// Most cases that are remembered.
const MOST: usize = 20;

/// Largest list that is read, in bytes.
const CAP: u64 = 256 * 1024;

/// What stands over the list.
const HEAD: &str = "// Cases that were open, the newest first. It may be deleted.\n";

impl Recent {
    /// The list in a file, which need not be there yet.
    pub const fn new(disk: Disk, path: PathBuf) -> Self {
        Self { disk, path }
    }

    /// The cases, the newest first, whether they are still there or not.
    pub fn cases(&self) -> Vec<PathBuf> {
        let mut text = String::new();
        let read = self
            .disk
            .open_plain(&self.path)
            .and_then(|file| file.take(CAP).read_to_string(&mut text));
        let cases: Vec<PathBuf> = match read {
            Ok(_) => ron::from_str(&text).unwrap_or_default(),
            Err(_) => Vec::new(),
        };
        cases.into_iter().take(MOST).collect()
    }

    /// Puts a case first. A path that is no text is not remembered.
    pub fn note(&self, case: &Path) -> Result<(), StoreError> {
        let case = std::path::absolute(case).unwrap_or_else(|_| case.to_owned());
        let mut cases = self.cases();
        if cases.first() == Some(&case) {
            return Ok(());
        }
        cases.retain(|other| *other != case);
        cases.insert(0, case);
        save_in_own_folder(&self.disk, &self.path, &written(&cases), Expect::Anything).map(drop)
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
