//! What a command does, and what follows from it.

use super::files::NudgeRow;
use crate::bay::Bay;
use crate::command::{Change, Command};
use crate::effect::Effect;
use crate::file_name::proposed;
use crate::model::Status;
use crate::overlay::{Field, Overlay, Prompt, WhyWalk};
use crate::row::{kept, rows};
use crate::worker::{RankingResult, Reply, Request};
use crate::{Edit, Focus, Refused, Session};
use sizing::Setting;
use sizing::why::why;
use std::cmp::Ordering;
use std::sync::Arc;

impl Session {
    /// Does a command, and says in the status line what was done or why not.
    pub(crate) fn command(&mut self, command: &Command) {
        let change = (command.change)(self);
        self.accept_or_say(change);
    }

    /// Makes a change; gives what to say of it.
    pub(super) fn perform(&mut self, change: Change) -> Result<Option<Status>, Refused> {
        if !matches!(change, Change::Nudge(_)) {
            self.model.history.close();
        }
        let by_hand = self.bays_by_hand();
        let is_nudge = matches!(change, Change::Nudge(_));
        let is_new = matches!(change, Change::Edit(_));
        let steps = self.model.history.len();
        let goes_on = is_nudge && self.model.history.is_open();
        let deployed = self.deployed();
        let (status, edit) = match change {
            Change::Edit(edit) => {
                let label = self.model.history.edit(&edit, &mut self.model.document)?;
                (label.map(Status::Done), edit)
            }
            Change::Nudge(edit) => {
                let label = self.model.history.nudge(&edit, &mut self.model.document)?;
                (label.map(Status::Done), edit)
            }
            Change::Undo => {
                let (label, edit) = self.model.history.undo(&mut self.model.document)?;
                (Some(Status::Undone(label)), edit)
            }
            Change::Redo => {
                let (label, edit) = self.model.history.redo(&mut self.model.document)?;
                (Some(Status::Done(label)), edit)
            }
            Change::View(view, overlays) => {
                let mouse_key = self.key_of("free_mouse");
                let says = view.looks.change_says(self.view().looks, &mouse_key);
                self.model.view = *view;
                self.overlays = overlays;
                return Ok(says.map(Status::Done));
            }
            Change::Minute(now) => {
                self.model.view.puncture = Some(self.clock() - now);
                return Ok(None);
            }
            Change::Day(day) => {
                self.model.view.day = Some(day);
                self.model.view.pick = None;
                return Ok(None);
            }
            Change::Grown(body) => {
                self.model.view.grown = Some(body);
                return Ok(None);
            }
            Change::AskPath { leaves } => {
                let path = self.document.home.file();
                let path = path.map_or_else(
                    || proposed(&self.document.case.title),
                    |path| path.display().to_string(),
                );
                let field = Field::new(Prompt::SaveTo { leaves }, path);
                self.overlays.push(Overlay::Field(field));
                return Ok(None);
            }
            Change::Copy(text) => {
                self.outbox.push(Effect::Copy(text));
                return Ok(Some(Status::Done("copied".to_owned())));
            }
            Change::Errand(errand) => {
                self.outbox.push(Effect::File(errand));
                return Ok(None);
            }
            Change::Why(bay) => {
                let walk = self.why(bay)?;
                self.overlays.push(Overlay::Why(walk));
                return Ok(None);
            }
            Change::LookBack(folder) => {
                self.look_back(folder);
                return Ok(None);
            }
            Change::AskRules(asked) => {
                self.ask_rules(*asked);
                return Ok(None);
            }
            Change::Suspend => {
                self.outbox.push(Effect::Suspend);
                return Ok(None);
            }
            Change::Leave => {
                self.outbox.push(Effect::Leave);
                return Ok(None);
            }
        };
        if let Some(status) = &status {
            if edit.is_of_case() {
                let row = match self.model.history.len().cmp(&steps) {
                    Ordering::Less if goes_on => NudgeRow::Undone,
                    Ordering::Equal if goes_on => NudgeRow::GoesOn,
                    _ => NudgeRow::None,
                };
                self.confirm(status, row);
            }
            self.follow(&edit, &by_hand);
            self.follow_procedure(&edit, is_new);
            self.ask_forecasts(&edit, deployed);
        }
        Ok(status)
    }

    /// The walk through the neighbours of a size. A few sizes as measured are worked out
    /// at once: no draw is counted.
    fn why(&self, bay: Bay) -> Result<WhyWalk, Refused> {
        let shelf = self.document().shelf();
        let (shape, size) = bay.find(shelf).ok_or(Refused::NoSuchSize)?;
        let setting = self.believed();
        Ok(WhyWalk {
            name: bay.name(shelf),
            setting: Arc::clone(setting),
            steps: why(setting, shape, &size, bay.place).into(),
            index: 0,
        })
    }

    /// Brings what depends on the document in line with an edit that was made.
    fn follow(&mut self, edit: &Edit, by_hand: &[Bay]) {
        if edit.is_of_case() {
            // Which question is asked next hangs on the work-up.
            if matches!(edit, Edit::Case { .. }) || self.is_guided() {
                self.make_ready();
            } else {
                self.make_ready_at_once();
            }
            self.model.results.outdate();
            if matches!(edit, Edit::Case { .. }) {
                self.model.results.forget();
                let is_guide = |layer: &Overlay| matches!(layer, Overlay::Guide(_));
                self.overlays.retain(|layer| !is_guide(layer));
                self.model.view.selected[Focus::Bays] = 0;
                self.model.view.pick = None;
                // Another child has other days and grows otherwise.
                self.model.view.day = None;
                self.model.view.grown = None;
                self.bays_wait = true;
            }
            let rows = rows(&self.model.document);
            let was = edit.row().or_else(|| self.row().cloned());
            let row = &mut self.model.view.selected[Focus::Readings];
            *row = was.map_or(0, |was| kept(&rows, &was, *row));
            self.model.rows = rows;
        } else if let Edit::Shelf { .. } = edit {
            self.follow_shelf();
        } else if let Edit::Rules { .. } = edit {
            self.follow_rules();
        } else if self.bays_by_hand() != by_hand {
            self.model.results.outdate();
        }
        // Once the operator has begun, what is pinned stays pinned.
        self.bays_wait &= self.model.document.bays.is_empty() || self.is_guided();
        if matches!(edit, Edit::Bays(_)) {
            self.bays_wait = false;
            self.keep_to_bays();
        }
    }

    /// Makes the case ready under its rules and works it up against the published
    /// limits, for what is opened or asked question by question.
    pub(super) fn make_ready(&mut self) {
        self.make_plain();
        let setting = Setting::clone(&self.model.plain_setting);
        self.model.setting = Arc::new(files::worked_up(setting, self.model.limits.as_deref()));
        self.model.work_up_is_of_before = false;
    }

    /// Makes the case ready under its rules and leaves the work-up to the worker: a
    /// nudge does not wait for it. Until it is there the one of before stands in, and
    /// what hangs on it is shown as of before.
    pub(super) fn make_ready_at_once(&mut self) {
        self.make_plain();
        let guidance = self.model.setting.guidance().clone();
        let setting = Setting::clone(&self.model.plain_setting);
        self.model.setting = Arc::new(setting.with_guidance(guidance));
        self.model.work_up_is_of_before = self.model.limits.is_some();
    }

    fn make_plain(&mut self) {
        let case = Arc::clone(&self.model.document.case);
        let rules = Arc::clone(&self.model.document.rules);
        self.model.plain_setting = Arc::new(Setting::new(case, rules));
        self.note_plan();
    }

    /// What to assess now, once for each state of the document.
    pub(crate) fn take_request(&mut self) -> Option<Request> {
        self.model.results.ask(self.wanted())?;
        Some(self.request())
    }

    /// Takes what the worker says; gives back the assessment that is not shown any
    /// more: thousands of pieces, to be let go where nobody waits.
    pub(crate) fn receive(&mut self, reply: Reply) -> Option<Arc<RankingResult>> {
        if let Reply::Assessed(new) = &reply
            && new.generation == self.model.results.generation()
        {
            self.model.setting = Arc::clone(&new.setting);
            self.model.work_up_is_of_before = false;
        }
        if let Reply::Foretold(foretold) = &reply {
            self.freeze(foretold);
        }
        let not_shown = self.model.results.receive(reply);
        self.fill_waiting_bays();
        not_shown
    }

    /// Pins the first of the list, where bays still wait for it.
    pub(super) fn fill_waiting_bays(&mut self) {
        if self.bays_wait && self.model.results.assessed().is_some() {
            self.fill_bays();
        }
    }

    /// Selects the last bay where the one that was selected is gone.
    pub(super) fn keep_to_bays(&mut self) {
        let last = self.model.document.bays.len().saturating_sub(1);
        let bay = &mut self.model.view.selected[Focus::Bays];
        *bay = last.min(*bay);
    }

    /// Pins what a list shows first; again with each result until the last. Opening is
    /// no step to undo.
    fn fill_bays(&mut self) {
        let Some(assessed) = self.model.results.assessed() else {
            return;
        };
        let first = assessed.ranking.shown_first();
        let bays = first.iter().map(|one| Bay::new(one.place)).collect();
        // While a case is still being asked for, its list is not worth keeping.
        self.bays_wait = self.model.results.is_awaited() || self.is_guided();
        self.model.document.bays = bays;
    }
}
