use super::events::Events;
use super::{Keeper, questions, shown};
use crate::Session;
use crate::event::FileEvent;
use crate::keeper_error::KeeperError;
use files::{
    CatalogueFile, Digest, Disk, Expect, SpliceError, new_catalogue, parse_catalogue,
    read_catalogue, save_in_own_folder,
};
use sizing::Catalogue;
use std::path::{Path, PathBuf};

/// The file of the user's own catalogue.
#[derive(Debug)]
pub(super) struct OwnShapes {
    disk: Disk,
    path: PathBuf,
    /// As it is on disk, as far as is known; `None`: there is none yet.
    file: Option<CatalogueFile>,
}

impl Keeper {
    /// The keeper with a file of the user's own catalogue as it was read, `None`
    /// where there is none yet; every change of the shelf is written into it at once.
    #[must_use]
    pub fn with_own_shapes(mut self, path: &Path, file: Option<CatalogueFile>) -> Self {
        self.own = Some(OwnShapes {
            disk: self.disk.clone(),
            path: path.to_owned(),
            file,
        });
        self
    }

    /// Writes the user's own catalogue, and says where, or why not: the change
    /// stays in the program then. What something else wrote is not written over
    /// before the operator says so.
    pub(super) fn keep_shelf(&mut self, session: &Session, events: &mut Events, over: bool) {
        let Some(own) = &mut self.own else {
            return events.warn(KeeperError::ShelfNotKept(Box::new(KeeperError::NoFolder)));
        };
        let file = shown(&own.path);
        match own.keep(session.document().shelf().own(), over) {
            Ok(false) => {}
            Ok(true) => {
                if let Some(text) = &own.file {
                    events.push(FileEvent::ShelfWritten(text.source().clone()));
                }
                events.push(FileEvent::AlsoDone(format!("kept in {file}")));
            }
            Err(error) => match questions::shelf_otherwise(&error) {
                Some(question) => events.ask(question),
                None => events.warn(KeeperError::ShelfNotKept(Box::new(error))),
            },
        }
    }

    /// Reads the user's own catalogue again; what was changed here is a step back.
    pub(super) fn read_shelf(&mut self, events: &mut Events) {
        let Some(own) = &mut self.own else {
            return;
        };
        match read_catalogue(&own.path) {
            Err(error) => events.warn(KeeperError::ShelfUnread(error)),
            Ok(file) => {
                let shapes = file.value().clone();
                own.file = Some(file);
                let from = shown(&own.path);
                let called = format!("read again: {from}");
                events.push(FileEvent::ShelfRead { shapes, called });
            }
        }
    }
}

impl OwnShapes {
    /// Writes what is wanted into the file, unless it says so already.
    fn keep(&mut self, wanted: &Catalogue, over: bool) -> Result<bool, KeeperError> {
        if !over
            && self
                .file
                .as_ref()
                .is_some_and(|file| file.value() == wanted)
        {
            return Ok(false);
        }
        // What is there now, with its comments, or what was there.
        let theirs = over.then(|| read_catalogue(&self.path).ok()).flatten();
        let ground = theirs.as_ref().or(self.file.as_ref());
        let file = match ground.map(|file| file.with(wanted)) {
            Some(Ok(file)) => file,
            // Laid out so that no splice finds its place: written anew.
            None | Some(Err(SpliceError::NoPlace)) => {
                let name = self.path.display().to_string();
                parse_catalogue(&name, &new_catalogue(wanted)).map_err(KeeperError::Faulty)?
            }
            Some(Err(error)) => return Err(error.into()),
        };
        let expect = match &self.file {
            _ if over => Expect::Anything,
            None => Expect::NoFile,
            Some(file) => Expect::Same(Digest::of(file.source().original().as_bytes())),
        };
        let text = file.source().original().into_owned();
        save_in_own_folder(&self.disk, &self.path, &text, expect)?;
        self.file = Some(file);
        Ok(true)
    }
}
