//! Everything of the terminal program that is not its terminal: the open
//! document, commands with their inverse, history, key map, worker.
//!
//! The terminal gives events and draws; it decides nothing:
//!
//! ```text
//!  Key, Reply, FileEvent … ─→ Session::update ─→ Command ─→ Change ─→ Edit ─→ Document
//!            ↑                       │
//!     Worker, Keeper  ←─  Effect (Record, File, Submit, Copy …)
//! ```
//!
//! [`Session::update`] alone changes a session: it takes an [`Event`] and gives the
//! [`Effect`]s that follow, and knows no clock, disk or thread. Effects are run before
//! the next event and the next frame; what comes of one, a failure as well, is an
//! event. A command is a pure function from the session to a change; an edit gives its
//! inverse when it is made. Files are read and written by the keeper alone.

mod amount;
mod bay;
mod case_change;
mod clipboard;
mod command;
mod display_options;
mod document;
mod doubt;
mod edit;
mod editor;
mod effect;
mod errand;
mod event;
mod fact;
mod file_name;
mod first_reading;
mod footer;
mod hint;
mod history;
mod home;
mod house_rule;
mod keeper;
mod keeper_error;
mod key;
mod keymap;
mod lesson;
mod look_back;
mod looks;
mod model;
mod neighbour_name;
mod overlay;
mod page;
mod per_panel;
mod reading_words;
mod refused;
mod results;
mod row;
mod rules_change;
mod rules_home;
mod session;
mod shelf;
mod trial_row;
mod trials;
mod update;
mod view;
mod worker;

#[cfg(test)]
mod fixture;

pub use amount::{Nudge, amount, nudged, number};
pub use bay::{Bay, MOST_BAYS};
pub use case_change::CaseChange;
pub use command::{Change, Command};
pub use display_options::{DisplayOptions, Filter};
pub use document::Document;
pub use doubt::Doubt;
pub use edit::Edit;
pub use editor::Editor;
pub use effect::Effect;
pub use errand::{Errand, Save, SheetFile};
pub use event::{Event, FileEvent, Target};
pub use hint::Hint;
pub use history::History;
pub use home::Home;
pub use house_rule::{HouseRule, SourceKind};
pub use keeper::Keeper;
pub use keeper_error::KeeperError;
pub use key::{Key, KeyCode, NoSuchKey};
pub use keymap::{Binding, KeyMap, KeyMapError};
pub use lesson::LessonPlay;
pub use look_back::{LookBackFound, LookBackOrder, LookBackResult};
pub use looks::{Looks, Palette, Pictures, SectionLeft};
pub use model::{Model, Status};
pub use overlay::{
    Ask, CaseForm, CaseLine, Chapter, Choice, CommandList, CommandMatch, Confirmation,
    CriterionForm, CriterionPart, ExceptionForm, Field, Finder, Form, FormEntry, Guide, GuideLine,
    GuideText, ListFilter, LookBackPage, Mark, NewCase, ObservationForm, ObservationPart, Openable,
    Openables, Overlay, Prompt, Proposal, Question, ReadingDraft, ReadingForm, ReadingLine,
    ShapeDraft, ShelfForm, ShelfPart, WhyWalk,
};
pub use page::{Focus, Page};
pub use per_panel::{PerPanel, VisibleLines};
pub use refused::Refused;
pub use results::Results;
pub use row::Row;
pub use rules_change::RulesChange;
pub use rules_home::RulesHome;
pub use session::Session;
pub use shelf::{Origin, Shelf, ShelfRow};
pub use trial_row::{Condition, Pick, Picked, TrialRow};
pub use view::View;
pub use worker::{
    Assessor, DoubtResult, FitMapResult, ForecastResult, MapGrain, PageRequest, RankingResult,
    Reply, Request, TrialsResult, WorkUpResult, Worker,
};
