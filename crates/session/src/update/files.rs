use crate::Session;
use crate::case_change::CaseChange;
use crate::effect::Effect;
use crate::keeper_error::KeeperError;
use crate::model::Status;
use crate::overlay::{Field, Overlay, Prompt};
use crate::row::rows;
use crate::{Change, Edit, Focus, History, Home};
use sizing::Case;
use std::path::Path;
use std::sync::Arc;

/// Whether a change goes on with a row of nudges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NudgeRow {
    /// It does not: it is a step of its own.
    None,
    /// It does.
    GoesOn,
    /// It does, and the row ends where it began.
    Undone,
}

/// What a [`Keeper`](crate::Keeper) asks and tells, and what is known of the file.
impl Session {
    /// Notes a change of the case that was made.
    pub(super) fn confirm(&mut self, status: &Status, row: NudgeRow) {
        let called = match status {
            // Nothing is left of the row to tell of.
            _ if row == NudgeRow::Undone => String::new(),
            Status::Done(what) => what.clone(),
            Status::Undone(what) => format!("taken back: {what}"),
            Status::Refused(_) => return,
        };
        self.outbox.push(Effect::Record(CaseChange {
            called,
            case: Arc::clone(&self.model.document.case),
            home: self.model.document.home.clone(),
            goes_on: row != NudgeRow::None,
        }));
    }

    /// Says what was done with files.
    pub(super) fn tell(&mut self, what: impl Into<String>) {
        self.model.status = Some(Status::Done(what.into()));
    }

    /// Says something more of what was just done.
    pub(super) fn tell_also(&mut self, what: &str) {
        match &mut self.model.status {
            Some(Status::Done(said) | Status::Undone(said)) => {
                *said = format!("{said}; {what}");
            }
            _ => self.tell(what),
        }
    }

    /// Says why something was not done with files.
    pub fn warn(&mut self, why: impl Into<String>) {
        self.model.status = Some(Status::Refused(why.into()));
    }

    /// Asks for a path once more, with what was wrong with the one typed.
    pub(super) fn ask_again(&mut self, prompt: Prompt, path: &Path, error: &KeeperError) {
        let mut field = Field::new(prompt, path.display().to_string());
        field.error = Some(error.to_string());
        self.overlays.push(Overlay::Field(field));
    }

    /// The case is kept here now, as it is.
    pub(super) fn saved(&mut self, home: Home) {
        self.model.saved = Arc::clone(&self.model.document.case);
        self.model.document.home = home;
    }

    /// Opens another case in place of this one; what was done to this one is
    /// no longer undone.
    pub(super) fn replace(&mut self, case: Case, home: Home) {
        self.model.document.case = Arc::new(case);
        self.saved(home);
        self.model.history = History::default();
        self.model.document.bays.clear();
        self.overlays.clear();
        self.make_ready();
        self.model.rows = rows(&self.model.document);
        self.model.view.selected[Focus::Readings] = 0;
        self.model.view.selected[Focus::Bays] = 0;
        self.model.view.puncture = None;
        self.model.view.observer = None;
        self.model.view.pick = None;
        self.model.results.outdate();
        self.model.results.forget();
        self.bays_wait = true;
    }

    /// The case is another one, kept there; a step to undo. Whether anything
    /// changed.
    pub(super) fn exchange(&mut self, case: Case, home: Home, called: &'static str) -> bool {
        let edit = Edit::Case {
            case: Arc::new(case),
            home,
            bays: self.model.document.bays.clone(),
            called,
        };
        match self.perform(Change::Edit(edit)) {
            Ok(Some(status)) => {
                self.model.status = Some(status);
                true
            }
            Ok(None) | Err(_) => false,
        }
    }

    /// The case is the one of the file, which was read again.
    pub(super) fn reload(&mut self, case: Case) {
        let home = self.model.document.home.clone();
        if !self.exchange(case, home, "reloaded") {
            self.tell(format!(
                "unchanged: {} holds what is open",
                self.case_name()
            ));
        }
        self.agrees_with_file();
    }

    /// The file says what is open.
    pub(super) fn agrees_with_file(&mut self) {
        self.model.saved = Arc::clone(&self.model.document.case);
    }
}
