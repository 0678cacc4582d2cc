//! How the screen looked when it was left, terminal by terminal.

use crate::ron_text::quoted;
use crate::{Disk, Expect, StoreError, save_in_own_folder};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::io::Read;
use std::path::PathBuf;

/// The looks that were chosen in each terminal, in a file of their own.
///
/// They are a convenience: what cannot be read of the file counts as nothing, and it
/// is written anew with the next choice.
#[derive(Clone, Debug)]
pub struct KeptLooks {
    disk: Disk,
    path: PathBuf,
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

/// Most terminals that are remembered.
const MOST: usize = 50;

/// Largest file that is read, in bytes.
const CAP: u64 = 64 * 1024;

/// What stands over the list.
const HEAD: &str =
    "// How the screen looks, by TERM and TERM_PROGRAM. It may be edited and deleted.\n";

impl KeptLooks {
    /// The looks in a file, which need not be there yet.
    pub const fn new(disk: Disk, path: PathBuf) -> Self {
        Self { disk, path }
    }

    /// What was chosen in a terminal.
    pub fn of(&self, terminal: &str) -> LooksWords {
        self.all().remove(terminal).unwrap_or_default()
    }

    /// Puts down what is chosen in a terminal.
    pub fn note(&self, terminal: &str, looks: &LooksWords) -> Result<(), StoreError> {
        let mut all = self.all();
        if all.get(terminal) == Some(looks) {
            return Ok(());
        }
        while all.len() >= MOST && !all.contains_key(terminal) {
            all.pop_first();
        }
        all.insert(terminal.to_owned(), looks.clone());
        save_in_own_folder(&self.disk, &self.path, &written(&all), Expect::Anything).map(drop)
    }

    fn all(&self) -> BTreeMap<String, LooksWords> {
        let mut text = String::new();
        let read = self
            .disk
            .open_plain(&self.path)
            .and_then(|file| file.take(CAP).read_to_string(&mut text));
        match read {
            Ok(_) => read_ron(&text).unwrap_or_default(),
            Err(_) => BTreeMap::new(),
        }
    }
}

fn read_ron(text: &str) -> Option<BTreeMap<String, LooksWords>> {
    let options =
        ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
    options.from_str(text).ok()
}

fn written(all: &BTreeMap<String, LooksWords>) -> String {
    let mut text = HEAD.to_owned();
    text.push_str("{\n");
    for (terminal, looks) in all {
        let fields = [
            ("pictures", &looks.pictures),
            ("colours", &looks.colours),
            ("section_left", &looks.section_left),
        ];
        let fields: Vec<String> = fields
            .into_iter()
            .filter_map(|(name, word)| Some(format!("{name}: {}", quoted(word.as_deref()?))))
            .collect();
        // Writing to a string does not fail.
        let _ = writeln!(text, "    {}: ({}),", quoted(terminal), fields.join(", "));
    }
    text.push_str("}\n");
    text
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
        assert_eq!(kept.all().len(), MOST);
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
