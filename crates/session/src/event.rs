use crate::keeper_error::KeeperError;
use crate::lesson::LessonPlay;
use crate::look_back::LookBackResult;
use crate::overlay::{Openables, Prompt, Question};
use crate::worker::Reply;
use crate::{Command, Focus, Home, Key, Page, VisibleLines};
use files::HouseRulesFile;
use sizing::{Case, Catalogue};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

/// Something that happened: [`Session::update`](crate::Session::update) takes it, and
/// nothing else changes a session.
#[derive(Debug)]
pub enum Event {
    /// So long has the program run: told before a key that needs it.
    Clock(Duration),
    /// A key was pressed.
    Key(Key),
    /// A text was pasted.
    Paste(String),
    /// A command was chosen by name.
    Command(&'static Command),
    /// Something was pointed at.
    Point(Target),
    /// The wheel was turned over a panel, down or up.
    Wheel(Focus, bool),
    /// The selected reading was dragged by so many fine steps, under 0 down.
    Nudge(i32),
    /// The worker answered.
    Reply(Reply),
    /// A folder of cases was looked back over.
    LookedBack(LookBackResult),
    /// A page was drawn, with so many lines of each list.
    Drawn(VisibleLines),
    /// Work goes on long enough to be noticed, or not any more.
    Working(bool),
    /// Something came of a file.
    File(Box<FileEvent>),
}

/// Something that can be pointed at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Target {
    /// A panel as a whole.
    Panel(Focus),
    /// A page, by its name.
    Page(Page),
    /// A candidate of the ranked list, by its index on the shelf.
    Candidate(usize),
    /// A line of a panel's list, or a bay.
    Line(Focus, usize),
    /// A cell of the fit map: its column and row.
    Cell(usize, usize),
}

impl Target {
    /// Whether it is of the list, or the map, that another is of.
    pub fn is_of_list(self, other: Self) -> bool {
        match (self, other) {
            (Self::Line(one, _), Self::Line(other, _)) => one == other,
            _ => std::mem::discriminant(&self) == std::mem::discriminant(&other),
        }
    }
}

/// What came of a file: what a [`Keeper`](crate::Keeper) tells.
#[derive(Debug)]
pub enum FileEvent {
    /// A case was opened in place of this one, whose history ends.
    Opened(Case, Home),
    /// The case of a journal is this one; a step to undo.
    Restored(Case, Home),
    /// The file was read again and says this; a step to undo.
    Reloaded(Case),
    /// The case is in its file as it is.
    Agreed,
    /// It is in this file from now on, as it is.
    Saved(Home),
    /// A journal is kept of a file, and of cases in no file, or not.
    Journalled {
        /// The file.
        file: Option<PathBuf>,
        /// Whether one is kept of cases in no file.
        unfiled: bool,
    },
    /// The user's own catalogue was read again; a step to undo.
    ShelfRead {
        /// The catalogue.
        shapes: Catalogue,
        /// From where, in words.
        called: String,
    },
    /// The user's own catalogue stands in its file as this text.
    ShelfWritten(files::Source),
    /// Changes of the shelf are kept, or not.
    ShelfKept(bool),
    /// Your centre's rules were read again; a step to undo.
    RulesRead {
        /// The file.
        file: Arc<HouseRulesFile>,
        /// From where, in words.
        called: String,
    },
    /// Your centre's rules stand in this file.
    RulesKept(PathBuf),
    /// Something was done.
    Done(String),
    /// Something more was done.
    AlsoDone(String),
    /// Something failed.
    Failed(KeeperError),
    /// The operator is to choose.
    Asked(Question),
    /// A path is asked for again, with what is wrong with the one that was typed.
    PathRefused {
        /// What it is asked for.
        prompt: Prompt,
        /// The path.
        path: PathBuf,
        /// What is wrong with it.
        error: KeeperError,
    },
    /// These cases can be opened.
    Listed(Openables),
    /// A lesson was opened over the case.
    LessonOpened(Box<LessonPlay>),
    /// What was to be done before the end is done.
    Ended,
}
