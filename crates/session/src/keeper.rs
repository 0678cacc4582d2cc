//! What stands between the session and the disk.

mod questions;
mod save;

use crate::errand::Errand;
use crate::overlay::Prompt;
use crate::session::Confirmed;
use crate::{Home, Session};
use files::{
    CaseFile, Digest, Entered, Holder, Journal, Presence, Recovery, StoreError, parse_case,
    read_case,
};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant, SystemTime};

/// Keeps the open case in its file and what was changed in a journal beside it.
///
/// It does the errands of a session and records every change that was made: once
/// [`tend`](Self::tend) returns, what is on the screen survives the program. A
/// case that is in no file yet has no journal.
#[derive(Debug, Default)]
pub struct Keeper {
    kept: Option<Kept>,
    /// What the journal held when the file was opened, until it is answered.
    found: Option<Recovery>,
    /// Since when a row of nudges waits for its end.
    nudged: Option<Instant>,
}

/// A file that is open.
#[derive(Debug)]
struct Kept {
    path: PathBuf,
    /// The file as it is on disk, as far as is known.
    file: CaseFile,
    digest: Digest,
    /// None where another window keeps one, or nobody can tell.
    journal: Option<Journal>,
    /// Held while the file is open.
    presence: Option<Presence>,
}

/// How long a row of nudges waits for its end before it is recorded all the same.
const NUDGING: Duration = Duration::from_millis(300);

impl Keeper {
    /// Opens the case of a file; what its journal holds is shown first, and to be
    /// restored or dropped.
    pub fn open(&mut self, session: &mut Session, path: &Path) -> Result<(), String> {
        let entered = self.enter(path);
        let file = read(session, path)?;
        let (presence, mut warning) = self.presence(entered);
        let text = file.source().original().into_owned();
        let mut journal = None;
        self.found = None;
        if presence.is_some() {
            match Recovery::find(path, Some(&text)) {
                Ok(Some(found)) => self.found = Some(found),
                Ok(None) => journal = Some(Journal::new(path, &text)),
                Err(error) => warning = Some(error.to_string()),
            }
        }
        session.replace(file.value().clone(), path.to_owned());
        if let Some(found) = &self.found {
            session.ask(questions::recovery(found));
        }
        self.kept = Some(Kept {
            path: path.to_owned(),
            digest: Digest::of(text.as_bytes()),
            file,
            journal,
            presence,
        });
        self.tell_journal(session);
        match warning {
            Some(warning) => session.warn(warning),
            None => session.tell(format!("opened {}", session.case_name())),
        }
        Ok(())
    }

    /// Records what was changed and does what is asked for.
    pub fn tend(&mut self, session: &mut Session) {
        let errand = session.take_errand();
        let is_due = self.rest(session) == Some(Duration::ZERO);
        self.record(session, errand.is_some() || is_due);
        match errand {
            None => {}
            Some(Errand::Save(save)) => self.save(session, &save),
            Some(Errand::Open(path)) => self.open_other(session, &path),
            Some(Errand::Reload) => self.reload(session),
            Some(Errand::Restore) => self.restore(session),
            Some(Errand::Discard) => self.discard(session),
        }
    }

    /// Records all that was changed: the program ends.
    pub fn close(&mut self, session: &mut Session) {
        self.record(session, true);
    }

    /// How long it may be until [`tend`](Self::tend) has something to do, whatever
    /// happens; `None`: nothing waits.
    pub fn rest(&mut self, session: &Session) -> Option<Duration> {
        if !session.is_nudging() {
            self.nudged = None;
            return None;
        }
        let since = *self.nudged.get_or_insert_with(Instant::now);
        Some(NUDGING.saturating_sub(since.elapsed()))
    }

    /// Enters a file that is not entered yet.
    fn enter(&self, path: &Path) -> Option<Result<Entered, StoreError>> {
        (!self.is_kept(path)).then(|| Presence::enter(path))
    }

    /// What holds a file that was entered, or was so before; what to warn of.
    fn presence(
        &mut self,
        entered: Option<Result<Entered, StoreError>>,
    ) -> (Option<Presence>, Option<String>) {
        match entered {
            None => (self.kept.take().and_then(|kept| kept.presence), None),
            Some(Ok(Entered::Alone(presence))) => (Some(presence), None),
            Some(Ok(Entered::Held(holder))) => (None, Some(held(holder))),
            Some(Err(error)) => (None, Some(untold(&error))),
        }
    }

    /// Writes what was changed into the journal, each change by itself.
    fn record(&mut self, session: &mut Session, all: bool) {
        for change in session.take_confirmed(all) {
            let kept = self.kept.as_mut();
            match kept.map_or(Ok(()), |kept| kept.record(&change)) {
                Ok(()) => self.tell_journal(session),
                Err(why) => {
                    session.set_journalled(None);
                    session.warn(why);
                }
            }
        }
    }

    fn open_other(&mut self, session: &mut Session, path: &Path) {
        if self.keeps(session.document().home()) && self.is_kept(path) {
            self.reload(session);
        } else if let Err(why) = self.open(session, path) {
            session.ask_again(Prompt::OpenFile, path, why);
        }
    }

    /// Reads the file again; what was changed here is a step back.
    fn reload(&mut self, session: &mut Session) {
        let Some(kept) = &mut self.kept else {
            return;
        };
        let file = match read(session, &kept.path) {
            Ok(file) => file,
            Err(why) => return session.warn(why),
        };
        let text = file.source().original().into_owned();
        kept.digest = Digest::of(text.as_bytes());
        let case = file.value().clone();
        kept.file = file;
        let dropped = kept.journal.as_mut().map(|journal| journal.saved(&text));
        if !session.exchange(case, "reloaded") {
            session.tell(format!("{} says what is open", session.case_name()));
        }
        session.agrees_with_file();
        if let Some(Err(error)) = dropped {
            session.warn(error.to_string());
        }
    }

    fn restore(&mut self, session: &mut Session) {
        let (Some(kept), Some(found)) = (&mut self.kept, self.found.take()) else {
            return;
        };
        let file = match parse_case(kept.file.source().name(), &found.text) {
            Ok(file) => file,
            Err(faults) => {
                let first = faults.first().map(ToString::to_string);
                return session.warn(format!("not restored: {}", first.unwrap_or_default()));
            }
        };
        match found.restore() {
            Ok(journal) => kept.journal = Some(journal),
            Err(error) => return session.warn(error.to_string()),
        }
        session.exchange(file.into_value(), "restored");
        self.tell_journal(session);
    }

    fn discard(&mut self, session: &mut Session) {
        let (Some(kept), Some(found)) = (&mut self.kept, self.found.take()) else {
            return;
        };
        match found.discard() {
            Ok(()) => {
                let text = kept.file.source().original();
                kept.journal = Some(Journal::new(&kept.path, &text));
                session.tell("the changes in the journal are dropped");
            }
            Err(error) => session.warn(error.to_string()),
        }
        self.tell_journal(session);
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

    fn tell_journal(&self, session: &mut Session) {
        let kept = self.kept.as_ref().filter(|kept| kept.journal.is_some());
        session.set_journalled(kept.map(|kept| kept.path.clone()));
    }
}

impl Kept {
    /// Records a change, if it is of this file and changes its text.
    fn record(&mut self, change: &Confirmed) -> Result<(), String> {
        let Some(journal) = &mut self.journal else {
            return Ok(());
        };
        if change.home.file() != Some(&self.path) {
            return Ok(());
        }
        let file = self.file.with(&change.case);
        let file = file.map_err(|error| format!("not safe from a crash: {error}"))?;
        let text = file.source().original();
        if text == journal.text() {
            return Ok(());
        }
        journal
            .record(&change.called, &text)
            .map_err(|error| error.to_string())
    }
}

/// Reads a case that the rules of the house can be held against.
fn read(session: &Session, path: &Path) -> Result<CaseFile, String> {
    let file = read_case(path).map_err(|error| error.to_string())?;
    match file.faults_under(session.document().rules()).first() {
        None => Ok(file),
        Some(fault) => Err(fault.to_string()),
    }
}

/// What a second window is told.
fn held(holder: Option<Holder>) -> String {
    let who = holder.map_or_else(String::new, |holder| {
        let open = SystemTime::now().duration_since(holder.since);
        let minutes = open.unwrap_or_default().as_secs() / SECONDS_PER_MINUTE;
        format!(" (process {}, for {minutes} min)", holder.process)
    });
    format!("open in another window{who}: changes here are in no journal until they are saved")
}

/// Seconds of a minute.
const SECONDS_PER_MINUTE: u64 = 60;

/// What is told where nobody can tell whether another window has the case open.
fn untold(error: &StoreError) -> String {
    format!("no journal is kept, save often: {error}")
}

#[cfg(unix)]
#[cfg(test)]
mod tests;
