//! A small file of the program's own, such as that of scores or of recent cases.

use crate::ron_text::quoted;
use crate::{Disk, Expect, StoreError, save_in_own_folder};
use serde::de::DeserializeOwned;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::io::Read;
use std::path::{Path, PathBuf};

/// A file of the program's own, which is a convenience: what cannot be read of it counts
/// as nothing, and it is written anew with the next entry.
#[derive(Clone, Debug)]
pub(crate) struct OwnFile {
    disk: Disk,
    path: PathBuf,
}

impl OwnFile {
    /// The file at a path, which need not exist yet.
    pub(crate) const fn new(disk: Disk, path: PathBuf) -> Self {
        Self { disk, path }
    }

    /// The path of the file.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// The value in the file, of which at most `cap` bytes are read; the default where
    /// there is none that can be read.
    pub(crate) fn read<T: DeserializeOwned + Default>(&self, cap: u64) -> T {
        let mut text = String::new();
        let read = self
            .disk
            .open_plain(&self.path)
            .and_then(|file| file.take(cap).read_to_string(&mut text));
        let options = ron::Options::default()
            .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
        match read {
            Ok(_) => options.from_str(&text).unwrap_or_default(),
            Err(_) => T::default(),
        }
    }

    /// Saves a text as the file, in a folder that is made where it does not exist.
    pub(crate) fn write(&self, text: &str) -> Result<(), StoreError> {
        save_in_own_folder(&self.disk, &self.path, text, Expect::Anything).map(drop)
    }
}

/// A file with one entry for each name, such as a score for each lesson.
#[derive(Clone, Debug)]
pub(crate) struct OwnMap {
    file: OwnFile,
    /// The comment over the entries.
    head: &'static str,
    /// The most entries; beyond it the first by name gives way.
    most: usize,
}

/// The largest file of entries that is read, in bytes.
const CAP: u64 = 64 * 1024;

impl OwnMap {
    /// The entries in a file, which need not exist yet.
    pub(crate) const fn new(file: OwnFile, head: &'static str, most: usize) -> Self {
        Self { file, head, most }
    }

    /// The path of the file.
    pub(crate) fn path(&self) -> &Path {
        self.file.path()
    }

    /// Every entry by its name.
    pub(crate) fn all<V: DeserializeOwned>(&self) -> BTreeMap<String, V> {
        self.file.read(CAP)
    }

    /// Records the entry of a name in place of the one before; `fields` gives the text of
    /// an entry, without its brackets.
    pub(crate) fn note<V: DeserializeOwned + PartialEq>(
        &self,
        name: &str,
        entry: V,
        fields: impl Fn(&V) -> String,
    ) -> Result<(), StoreError> {
        let mut all = self.all();
        if all.get(name) == Some(&entry) {
            return Ok(());
        }
        while all.len() >= self.most && !all.contains_key(name) {
            all.pop_first();
        }
        all.insert(name.to_owned(), entry);
        let mut text = format!("{}{{\n", self.head);
        for (name, entry) in &all {
            // Writing into a string does not fail.
            let _ = writeln!(text, "    {}: ({}),", quoted(name), fields(entry));
        }
        text.push_str("}\n");
        self.file.write(&text)
    }
}
