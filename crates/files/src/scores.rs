//! How lessons went.

use crate::ron_text::quoted;
use crate::{Disk, Expect, StoreError, save_in_own_folder};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::io::Read;
use std::path::{Path, PathBuf};

/// The last score of each lesson, in a file of its own that names nobody.
///
/// It is a convenience: what cannot be read of it counts as nothing, and it may be
/// deleted at any time.
#[derive(Clone, Debug)]
pub struct Scores {
    disk: Disk,
    path: PathBuf,
}

/// How a lesson went.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub struct Score {
    /// How many answers were right.
    pub right: u32,
    /// How many questions were asked.
    pub asked: u32,
}

/// Most lessons that are remembered.
const MOST: usize = 200;

/// Largest file that is read, in bytes.
const CAP: u64 = 64 * 1024;

/// What stands over the list.
const HEAD: &str =
    "// How lessons went the last time; nobody is named. It may be edited and deleted.\n";

impl Scores {
    /// The scores in a file, which need not be there yet.
    pub const fn new(disk: Disk, path: PathBuf) -> Self {
        Self { disk, path }
    }

    /// Where they are kept.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The score of a lesson.
    pub fn of(&self, lesson: &str) -> Option<Score> {
        self.all().remove(lesson)
    }

    /// Puts down how a lesson went, in place of the time before.
    pub fn note(&self, lesson: &str, score: Score) -> Result<(), StoreError> {
        let mut all = self.all();
        if all.get(lesson) == Some(&score) {
            return Ok(());
        }
        while all.len() >= MOST && !all.contains_key(lesson) {
            all.pop_first();
        }
        all.insert(lesson.to_owned(), score);
        save_in_own_folder(&self.disk, &self.path, &written(&all), Expect::Anything).map(drop)
    }

    fn all(&self) -> BTreeMap<String, Score> {
        let mut text = String::new();
        let read = self
            .disk
            .open_plain(&self.path)
            .and_then(|file| file.take(CAP).read_to_string(&mut text));
        match read {
            Ok(_) => ron::from_str(&text).unwrap_or_default(),
            Err(_) => BTreeMap::new(),
        }
    }
}

fn written(all: &BTreeMap<String, Score>) -> String {
    let mut text = HEAD.to_owned();
    text.push_str("{\n");
    for (lesson, score) in all {
        let Score { right, asked } = score;
        // Writing into a string does not fail.
        let _ = writeln!(
            text,
            "    {}: (right: {right}, asked: {asked}),",
            quoted(lesson)
        );
    }
    text.push_str("}\n");
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scores(name: &str) -> Scores {
        let folder = std::env::temp_dir().join(format!("rimwise-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        Scores::new(Disk::default(), folder.join("lessons.ron"))
    }

    #[test]
    fn the_last_score_of_a_lesson_is_kept_and_can_be_deleted() {
        let kept = scores("scores");
        assert_eq!(kept.of("wide-disc"), None);
        let score = |right| Score { right, asked: 3 };
        kept.note("wide-disc", score(1)).unwrap();
        kept.note("slit \"x\"\n", score(2)).unwrap();
        kept.note("wide-disc", score(3)).unwrap();
        assert_eq!(kept.of("wide-disc"), Some(score(3)));
        assert_eq!(kept.of("slit \"x\"\n"), Some(score(2)));
        std::fs::remove_file(kept.path()).unwrap();
        assert_eq!(kept.of("wide-disc"), None);
    }

    #[test]
    fn what_cannot_be_read_counts_as_nothing() {
        let kept = scores("scores-bad");
        let score = Score { right: 1, asked: 1 };
        kept.note("a", score).unwrap();
        std::fs::write(kept.path(), "{ \"a\": (right: -1").unwrap();
        assert_eq!(kept.of("a"), None);
        kept.note("a", score).unwrap();
        assert_eq!(kept.of("a"), Some(score));
    }
}
