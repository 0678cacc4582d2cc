//! The looks of the screen that were chosen last in each terminal.

use crate::own_file::{OwnFile, OwnMap};
use crate::ron_text::quoted;
use crate::{Disk, StoreError};
use serde::Deserialize;
use std::path::PathBuf;

/// The file of the looks that were chosen in each terminal.
///
/// They are a convenience: what cannot be read of the file counts as nothing, and it
/// is written anew with the next choice.
#[derive(Clone, Debug)]
pub struct KeptLooks {
    entries: OwnMap,
}

/// Looks in the words of the program's options; `None` where nothing was chosen.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(default)]
pub struct LooksWords {
    /// What pictures are made of.
    pub pictures: Option<String>,
    /// The colours of the screen.
    pub colours: Option<String>,
    /// Which ventricle a section has on its left.
    pub section_left: Option<String>,
}

/// The most terminals that are remembered.
const MOST: usize = 50;

/// The comment over the list.
const HEAD: &str =
    "// How the screen looks, by TERM and TERM_PROGRAM. It may be edited and deleted.\n";

impl KeptLooks {
    /// The looks in a file, which need not exist yet.
    pub const fn new(disk: Disk, path: PathBuf) -> Self {
        Self {
            entries: OwnMap::new(OwnFile::new(disk, path), HEAD, MOST),
        }
    }

    /// The looks that were chosen in a terminal.
    pub fn of(&self, terminal: &str) -> LooksWords {
        self.entries.all().remove(terminal).unwrap_or_default()
    }

    /// Records the looks that are chosen in a terminal.
    pub fn note(&self, terminal: &str, looks: &LooksWords) -> Result<(), StoreError> {
        self.entries.note(terminal, looks.clone(), fields)
    }
}

/// The text of the looks that were chosen.
fn fields(looks: &LooksWords) -> String {
    let fields = [
        ("pictures", &looks.pictures),
        ("colours", &looks.colours),
        ("section_left", &looks.section_left),
    ];
    let fields: Vec<String> = fields
        .into_iter()
        .filter_map(|(name, word)| Some(format!("{name}: {}", quoted(word.as_deref()?))))
        .collect();
    fields.join(", ")
}

#[cfg(unix)]
#[cfg(test)]
mod tests {
    use super::*;
    use crate::scratch::Scratch;
    use std::fs;

    fn looks(pictures: &str) -> LooksWords {
        LooksWords {
            pictures: Some(pictures.to_owned()),
            ..LooksWords::default()
        }
    }

    #[test]
    fn each_terminal_keeps_its_own() {
        let scratch = Scratch::new("looks");
        let kept = KeptLooks::new(Disk::default(), scratch.path("settings/looks.ron"));
        assert_eq!(kept.of("xterm"), LooksWords::default());
        kept.note("xterm", &looks("octants")).unwrap();
        kept.note("a \"b\"\u{1b} c", &looks("sixel")).unwrap();
        let both = LooksWords {
            section_left: Some("left ventricle".to_owned()),
            ..looks("quadrants")
        };
        kept.note("xterm", &both).unwrap();
        assert_eq!(kept.of("xterm"), both);
        assert_eq!(kept.of("a \"b\"\u{1b} c"), looks("sixel"));
        for number in 0..2 * MOST {
            kept.note(&format!("{number}"), &looks("ascii")).unwrap();
        }
        assert_eq!(kept.entries.all::<LooksWords>().len(), MOST);
    }

    #[test]
    fn a_file_that_is_none_counts_as_nothing() {
        let scratch = Scratch::new("looks-broken");
        let path = scratch.path("looks.ron");
        let kept = KeptLooks::new(Disk::default(), path.clone());
        for text in ["", "{", "[1]", "{\"xterm\": 3}", &"{".repeat(10_000)] {
            fs::write(&path, text).unwrap();
            assert_eq!(kept.of("xterm"), LooksWords::default(), "{text:.9}");
        }
        fs::write(&path, [0xff, 0xfe]).unwrap();
        kept.note("xterm", &looks("braille")).unwrap();
        assert_eq!(kept.of("xterm"), looks("braille"));
    }
}
