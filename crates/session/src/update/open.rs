//! How a session is opened.

use crate::document::Document;
use crate::lesson::LessonPlay;
use crate::model::{Model, Status};
use crate::overlay::Overlay;
use crate::{KeyMap, Looks, Session};
use sizing::{Case, Catalogue, HouseRules};
use std::path::PathBuf;
use std::sync::Arc;
use workup::Limits;

impl Session {
    /// Opens a case against catalogues and the rules of a house.
    pub fn open(case: Case, catalogues: Vec<Catalogue>, rules: HouseRules) -> Self {
        let document = Document::new(case, catalogues, rules);
        Self {
            model: Model::new(document, KeyMap::default()),
            overlays: Vec::new(),
            outbox: Vec::new(),
            bays_wait: true,
        }
    }

    /// The session with another key map.
    #[must_use]
    pub fn with_keymap(mut self, keymap: KeyMap) -> Self {
        self.model.keymap = keymap;
        self
    }

    /// The session with the user's own catalogue laid over the others.
    #[must_use]
    pub fn with_own_shapes(mut self, own: Catalogue) -> Self {
        self.model.document.shelf = self.model.document.shelf.with_own(own);
        self
    }

    /// The session with published limits, against which the case is worked up.
    #[must_use]
    pub fn with_limits(mut self, limits: Limits) -> Self {
        self.model.limits = Some(Arc::new(limits));
        self.make_ready();
        self
    }

    /// The session saying, until the first key, what is open and how a case of
    /// one's own is begun: for a program that was started without one.
    #[must_use]
    pub fn with_greeting(mut self) -> Self {
        let (new, all) = (self.key_of("new_case"), self.key_of("commands"));
        self.model.status = Some(Status::Done(format!(
            "an invented child; {new} begins your case, / finds a reading, {all} lists all keys"
        )));
        self
    }

    /// The session with a lesson over its case.
    #[must_use]
    pub fn with_lesson(mut self, play: LessonPlay) -> Self {
        self.model.status = None;
        self.overlays.push(Overlay::Lesson(play));
        self
    }

    /// The session with other cases beside the open one, to be gone through in order.
    #[must_use]
    pub fn with_conference(mut self, cases: Vec<PathBuf>) -> Self {
        self.model.conference = cases;
        self
    }

    /// The session with other looks.
    #[must_use]
    pub const fn with_looks(mut self, looks: Looks) -> Self {
        self.model.view.looks = looks;
        self.model.view.present(looks.is_presented);
        self
    }
}
