//! What the program knows, to be read: [`Session::update`](crate::Session::update)
//! alone changes it.

mod follow_up;
mod procedure;
mod read;
mod trials;

use crate::bay::{Bay, pinned_on};
use crate::document::Document;
use crate::edit::Edit;
use crate::history::History;
use crate::home::Home;
use crate::keymap::KeyMap;
use crate::page::Focus;
use crate::results::Results;
use crate::row::{Row, rows};
use crate::rules_home::RulesHome;
use crate::shelf::{Shelf, ShelfRow};
use crate::view::View;
use crate::worker::{MapGrain, PageRequest, Request};
use files::visible;
use sizing::trial::Moment;
use sizing::{Case, Setting};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;
use workup::Limits;

pub(crate) use procedure::PlannedOn;

/// The open document with what was worked out of it, and where the operator is.
#[derive(Clone, Debug)]
pub struct Model {
    pub(crate) document: Document,
    /// The case under its rules, not worked up.
    pub(crate) plain_setting: Arc<Setting>,
    /// The same, worked up; until the worker has done so, with the work-up of before.
    pub(crate) setting: Arc<Setting>,
    /// Whether the work-up in it is of before the last change.
    pub(crate) work_up_is_of_before: bool,
    pub(crate) rows: Vec<Row>,
    pub(crate) history: History,
    pub(crate) view: View,
    pub(crate) keymap: KeyMap,
    pub(crate) limits: Option<Arc<Limits>>,
    pub(crate) results: Results,
    pub(crate) status: Option<Status>,
    /// Whether what is being worked out is said to be.
    pub(crate) is_said_to_work: bool,
    /// The case as it was read or saved.
    pub(crate) saved: Arc<Case>,
    /// The file beside which a journal is kept.
    pub(crate) journalled: Option<PathBuf>,
    /// What is kept in folders of the user's own.
    pub(crate) own_folders: OwnFolders,
    /// Where your centre's rules are kept.
    pub(crate) rules_home: RulesHome,
    /// How many look-backs were asked for.
    pub(crate) look_backs: u64,
    /// What release criteria are written on.
    pub(crate) planned: PlannedOn,
    /// The trials of which a forecast is to be frozen, and when.
    pub(crate) foretell: Vec<(String, Moment)>,
    /// How long the program has run.
    pub(crate) clock: Duration,
    /// The cases that were opened together, for a conference.
    pub(crate) conference: Vec<PathBuf>,
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

/// What is kept in folders of the user's own.
#[derive(Clone, Copy, Debug)]
pub(crate) struct OwnFolders {
    /// Whether a journal is kept of cases in no file.
    pub(crate) unfiled: bool,
    /// Whether changes of the stock are kept.
    pub(crate) shelf: bool,
}

impl Model {
    /// A document of which nothing was worked out yet.
    pub(crate) fn new(document: Document, keymap: KeyMap) -> Self {
        let (case, rules) = (Arc::clone(&document.case), Arc::clone(&document.rules));
        let setting = Arc::new(Setting::new(case, rules));
        Self {
            saved: Arc::clone(&document.case),
            journalled: None,
            conference: Vec::new(),
            rules_home: RulesHome::Nowhere,
            look_backs: 0,
            planned: PlannedOn::default(),
            foretell: Vec::new(),
            clock: Duration::ZERO,
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
            keymap,
            limits: None,
            results: Results::default(),
            status: None,
            is_said_to_work: false,
        }
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
            stages: Request::stages(sizes, !self.document.case().procedure.trials.is_empty()),
            map: MapGrain::USUAL,
            work_up_draws: Request::WORK_UP_DRAWS,
            seed: sizing::Draws::SEED,
            foretell: self.foretell.clone(),
        }
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

    /// Bays that the operator changed by hand.
    pub(crate) fn bays_by_hand(&self) -> Vec<Bay> {
        self.document
            .bays
            .iter()
            .filter(|bay| !bay.is_ranked())
            .copied()
            .collect()
    }

    /// Whether the case is otherwise than it was read or saved.
    pub fn is_unsaved(&self) -> bool {
        !Arc::ptr_eq(&self.saved, &self.document.case) && self.saved != self.document.case
            || self.document.home == Home::Nowhere
    }

    /// Whether what is changed is safe from a crash.
    pub fn has_journal(&self) -> bool {
        match self.document.home.file() {
            Some(file) => self.journalled.as_deref() == Some(file),
            None => self.own_folders.unfiled,
        }
    }

    /// What the case is called where files are spoken of, safe to show.
    pub(crate) fn case_name(&self) -> String {
        match self.document.home.file() {
            Some(path) => visible(&path.display().to_string()).into_owned(),
            None => visible(&self.document.case.title).into_owned(),
        }
    }

    /// Whether a row of nudges may still go on.
    pub(crate) const fn is_nudging(&self) -> bool {
        self.history.is_open()
    }

    /// Whether changes of the stock are kept.
    pub const fn keeps_shelf(&self) -> bool {
        self.own_folders.shelf
    }

    /// The lines of the shelf: every shape, and under it every size.
    pub(crate) fn shelf_rows(&self) -> Vec<ShelfRow> {
        self.document.shelf.rows()
    }

    /// The selected line of the shelf.
    pub(crate) fn shelf_row(&self) -> Option<ShelfRow> {
        let rows = self.shelf_rows();
        let last = rows.len().checked_sub(1)?;
        rows.into_iter()
            .nth(self.view.selected[Focus::Shelf].min(last))
    }

    /// The edit by which the shelf becomes another one.
    pub(crate) fn reshelved(&self, shelf: Shelf, called: String) -> Edit {
        let bays = pinned_on(&self.document.shelf, &shelf, &self.document.bays);
        Edit::Shelf {
            shelf,
            bays,
            called,
        }
    }
}
