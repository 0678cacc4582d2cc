//! The last score of each lesson.

use crate::own_file::{OwnFile, OwnMap};
use crate::{Disk, StoreError};
use serde::Deserialize;
use std::path::{Path, PathBuf};

/// The file of the last score of each lesson, which names nobody.
///
/// It is a convenience: what cannot be read of it counts as nothing, and it may be
/// deleted at any time.
#[derive(Clone, Debug)]
pub struct Scores {
    entries: OwnMap,
}

/// The score of a lesson.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub struct Score {
    /// The number of right answers.
    pub right: u32,
    /// The number of questions.
    pub asked: u32,
}

/// The most lessons that are remembered.
const MOST: usize = 200;

/// The comment over the list.
const HEAD: &str =
    "// How lessons went the last time; nobody is named. It may be edited and deleted.\n";

impl Scores {
    /// The scores in a file, which need not exist yet.
    pub const fn new(disk: Disk, path: PathBuf) -> Self {
        Self {
            entries: OwnMap::new(OwnFile::new(disk, path), HEAD, MOST),
        }
    }

    /// The path of the file.
    pub fn path(&self) -> &Path {
        self.entries.path()
    }

    /// The last score of a lesson.
    pub fn of(&self, lesson: &str) -> Option<Score> {
        self.entries.all().remove(lesson)
    }

    /// Records the score of a lesson in place of the one before.
    pub fn note(&self, lesson: &str, score: Score) -> Result<(), StoreError> {
        self.entries.note(lesson, score, |Score { right, asked }| {
            format!("right: {right}, asked: {asked}")
        })
    }
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
