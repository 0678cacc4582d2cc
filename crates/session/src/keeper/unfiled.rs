use super::events::Events;
use super::{Keeper, RecoveryOffer, questions};
use crate::CaseChange;
use crate::event::FileEvent;
use crate::keeper_error::KeeperError;
use crate::{Home, Session};
use files::{
    Disk, EntryOutcome, Journal, JournalError, Presence, Recovery, Unfiled, new_case, parse_case,
};

/// A case in no file, kept safe in a journal of its own.
#[derive(Debug)]
pub(super) struct UnfiledCase {
    journal: Journal,
    /// Held while the case is open.
    _presence: Presence,
}

impl UnfiledCase {
    /// Begins a journal under a name that nobody has.
    fn begin(disk: &Disk, unfiled: &Unfiled) -> Result<Self, KeeperError> {
        let name = unfiled.another().map_err(KeeperError::NoJournal)?;
        match Presence::enter(disk, &name) {
            Ok(EntryOutcome::Alone(presence)) => Ok(Self {
                journal: Journal::new(disk, &name, ""),
                _presence: presence,
            }),
            Ok(EntryOutcome::Held(_)) => Err(KeeperError::NameTaken),
            Err(why) => Err(KeeperError::NoJournal(why)),
        }
    }

    /// Records a change, if it makes the case another.
    fn record(&mut self, change: &CaseChange) -> Result<(), JournalError> {
        let text = new_case(&change.case);
        self.journal.record(&change.called, &text, change.goes_on)
    }

    /// The journal that holds the case.
    pub(super) const fn journal(&mut self) -> &mut Journal {
        &mut self.journal
    }

    /// Drops what is kept: it is safe elsewhere, or not wanted.
    pub(super) fn dropped(mut self) -> Result<(), JournalError> {
        self.journal.saved("")
    }
}

impl Keeper {
    /// Offers the newest case in no file that a window which died left behind, if
    /// nothing else is asked.
    pub fn offer_unfiled(&mut self, session: &mut Session) {
        let names = self.unfiled.as_ref().map(Unfiled::names);
        if self.found.is_some() {
            return;
        }
        for name in names.into_iter().flatten() {
            // Another window that lives holds what it works on.
            let Ok(EntryOutcome::Alone(presence)) = Presence::enter(&self.disk, &name) else {
                continue;
            };
            if let Ok(Some(found)) = Recovery::find(&self.disk, &name, None) {
                session.file(FileEvent::Asked(questions::unfiled(&found)));
                self.found = Some(RecoveryOffer::Unfiled(found, presence));
                return;
            }
        }
    }

    /// Records a change of a case in no file, where such are kept.
    pub(super) fn record_loose(&mut self, change: &CaseChange) -> Result<(), KeeperError> {
        let Some(unfiled) = &self.unfiled else {
            return Ok(());
        };
        let mut loose = match self.loose.take() {
            Some(loose) => loose,
            None => UnfiledCase::begin(&self.disk, unfiled)?,
        };
        let recorded = loose.record(change);
        self.loose = Some(loose);
        Ok(recorded?)
    }

    /// Goes on with a case that was in no file.
    pub(super) fn restore_loose(
        &mut self,
        events: &mut Events,
        found: Recovery,
        presence: Presence,
    ) {
        let file = match parse_case("the case in no file", &found.text) {
            Ok(file) => file,
            Err(faults) => return events.warn(KeeperError::NotRestored(faults)),
        };
        match found.restore() {
            Ok(journal) => {
                self.loose = Some(UnfiledCase {
                    journal,
                    _presence: presence,
                });
            }
            Err(error) => return events.warn(error),
        }
        events.push(FileEvent::Restored(file.into_value(), Home::Nowhere));
    }
}
