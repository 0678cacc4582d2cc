use files::Score;
use std::path::PathBuf;

/// Something to be done with files: the session asks for it, a
/// [`Keeper`](crate::Keeper) does it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Errand {
    /// The case is saved.
    Save(Save),
    /// The sheet for the team is made of the list that is shown, and written: the
    /// keeper leaves it to who can make one and takes its bytes.
    Sheet(SheetFile),
    /// The cases that can be opened are listed.
    Choose,
    /// The case of a file is opened in place of this one.
    Open(PathBuf),
    /// A case that came with the program is, by its name.
    OpenShipped(&'static str),
    /// A lesson that came with the program is opened over this case, by its name.
    OpenLesson(&'static str),
    /// How a lesson went is kept.
    KeepScore {
        /// The name of the lesson.
        lesson: String,
        /// How it went.
        score: Score,
    },
    /// The file is read again.
    Reload,
    /// What was found in the journal is restored.
    Restore,
    /// What was found in the journal is dropped for good.
    Discard,
    /// The user's own catalogue is written.
    KeepShelf {
        /// Whether the operator was told what is there, and chose to write over it.
        over: bool,
    },
    /// It is read again.
    ReadShelf,
    /// Your centre's rules are written.
    KeepRules {
        /// Whether a file that is gone is written anew, as the operator said.
        anew: bool,
    },
    /// They are read again.
    ReadRules,
    /// The program ends; what was not saved is dropped for good.
    Abandon,
}

/// The file into which the sheet for the team is written; its ending says as what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetFile {
    /// The file.
    pub to: PathBuf,
    /// Whether the operator was told what is there, and chose to write over it.
    pub over: bool,
}

/// How the case is saved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Save {
    /// The file.
    pub to: PathBuf,
    /// Whether the operator was told what is there, and chose to write over it.
    pub over: bool,
    /// Whether the program ends once it is saved.
    pub leaves: bool,
}
