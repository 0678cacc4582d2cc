use super::events::Events;
use super::{Keeper, questions, shown};
use crate::Session;
use crate::event::FileEvent;
use crate::keeper_error::KeeperError;
use files::{Digest, Disk, Expect, HouseRulesFile, read_house_rules, save_in_own_folder};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The file of your centre's rules.
#[derive(Debug)]
pub(super) struct OwnRules {
    disk: Disk,
    path: PathBuf,
    /// As it is on disk, as far as is known; `None`: there is none yet.
    file: Option<Arc<HouseRulesFile>>,
}

impl Keeper {
    /// The keeper with the file of your centre's rules as it was read, `None` where
    /// there is none yet; a change of the rules is written into it at once.
    #[must_use]
    pub fn with_own_rules(mut self, path: &Path, file: Option<Arc<HouseRulesFile>>) -> Self {
        self.rules = Some(OwnRules {
            disk: self.disk.clone(),
            path: path.to_owned(),
            file,
        });
        self
    }

    /// Writes your centre's rules, and says where, or why not: the change stays in the
    /// program then. What something else wrote is never written over; a file that is gone
    /// is written `anew` where the operator says so.
    pub(super) fn keep_rules(&mut self, session: &Session, events: &mut Events, anew: bool) {
        let Some(own) = &mut self.rules else {
            return events.warn(KeeperError::RulesNotKept(Box::new(KeeperError::NoFolder)));
        };
        let Some(wanted) = session.document().rules_file() else {
            return;
        };
        match own.keep(wanted, anew) {
            Ok(false) => {}
            Ok(true) => {
                let file = shown(&own.path);
                events.push(FileEvent::RulesKept(own.path.clone()));
                events.push(FileEvent::AlsoDone(format!("kept in {file}")));
            }
            Err(error) => match questions::rules_otherwise(&error) {
                Some(question) => events.ask(question),
                None => events.warn(KeeperError::RulesNotKept(Box::new(error))),
            },
        }
    }

    /// Reads your centre's rules again; what was changed here is a step back.
    pub(super) fn read_rules(&mut self, events: &mut Events) {
        let Some(own) = &mut self.rules else {
            return;
        };
        match read_house_rules(&own.path) {
            Err(error) => events.warn(KeeperError::RulesUnread(error)),
            Ok(file) => {
                let file = Arc::new(file);
                own.file = Some(Arc::clone(&file));
                events.push(FileEvent::RulesKept(own.path.clone()));
                let called = format!("read again: {}", shown(&own.path));
                events.push(FileEvent::RulesRead { file, called });
            }
        }
    }
}

impl OwnRules {
    /// Writes what is wanted into the file, unless it says so already.
    fn keep(&mut self, wanted: &Arc<HouseRulesFile>, anew: bool) -> Result<bool, KeeperError> {
        let text = wanted.source().original();
        let there = self.file.as_ref().map(|file| file.source().original());
        if !anew && there.as_ref() == Some(&text) {
            return Ok(false);
        }
        let expect = match there.filter(|_| !anew) {
            None => Expect::NoFile,
            Some(there) => Expect::Same(Digest::of(there.as_bytes())),
        };
        save_in_own_folder(&self.disk, &self.path, &text, expect)?;
        self.file = Some(Arc::clone(wanted));
        Ok(true)
    }
}
