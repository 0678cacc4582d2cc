//! What stands between the session and the disk.

mod choose;
mod events;
mod lessons;
mod look_back;
mod questions;
mod recovery;
mod rules;
mod save;
mod sheet;
mod shelf;
mod unfiled;
mod watch;

use crate::effect::Effect;
use crate::errand::Errand;
use crate::event::{Event, FileEvent};
use crate::keeper_error::KeeperError;
use crate::{CaseChange, Home, Session};
use events::Events;
use files::{
    CaseFile, Digest, Disk, EntryOutcome, Journal, JournalError, Presence, Recent, Recovery,
    Scores, StoreError, Unfiled, read_case, visible,
};
use rules::OwnRules;
use shelf::OwnShapes;
use std::collections::VecDeque;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use unfiled::UnfiledCase;

/// Keeps the open case in its file and what was changed in a journal beside it.
///
/// It runs the effects of a session that are of files: see [`run`](Self::run).
#[derive(Debug, Default)]
pub struct Keeper {
    disk: Disk,
    kept: Option<OpenFile>,
    /// The case in no file, once it was changed.
    loose: Option<UnfiledCase>,
    /// What was kept of it until it was as it came again: gone, but not forced to
    /// disk yet.
    forgotten: Option<UnfiledCase>,
    /// What a journal held, until it is answered.
    found: Option<RecoveryOffer>,
    /// Since when a nudge is recorded that is not forced to disk.
    nudged: Option<Instant>,
    /// When the open file was looked at last.
    looked: Option<Instant>,
    /// Where cases in no file are kept; `None`: nowhere, they are lost in a crash.
    unfiled: Option<Unfiled>,
    recent: Option<Recent>,
    /// How lessons went.
    scores: Option<Scores>,
    /// Where the user's own catalogue is kept; `None`: nowhere.
    own: Option<OwnShapes>,
    /// Where your centre's rules are kept; `None`: nowhere.
    rules: Option<OwnRules>,
}

/// What a journal held when it was found.
#[derive(Debug)]
enum RecoveryOffer {
    /// Of the open file.
    OfFile(Recovery),
    /// Of a case in no file, held until it is answered.
    Unfiled(Recovery, Presence),
}

/// A file that is open.
#[derive(Debug)]
struct OpenFile {
    path: PathBuf,
    /// The file as it is on disk, as far as is known.
    file: CaseFile,
    digest: Digest,
    /// What it was when it was looked at last, if it was there.
    seen: Option<Digest>,
    /// None where another window keeps one, or nobody can tell.
    journal: Option<Journal>,
    /// Held while the file is open.
    presence: Option<Presence>,
}

/// How long a row of nudges goes on before it is forced to disk all the same: a key
/// held down does not wait for the disk at each step.
const NUDGING: Duration = Duration::from_millis(300);

impl Keeper {
    /// A keeper that writes to a disk.
    pub fn on(disk: Disk) -> Self {
        Self {
            disk,
            ..Self::default()
        }
    }

    /// The keeper with a folder of its own, where it keeps cases in no file safe and
    /// remembers which were open.
    #[must_use]
    pub fn with_folder(mut self, folder: &Path) -> Self {
        let (unfiled, recent) = (folder.join("unfiled"), folder.join("recent.ron"));
        self.unfiled = Some(Unfiled::new(self.disk.clone(), unfiled));
        self.recent = Some(Recent::new(self.disk.clone(), recent));
        let scores = folder.join("lessons.ron");
        self.scores = Some(Scores::new(self.disk.clone(), scores));
        self
    }

    /// Says, once, what cannot be kept where the program has no folder of its own.
    pub fn tell_what_is_lost(&self, session: &mut Session) {
        let lost = match (&self.unfiled, &self.own) {
            (Some(_), Some(_)) => return,
            (None, Some(_)) => "a case in no file is",
            (Some(_), None) => "changes of the stock are",
            (None, None) => "a case in no file and changes of the stock are",
        };
        session.file(FileEvent::ShelfKept(self.own.is_some()));
        session.file(FileEvent::Failed(KeeperError::Lost(lost)));
    }

    /// Whether a journal of a file is there, whether the file is or not.
    pub fn has_journal_of(path: &Path) -> bool {
        matches!(Recovery::find(&Disk::default(), path, None), Ok(Some(_)))
    }

    /// Opens the case of a file; what its journal holds is shown first, and to be
    /// restored or dropped.
    pub fn open(&mut self, session: &mut Session, path: &Path) -> Result<(), KeeperError> {
        let mut events = Events::default();
        let opened = self.open_file(session, &mut events, path);
        told(session, events);
        opened
    }

    fn open_file(
        &mut self,
        session: &Session,
        events: &mut Events,
        path: &Path,
    ) -> Result<(), KeeperError> {
        let entered = self.enter(path);
        let file = match read(session, path) {
            Ok(file) => file,
            Err(why) => return self.open_lost(events, path, entered, why),
        };
        let (presence, mut warning) = self.presence(entered);
        let text = file.source().original().into_owned();
        let mut journal = None;
        self.found = None;
        if presence.is_some() {
            match Recovery::find(&self.disk, path, Some(&text)) {
                Ok(Some(found)) => self.found = Some(RecoveryOffer::OfFile(found)),
                Ok(None) => journal = Some(Journal::new(&self.disk, path, &text)),
                Err(error) => warning = Some(error.into()),
            }
        }
        let case = file.value().clone();
        events.push(FileEvent::Opened(case, Home::File(path.to_owned())));
        // What was kept of a case in no file is offered at the next start.
        self.loose = None;
        if let Some(RecoveryOffer::OfFile(found)) = &self.found {
            events.ask(questions::recovery(found, true));
        }
        self.kept = Some(OpenFile {
            path: path.to_owned(),
            digest: Digest::of(text.as_bytes()),
            seen: Some(Digest::of(text.as_bytes())),
            file,
            journal,
            presence,
        });
        self.tell_journal(events);
        self.remember(path);
        match warning {
            Some(warning) => events.warn(warning),
            None => events.tell(format!("opened {}", shown(path))),
        }
        Ok(())
    }

    /// Runs the effects that are a keeper's, in their order but for changes of the case,
    /// which are recorded first, and lets the session know what came of each; gives back
    /// the effects of others. Once it returns, what is on the screen survives the
    /// program.
    pub fn run(
        &mut self,
        session: &mut Session,
        effects: Vec<Effect>,
        now: Instant,
    ) -> Vec<Effect> {
        let mut waiting = VecDeque::from(effects);
        let mut others = Vec::new();
        loop {
            let changes = changes_of(&mut waiting);
            let mut events = Events::default();
            if changes.is_empty() {
                match waiting.pop_front() {
                    None => return others,
                    Some(sheet @ Effect::File(Errand::Sheet(_))) => others.push(sheet),
                    Some(Effect::File(errand)) => {
                        self.force_all(&mut events);
                        self.errand(session, &mut events, errand);
                    }
                    Some(other) => others.push(other),
                }
            } else {
                self.record(session, &mut events, &changes, now);
            }
            for event in events {
                waiting.extend(session.update(Event::File(Box::new(event))));
            }
        }
    }

    fn errand(&mut self, session: &Session, events: &mut Events, errand: Errand) {
        match errand {
            Errand::Save(save) => self.save(session, events, &save),
            Errand::Choose => self.choose(events, "", None),
            Errand::Open(path) => self.open_other(session, events, &path),
            Errand::OpenShipped(name) => self.open_shipped(events, name),
            Errand::OpenLesson(name) => lessons::open_shipped(session, events, name),
            Errand::KeepScore { lesson, score } => self.keep_score(events, &lesson, score),
            Errand::Reload => self.reload(session, events),
            Errand::Restore => self.restore(events),
            Errand::Discard => self.discard(events),
            Errand::Abandon => self.abandon(events),
            Errand::KeepShelf { over } => self.keep_shelf(session, events, over),
            Errand::ReadShelf => self.read_shelf(events),
            Errand::KeepRules { anew } => self.keep_rules(session, events, anew),
            Errand::ReadRules => self.read_rules(events),
            // Others make it, and give its bytes.
            Errand::Sheet(_) => {}
        }
    }

    /// Forces to disk what was recorded, once it is shown and no row of nudges goes
    /// on; whether there is something to tell.
    pub fn force_at_rest(&mut self, session: &mut Session, now: Instant) -> bool {
        let goes_on = self.rest(session, now).is_some_and(|rest| !rest.is_zero());
        !goes_on && self.force(session)
    }

    /// Forces to disk what was recorded; whether there is something to tell.
    pub fn force(&mut self, session: &mut Session) -> bool {
        let mut events = Events::default();
        let is_failed = self.force_all(&mut events);
        told(session, events);
        is_failed
    }

    /// Forces to disk what was recorded; whether that failed.
    fn force_all(&mut self, events: &mut Events) -> bool {
        self.nudged = None;
        // A loss of power would but offer it again.
        let _ = self.forgotten.take().map(UnfiledCase::dropped);
        let kept = self.kept.as_mut().and_then(|kept| kept.journal.as_mut());
        let loose = self.loose.as_mut().map(UnfiledCase::journal);
        let forced: Result<(), JournalError> =
            kept.into_iter().chain(loose).try_for_each(Journal::force);
        let is_failed = forced.is_err();
        if let Err(error) = forced {
            events.push(NO_JOURNAL);
            events.warn(error);
        }
        is_failed
    }

    /// How long a row of nudges may be left unforced, whatever happens; `None`: there
    /// is none.
    pub fn rest(&self, session: &Session, now: Instant) -> Option<Duration> {
        let since = self.nudged?;
        let goes_on = session.is_nudging();
        Some(if goes_on {
            NUDGING.saturating_sub(now.saturating_duration_since(since))
        } else {
            Duration::ZERO
        })
    }

    /// Enters a file that is not entered yet.
    fn enter(&self, path: &Path) -> Option<Result<EntryOutcome, StoreError>> {
        (!self.is_kept(path)).then(|| Presence::enter(&self.disk, path))
    }

    /// What holds a file that was entered, or was so before; what to warn of.
    fn presence(
        &mut self,
        entered: Option<Result<EntryOutcome, StoreError>>,
    ) -> (Option<Presence>, Option<KeeperError>) {
        match entered {
            None => (self.kept.take().and_then(|kept| kept.presence), None),
            Some(Ok(EntryOutcome::Alone(presence))) => (Some(presence), None),
            Some(Ok(EntryOutcome::Held(holder))) => (None, Some(KeeperError::Held(holder))),
            Some(Err(error)) => (None, Some(KeeperError::NoPresence(error))),
        }
    }

    /// Writes what was changed into the journal, each change by itself, before it is
    /// shown: a nudge like any other.
    fn record(
        &mut self,
        session: &Session,
        events: &mut Events,
        changes: &[CaseChange],
        now: Instant,
    ) {
        if session.is_nudging() {
            self.nudged.get_or_insert(now);
        }
        for change in changes {
            let recorded = match (change.home.file(), &mut self.kept) {
                // What is as it came needs no keeping.
                (None, _) if self.loose.is_none() && !session.is_unsaved() => Ok(()),
                (None, _) => self.record_loose(change),
                (Some(_), Some(kept)) => kept.record(change),
                (Some(_), None) => Ok(()),
            };
            match recorded {
                Ok(()) => self.tell_journal(events),
                Err(why) => {
                    events.push(NO_JOURNAL);
                    events.warn(why);
                }
            }
        }
        if !session.is_unsaved()
            && let Some(mut loose) = self.loose.take()
        {
            if let Err(error) = loose.journal().forget() {
                events.warn(error);
            }
            self.forgotten = Some(loose);
        }
    }

    /// Puts a case first among those that were open. That it cannot is no harm.
    fn remember(&self, path: &Path) {
        if let Some(recent) = &self.recent {
            let _ = recent.note(path);
        }
    }

    fn open_other(&mut self, session: &Session, events: &mut Events, path: &Path) {
        let path = choose::meant(path);
        if self.keeps(session.document().home()) && self.is_kept(&path) {
            self.reload(session, events);
        } else if lessons::open(session, events, &path) {
            // The case stays as it is under the lesson.
        } else if let Err(why) = self.open_file(session, events, &path) {
            self.choose(events, &path.display().to_string(), Some(why));
        }
    }

    /// Reads the file again; what was changed here is a step back.
    fn reload(&mut self, session: &Session, events: &mut Events) {
        let Some(kept) = &mut self.kept else {
            return;
        };
        let file = match read(session, &kept.path) {
            Ok(file) => file,
            Err(why) => return events.warn(why),
        };
        let text = file.source().original().into_owned();
        kept.digest = Digest::of(text.as_bytes());
        let case = file.value().clone();
        kept.file = file;
        let dropped = kept.journal.as_mut().map(|journal| journal.saved(&text));
        events.push(FileEvent::Reloaded(case));
        if let Some(Err(error)) = dropped {
            events.warn(error);
        }
    }

    /// Whether a case that is kept there is the open file's.
    fn keeps(&self, home: &Home) -> bool {
        let path = self.kept.as_ref().map(|kept| kept.path.as_path());
        path.is_some() && path == home.file()
    }

    /// Whether a path leads to the open file.
    fn is_kept(&self, path: &Path) -> bool {
        self.kept.as_ref().is_some_and(|kept| {
            let real = |path: &Path| path.canonicalize().ok();
            kept.path == path || (real(path).is_some() && real(path) == real(&kept.path))
        })
    }

    fn tell_journal(&self, events: &mut Events) {
        let kept = self.kept.as_ref().filter(|kept| kept.journal.is_some());
        let file = kept.map(|kept| kept.path.clone());
        events.push(FileEvent::Journalled {
            file,
            unfiled: self.unfiled.is_some(),
        });
    }
}

impl OpenFile {
    /// Records a change, if it is of this file and changes its text.
    fn record(&mut self, change: &CaseChange) -> Result<(), KeeperError> {
        let Some(journal) = &mut self.journal else {
            return Ok(());
        };
        if change.home.file() != Some(&self.path) {
            return Ok(());
        }
        let file = self.file.with(&change.case);
        let file = file.map_err(KeeperError::NotRecorded)?;
        let text = file.source().original();
        Ok(journal.record(&change.called, &text, change.goes_on)?)
    }
}

/// No journal is kept, of nothing.
const NO_JOURNAL: FileEvent = FileEvent::Journalled {
    file: None,
    unfiled: false,
};

/// Takes the changes of the case out of what is to be done.
fn changes_of(waiting: &mut VecDeque<Effect>) -> Vec<CaseChange> {
    let mut changes = Vec::new();
    for effect in std::mem::take(waiting) {
        match effect {
            Effect::Record(change) => changes.push(change),
            other => waiting.push_back(other),
        }
    }
    changes
}

/// Lets a session know what came of something that it did not ask for.
fn told(session: &mut Session, events: Events) {
    for event in events {
        session.file(event);
    }
}

/// A path, safe to show.
fn shown(path: &Path) -> String {
    visible(&path.display().to_string()).into_owned()
}

/// Reads a case that the rules of the house can be held against.
fn read(session: &Session, path: &Path) -> Result<CaseFile, KeeperError> {
    let file = read_case(path)?;
    match file.faults_under(session.document().rules()) {
        faults if faults.is_empty() => Ok(file),
        faults => Err(KeeperError::Faulty(faults)),
    }
}

#[cfg(unix)]
#[cfg(test)]
mod tests;
