use super::Keeper;
use super::events::Events;
use crate::event::FileEvent;
use crate::keeper_error::KeeperError;
use crate::overlay::{Openable, Openables};
use files::{Recent, parse_case, parse_lesson, shipped, visible};
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};

/// Most files of a folder that are listed.
const MOST: usize = 200;

impl Keeper {
    /// Lists the cases that can be opened: those that were open before, those of
    /// the folder, those that came with the program.
    pub(super) fn choose(&self, events: &mut Events, typed: &str, error: Option<KeeperError>) {
        let recent = self.recent.as_ref().map(Recent::cases).unwrap_or_default();
        let recent: Vec<PathBuf> = recent.into_iter().filter(|path| path.is_file()).collect();
        let here = folder().into_iter().filter(|path| {
            let path = std::path::absolute(path).ok();
            path.is_none_or(|path| !recent.contains(&path))
        });
        let here: Vec<Openable> = here.map(Openable::Here).collect();
        let mut cases: Vec<Openable> = recent.into_iter().map(Openable::Recent).collect();
        cases.extend(here);
        cases.extend(shipped::SCENARIOS.iter().map(|(name, text)| {
            let title = parse_case(name, text).map(|file| file.into_value().title);
            Openable::Shipped(name, title.unwrap_or_default())
        }));
        cases.extend(shipped::LESSONS.iter().map(|(name, text)| {
            let title = parse_lesson(name, text).map(|file| file.into_value().lesson.title);
            Openable::Lesson(name, title.unwrap_or_default())
        }));
        events.push(FileEvent::Listed(Openables::new(
            cases,
            typed,
            error.map(|it| it.to_string()),
        )));
    }

    /// Opens a case that came with the program.
    pub(super) fn open_shipped(&mut self, events: &mut Events, name: &str) {
        let Some(file) =
            shipped::scenario(name).and_then(|(name, text)| parse_case(name, text).ok())
        else {
            return events.warn(KeeperError::NoSuchShipped(name.to_owned()));
        };
        self.kept = None;
        self.loose = None;
        self.found = None;
        let case = file.into_value();
        let title = visible(&case.title).into_owned();
        events.push(FileEvent::Opened(case, crate::Home::Shipped));
        self.tell_journal(events);
        events.tell(format!("opened {title}"));
    }
}

/// The files that may be cases, in the folder where the program runs.
fn folder() -> Vec<PathBuf> {
    let entries = fs::read_dir(".").into_iter().flatten().flatten();
    let mut files: Vec<PathBuf> = entries
        .map(|entry| PathBuf::from(entry.file_name()))
        .filter(|path| path.extension() == Some(OsStr::new("ron")))
        .filter(|path| path.is_file())
        .take(MOST)
        .collect();
    files.sort();
    files
}

/// A path as it was typed, with the home folder in place of `~`.
pub(super) fn meant(path: &Path) -> PathBuf {
    let home = std::env::var_os("HOME").or_else(|| std::env::var_os("USERPROFILE"));
    match (path.strip_prefix("~"), home) {
        (Ok(rest), Some(home)) => PathBuf::from(home).join(rest),
        _ => path.to_owned(),
    }
}
