mod filing;
mod guiding;
mod keys;
mod look;
mod pointer;
mod shelving;
mod update;

use crate::effect::Effect;
use crate::overlay::Overlay;
use crate::row::{kept, rows};
use crate::worker::{MapGrain, Reply, Request};
use crate::{
    Assessed, Bay, Change, Command, Document, Edit, Focus, History, KeyMap, Looks, PageRequest,
    Refused, Results, Row, View,
};
use sizing::{Case, Catalogue, HouseRules, Setting};
use std::cmp::Ordering;
use std::path::PathBuf;
use std::sync::Arc;
use workup::Limits;

use filing::{NudgeRow, OwnFolders};

/// The open document with everything of the program that is not its terminal.
#[derive(Clone, Debug)]
pub struct Session {
    document: Document,
    /// The case under its rules, not worked up.
    plain_setting: Arc<Setting>,
    /// The same, worked up; until the worker has done so, with the work-up of before.
    setting: Arc<Setting>,
    /// Whether the work-up in it is of before the last change.
    work_up_is_of_before: bool,
    rows: Vec<Row>,
    history: History,
    view: View,
    keymap: KeyMap,
    limits: Option<Arc<Limits>>,
    results: Results,
    status: Option<Status>,
    /// Whether what is being worked out is said to be.
    is_said_to_work: bool,
    /// Whether the bays still wait for the last result of opening to fill them.
    bays_wait: bool,
    /// The case as it was read or saved.
    saved: Arc<Case>,
    /// What is to be done outside since the last event.
    outbox: Vec<Effect>,
    /// The file beside which a journal is kept.
    journalled: Option<PathBuf>,
    /// What is kept in folders of the user's own.
    own_folders: OwnFolders,
}

/// What is said in the status line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Status {
    /// What was done.
    Done(String),
    /// What was taken back.
    Undone(String),
    /// Why something was not done.
    Refused(String),
}

/// Candidates pinned when the first result is there.
const FIRST_BAYS: usize = 2;

impl Session {
    /// Opens a case against catalogues and the rules of a house.
    pub fn open(case: Case, catalogues: Vec<Catalogue>, rules: HouseRules) -> Self {
        let document = Document::new(case, catalogues, rules);
        let setting = Arc::new(Setting::new(
            Arc::clone(&document.case),
            Arc::clone(&document.rules),
        ));
        Self {
            saved: Arc::clone(&document.case),
            outbox: Vec::new(),
            journalled: None,
            own_folders: OwnFolders {
                unfiled: false,
                shelf: true,
            },
            plain_setting: Arc::clone(&setting),
            setting,
            work_up_is_of_before: false,
            rows: rows(&document),
            document,
            history: History::default(),
            view: View::default(),
            keymap: KeyMap::default(),
            limits: None,
            results: Results::default(),
            status: None,
            is_said_to_work: false,
            bays_wait: true,
        }
    }

    /// The session with another key map.
    #[must_use]
    pub fn with_keymap(mut self, keymap: KeyMap) -> Self {
        self.keymap = keymap;
        self
    }

    /// The session with the user's own catalogue laid over the others.
    #[must_use]
    pub fn with_own_shapes(mut self, own: Catalogue) -> Self {
        self.document.shelf = self.document.shelf.with_own(own);
        self
    }

    /// The session with published limits, against which the case is worked up.
    #[must_use]
    pub fn with_limits(mut self, limits: Limits) -> Self {
        self.limits = Some(Arc::new(limits));
        self.make_ready();
        self
    }

    /// Makes the case ready under its rules and works it up against the published
    /// limits, for what is opened or asked question by question.
    fn make_ready(&mut self) {
        self.make_plain();
        let setting = Setting::clone(&self.plain_setting);
        self.setting = Arc::new(files::worked_up(setting, self.limits.as_deref()));
        self.work_up_is_of_before = false;
    }

    /// Makes the case ready under its rules and leaves the work-up to the worker: a
    /// nudge does not wait for it. Until it is there the one of before stands in, and
    /// what hangs on it is shown as of before.
    fn make_ready_at_once(&mut self) {
        self.make_plain();
        let guidance = self.setting.guidance().clone();
        let setting = Setting::clone(&self.plain_setting);
        self.setting = Arc::new(setting.with_guidance(guidance));
        self.work_up_is_of_before = self.limits.is_some();
    }

    fn make_plain(&mut self) {
        let case = Arc::clone(&self.document.case);
        let rules = Arc::clone(&self.document.rules);
        self.plain_setting = Arc::new(Setting::new(case, rules));
    }

    /// The session saying, until the first key, what is open and how a case of
    /// one's own is begun: for a program that was started without one.
    #[must_use]
    pub fn with_greeting(mut self) -> Self {
        let (new, all) = (self.key_of("new_case"), self.key_of("commands"));
        self.status = Some(Status::Done(format!(
            "an invented child to look round in; {new} begins your own case, {all} lists all keys"
        )));
        self
    }

    /// Does a command, and says in the status line what was done or why not.
    pub(crate) fn command(&mut self, command: &Command) {
        let change = (command.change)(self);
        self.accept_or_say(change);
    }

    /// What to assess now, once for each state of the document.
    pub(crate) fn take_request(&mut self) -> Option<Request> {
        self.results.ask(self.wanted())?;
        Some(self.request())
    }

    /// What is to be assessed as things stand, whether it was asked for or not.
    pub fn request(&self) -> Request {
        let shapes = self.document.shelf.shapes();
        let sizes = shapes.map(|(_, shape)| shape.sizes.len()).sum();
        Request {
            generation: self.results.generation(),
            wanted: self.wanted(),
            limits: self.limits.clone(),
            setting: Arc::clone(&self.plain_setting),
            shelf: self.document.shelf.clone(),
            by_hand: self.bays_by_hand(),
            stages: Request::stages(sizes),
            map: MapGrain::USUAL,
            work_up_draws: Request::WORK_UP_DRAWS,
            seed: sizing::Draws::SEED,
        }
    }

    /// Takes what the worker says; gives back the assessment that is not shown any
    /// more: thousands of pieces, to be let go where nobody waits.
    pub(crate) fn receive(&mut self, reply: Reply) -> Option<Arc<Assessed>> {
        if let Reply::Assessed(new) = &reply
            && new.generation == self.results.generation()
        {
            self.setting = Arc::clone(&new.setting);
            self.work_up_is_of_before = false;
        }
        let not_shown = self.results.receive(reply);
        self.fill_waiting_bays();
        not_shown
    }

    /// Pins the first of the list, where bays still wait for it.
    fn fill_waiting_bays(&mut self) {
        if self.bays_wait && self.results.assessed().is_some() {
            self.fill_bays();
        }
    }

    /// The session with other looks.
    #[must_use]
    pub const fn with_looks(mut self, looks: Looks) -> Self {
        self.view.looks = looks;
        self.view.present(looks.is_presented);
        self
    }

    /// Whether something is being worked out.
    pub fn is_working(&self) -> bool {
        let is_missing = |wanted: PageRequest| !self.results.is_there(wanted);
        let is_failed = self.results.failure().is_some();
        !is_failed && (self.results.is_awaited() || self.wanted().is_some_and(is_missing))
    }

    /// Whether what is being worked out is said to be.
    pub fn says_it_works(&self) -> bool {
        self.is_said_to_work && self.is_working()
    }

    /// Makes a change; gives what to say of it.
    fn perform(&mut self, change: Change) -> Result<Option<Status>, Refused> {
        if !matches!(change, Change::Nudge(_)) {
            self.history.close();
        }
        let by_hand = self.bays_by_hand();
        let is_nudge = matches!(change, Change::Nudge(_));
        let steps = self.history.len();
        let goes_on = is_nudge && self.history.is_open();
        let (status, edit) = match change {
            Change::Edit(edit) => {
                let label = self.history.edit(&edit, &mut self.document)?;
                (label.map(Status::Done), edit)
            }
            Change::Nudge(edit) => {
                let label = self.history.nudge(&edit, &mut self.document)?;
                (label.map(Status::Done), edit)
            }
            Change::Undo => {
                let (label, edit) = self.history.undo(&mut self.document)?;
                (Some(Status::Undone(label)), edit)
            }
            Change::Redo => {
                let (label, edit) = self.history.redo(&mut self.document)?;
                (Some(Status::Done(label)), edit)
            }
            Change::View(view) => {
                self.view = view;
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
                let row = match self.history.len().cmp(&steps) {
                    Ordering::Less if goes_on => NudgeRow::Undone,
                    Ordering::Equal if goes_on => NudgeRow::GoesOn,
                    _ => NudgeRow::None,
                };
                self.confirm(status, row);
            }
            self.follow(&edit, &by_hand);
        }
        Ok(status)
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
            self.results.outdate();
            if matches!(edit, Edit::Case { .. }) {
                self.results.forget();
                let is_guide = |layer: &Overlay| matches!(layer, Overlay::Guide(_));
                self.view.overlays.retain(|layer| !is_guide(layer));
                self.view.selected[Focus::Bays] = 0;
                self.bays_wait = true;
            }
            let rows = rows(&self.document);
            let was = edit.row(&self.document).or_else(|| self.row().cloned());
            let row = &mut self.view.selected[Focus::Readings];
            *row = was.map_or(0, |was| kept(&rows, &was, *row));
            self.rows = rows;
        } else if let Edit::Shelf { .. } = edit {
            self.follow_shelf();
        } else if self.bays_by_hand() != by_hand {
            self.results.outdate();
        }
        // Once the operator has begun, what is pinned stays pinned.
        self.bays_wait &= self.document.bays.is_empty() || self.is_guided();
        if matches!(edit, Edit::Bays(_)) {
            self.bays_wait = false;
            self.keep_to_bays();
        }
    }

    /// Selects the last bay where the one that was selected is gone.
    fn keep_to_bays(&mut self) {
        let last = self.document.bays.len().saturating_sub(1);
        let bay = &mut self.view.selected[Focus::Bays];
        *bay = last.min(*bay);
    }

    fn bays_by_hand(&self) -> Vec<Bay> {
        self.document
            .bays
            .iter()
            .filter(|bay| !bay.is_ranked())
            .copied()
            .collect()
    }

    /// Pins the first of the list and the first of another shape: something to
    /// compare at once; again with each result until the last. Opening is no step
    /// to undo.
    fn fill_bays(&mut self) {
        let Some(assessed) = self.results.assessed() else {
            return;
        };
        let mut shapes: Vec<&str> = Vec::new();
        let mut bays = Vec::new();
        for candidate in assessed.ranking.on_shelf() {
            if bays.len() < FIRST_BAYS && !shapes.contains(&candidate.shape.as_str()) {
                shapes.push(&candidate.shape);
                bays.push(Bay::new(candidate.place));
            }
        }
        // While a case is still being asked for, its list is not worth keeping.
        self.bays_wait = self.results.is_awaited() || self.is_guided();
        self.document.bays = bays;
    }
}

#[cfg(test)]
mod tests;
