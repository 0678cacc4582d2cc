use super::events::Events;
use super::{Keeper, OpenFile, RecoveryOffer, questions};
use crate::Home;
use crate::event::FileEvent;
use crate::keeper_error::KeeperError;
use files::{Digest, EntryOutcome, Journal, Recovery, StoreError, parse_case};
use std::path::Path;

impl Keeper {
    /// Opens what the journal of a file holds that is no longer there; where it
    /// holds nothing, gives why the file was not opened.
    pub(super) fn open_lost(
        &mut self,
        events: &mut Events,
        path: &Path,
        entered: Option<Result<EntryOutcome, StoreError>>,
        why: KeeperError,
    ) -> Result<(), KeeperError> {
        let Some(Ok(EntryOutcome::Alone(presence))) = entered else {
            return Err(why);
        };
        let is_gone = matches!(files::digest_on_disk(&self.disk, path), Ok(None));
        let Some(found) = is_gone
            .then(|| Recovery::find(&self.disk, path, None))
            .and_then(Result::ok)
            .flatten()
        else {
            return Err(why);
        };
        let file = parse_case(&path.display().to_string(), &found.text)
            .map_err(KeeperError::NotRestored)?;
        events.ask(questions::recovery(&found, false));
        self.found = Some(RecoveryOffer::OfFile(found));
        self.kept = Some(OpenFile {
            path: path.to_owned(),
            file,
            // Nothing on disk has it: saving asks.
            digest: Digest::of(b""),
            seen: None,
            journal: None,
            presence: Some(presence),
        });
        Ok(())
    }

    /// Restores what was found.
    pub(super) fn restore(&mut self, events: &mut Events) {
        match self.found.take() {
            None => {}
            Some(RecoveryOffer::Unfiled(found, presence)) => {
                self.restore_loose(events, found, presence);
            }
            Some(RecoveryOffer::OfFile(found)) => self.restore_file(events, found),
        }
        self.tell_journal(events);
    }

    fn restore_file(&mut self, events: &mut Events, found: Recovery) {
        let Some(kept) = &mut self.kept else { return };
        let file = match parse_case(kept.file.source().name(), &found.text) {
            Ok(file) => file,
            Err(faults) => return events.warn(KeeperError::NotRestored(faults)),
        };
        match found.restore() {
            Ok(journal) => kept.journal = Some(journal),
            Err(error) => return events.warn(error),
        }
        let home = Home::File(kept.path.clone());
        events.push(FileEvent::Restored(file.into_value(), home));
    }

    /// Drops what was found, for good.
    pub(super) fn discard(&mut self, events: &mut Events) {
        let dropped = match self.found.take() {
            None => return,
            Some(RecoveryOffer::Unfiled(found, _presence)) => found.discard(),
            Some(RecoveryOffer::OfFile(found)) => {
                if let Some(kept) = &mut self.kept {
                    let text = kept.file.source().original();
                    kept.journal = Some(Journal::new(&self.disk, &kept.path, &text));
                }
                found.discard()
            }
        };
        match dropped {
            Ok(()) => events.tell("the changes are dropped"),
            Err(error) => events.warn(error),
        }
        self.tell_journal(events);
    }

    /// Ends the program and drops what was not saved, for good.
    pub(super) fn abandon(&mut self, events: &mut Events) {
        let loose = self
            .loose
            .take()
            .map_or(Ok(()), super::UnfiledCase::dropped);
        let journal = self.kept.as_mut().and_then(|kept| {
            let text = kept.file.source().original();
            Some(kept.journal.as_mut()?.saved(&text))
        });
        match loose.and(journal.unwrap_or(Ok(()))) {
            Ok(()) => events.push(FileEvent::Ended),
            Err(why) => events.warn(why),
        }
    }
}
