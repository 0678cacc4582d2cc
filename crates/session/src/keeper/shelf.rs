use super::Keeper;
use crate::Session;
use files::{
    CatalogueFile, Digest, Expect, FileError, SpliceError, digest_on_disk, new_catalogue,
    parse_catalogue, read_catalogue, save_in_own_folder, visible,
};
use std::path::{Path, PathBuf};

/// The file of the user's own catalogue.
#[derive(Debug)]
pub(super) struct OwnShapes {
    path: PathBuf,
    /// As it is on disk, as far as is known; `None`: there is none yet.
    file: Option<CatalogueFile>,
}

impl Keeper {
    /// The keeper with a file of the user's own catalogue, into which every change
    /// of the shelf is written at once.
    pub fn with_own_shapes(mut self, path: &Path) -> Result<Self, FileError> {
        let is_there = !matches!(digest_on_disk(path), Ok(None));
        let file = is_there.then(|| read_catalogue(path)).transpose()?;
        self.own = Some(OwnShapes {
            path: path.to_owned(),
            file,
        });
        Ok(self)
    }

    /// Writes the user's own catalogue, and says where, or why not: the change
    /// stays in the program then.
    pub(super) fn keep_shelf(&mut self, session: &mut Session) {
        let Some(own) = &mut self.own else {
            return;
        };
        let file = visible(&own.path.display().to_string()).into_owned();
        match own.keep(session) {
            Ok(()) => session.tell_also(&format!("kept in {file}")),
            Err(why) => session.warn(format!("changed here, not on disk: {why}")),
        }
    }
}

impl OwnShapes {
    fn keep(&mut self, session: &Session) -> Result<(), String> {
        let wanted = session.document().shelf().own();
        let file = match self.file.as_ref().map(|file| file.with(wanted)) {
            Some(Ok(file)) => file,
            // Laid out so that no splice finds its place: written anew.
            None | Some(Err(SpliceError::NoPlace)) => {
                let name = self.path.display().to_string();
                let first = |faults: Vec<files::Diagnostic>| {
                    faults.first().map_or_else(String::new, ToString::to_string)
                };
                parse_catalogue(&name, &new_catalogue(wanted)).map_err(first)?
            }
            Some(Err(error)) => return Err(error.to_string()),
        };
        let expect = self.file.as_ref().map_or(Expect::NoFile, |file| {
            Expect::Same(Digest::of(file.source().original().as_bytes()))
        });
        let text = file.source().original().into_owned();
        save_in_own_folder(&self.path, &text, expect).map_err(|error| error.to_string())?;
        self.file = Some(file);
        Ok(())
    }
}
