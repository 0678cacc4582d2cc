use super::events::Events;
use super::{Keeper, OpenFile, choose, questions, shown};
use crate::errand::Save;
use crate::event::FileEvent;
use crate::keeper_error::KeeperError;
use crate::overlay::Prompt;
use crate::{Home, Session};
use files::{CaseFile, Expect, Journal, SpliceError, new_case, parse_case, save};
use std::path::Path;

impl Keeper {
    /// Saves the case in the open file or in another, and says what came of it.
    pub(super) fn save(&mut self, session: &Session, events: &mut Events, asked: &Save) {
        let asked = &Save {
            to: choose::meant(&asked.to),
            ..asked.clone()
        };
        let is_kept = self.keeps(session.document().home()) && self.is_kept(&asked.to);
        let saved = if is_kept {
            self.save_kept(session, events, asked.over)
        } else {
            self.save_elsewhere(session, events, asked)
        };
        match saved {
            Ok(but) => {
                let name = if is_kept {
                    session.case_name()
                } else {
                    shown(&asked.to)
                };
                match but.map(Box::new) {
                    Some(but) => events.warn(KeeperError::Saved { name, but }),
                    None => events.tell(format!("saved {name}")),
                }
                if asked.leaves {
                    events.push(FileEvent::Ended);
                }
            }
            Err(error) => match questions::otherwise(&error, asked) {
                Some(question) => events.ask(question),
                None if is_kept || !matches!(error, KeeperError::Store(_)) => events.warn(error),
                None => {
                    let leaves = asked.leaves;
                    events.push(FileEvent::PathRefused {
                        prompt: Prompt::SaveTo { leaves },
                        path: asked.to.clone(),
                        error,
                    });
                }
            },
        }
    }

    /// Saves in the open file; gives what to warn of.
    fn save_kept(
        &mut self,
        session: &Session,
        events: &mut Events,
        over: bool,
    ) -> Result<Option<KeeperError>, KeeperError> {
        let Some(kept) = &mut self.kept else {
            return Ok(None);
        };
        let file = kept.file.saved_with(session.document().case())?;
        let text = file.source().original().into_owned();
        let expect = if over {
            Expect::Anything
        } else {
            Expect::Same(kept.digest)
        };
        let saved = save(&self.disk, &kept.path, &text, expect)?;
        kept.digest = saved.digest;
        kept.seen = Some(kept.digest);
        kept.file = file;
        events.push(FileEvent::Agreed);
        let dropped = kept.journal.as_mut().map(|journal| journal.saved(&text));
        let not_dropped = dropped.and_then(Result::err).map(KeeperError::from);
        Ok(not_dropped.or_else(|| saved.kept.as_deref().map(kept_beside)))
    }

    /// Saves in another file and goes on with that one; gives what to warn of.
    fn save_elsewhere(
        &mut self,
        session: &Session,
        events: &mut Events,
        asked: &Save,
    ) -> Result<Option<KeeperError>, KeeperError> {
        let file = self.written_for(session, &asked.to)?;
        let entered = self.enter(&asked.to);
        let expect = if asked.over {
            Expect::Anything
        } else {
            Expect::NoFile
        };
        let text = file.source().original().into_owned();
        let digest = save(&self.disk, &asked.to, &text, expect)?.digest;
        let mut left_behind = None;
        if self.keeps(session.document().home())
            && let Some(left) = &mut self.kept
            && let Some(journal) = &mut left.journal
        {
            // What was changed is safe in the new file.
            left_behind = journal.saved(&left.file.source().original()).err();
        }
        let (presence, warning) = self.presence(entered);
        let mut journal = presence
            .is_some()
            .then(|| Journal::new(&self.disk, &asked.to, &text));
        // One that is there already is of what was written over.
        let old = journal.as_mut().and_then(|it| it.saved(&text).err());
        let not_dropped = old.or(left_behind).map(KeeperError::from);
        self.kept = Some(OpenFile {
            path: asked.to.clone(),
            digest,
            seen: Some(digest),
            file,
            journal,
            presence,
        });
        self.found = None;
        events.push(FileEvent::Saved(Home::File(asked.to.clone())));
        if let Some(loose) = self.loose.take() {
            // What was kept of it is safe in the file.
            let _ = loose.dropped();
        }
        self.tell_journal(events);
        self.remember(&asked.to);
        Ok(warning.or(not_dropped))
    }

    /// The text for another file: with the comments of the one that is left, or
    /// written anew.
    fn written_for(&self, session: &Session, to: &Path) -> Result<CaseFile, KeeperError> {
        let case = session.document().case();
        if let Some(kept) = &self.kept
            && self.keeps(session.document().home())
        {
            match kept.file.saved_with(case) {
                Ok(file) => return Ok(file),
                // Laid out so that no splice finds its place.
                Err(SpliceError::NoPlace) => {}
                Err(error) => return Err(error.into()),
            }
        }
        parse_case(&to.display().to_string(), &new_case(case)).map_err(KeeperError::NotWritten)
    }
}

/// What is told where a file was put into the words of format 2.
fn kept_beside(kept: &Path) -> KeeperError {
    let name = kept.file_name().unwrap_or_default().to_string_lossy();
    KeeperError::Translated(files::visible(&name).into_owned())
}
