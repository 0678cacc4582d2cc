use crate::case_change::CaseChange;
use crate::errand::Errand;
use crate::look_back::LookBackOrder;
use crate::worker::{RankingResult, Request};
use std::sync::Arc;

/// Something to be done outside the session, before the next frame and the next
/// event; what comes of it is an [`Event`](crate::Event) like any other.
#[derive(Clone, Debug)]
pub enum Effect {
    /// A change of the case is recorded in its journal, before anything else is done.
    Record(CaseChange),
    /// Something is done with files.
    File(Errand),
    /// The worker is asked, in place of what it was asked before.
    Submit(Box<Request>),
    /// The cases of a folder are looked back over, on a thread of its own; an event
    /// says what came of it.
    LookBack(LookBackOrder),
    /// A text goes to the clipboard of the terminal.
    Copy(String),
    /// A result that is not shown any more is let go, once nobody waits.
    LetGo(Arc<RankingResult>),
    /// The terminal is left to the shell until it lets the program go on.
    Suspend,
    /// The program ends.
    Leave,
}
