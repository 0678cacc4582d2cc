use files::{Diagnostic, FileError, Holder, JournalError, SpliceError, StoreError};
use std::time::SystemTime;

/// Why a keeper did not do something, or did it but for a part.
#[derive(Debug, thiserror::Error)]
pub enum KeeperError {
    /// A file could not be read, or is no case.
    #[error(transparent)]
    Unread(#[from] FileError),
    /// A file reads, and breaks a rule of such files or of the house.
    #[error("{}", first(.0))]
    Faulty(Vec<Diagnostic>),
    /// What a journal holds is no case.
    #[error("not restored: {}", first(.0))]
    NotRestored(Vec<Diagnostic>),
    /// The case, written as a text, would not read as it is.
    #[error("not saved: {}", first(.0))]
    NotWritten(Vec<Diagnostic>),
    /// The text of the file cannot be changed so.
    #[error(transparent)]
    NotSpliced(#[from] SpliceError),
    /// The text could not be written to disk, or is not what was left there.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A journal was not written, read or dropped.
    #[error(transparent)]
    Journal(#[from] JournalError),
    /// A change of the open file is in no journal.
    #[error("not safe from a crash: {0}")]
    NotRecorded(SpliceError),
    /// A case in no file has no journal.
    #[error("not safe from a crash, save it: {0}")]
    NoJournal(StoreError),
    /// The same: another window took its name at the same time.
    #[error("not safe from a crash, save it: its name is taken")]
    NameTaken,
    /// Another window has the case open.
    #[error(
        "open in another window{}: changes here are in no journal until they are saved",
        who(*.0)
    )]
    Held(Option<Holder>),
    /// Nobody can tell whether another window has the case open.
    #[error("no journal is kept, save often: {0}")]
    NoPresence(StoreError),
    /// The case was saved, and something beside it failed or is to be known.
    #[error("saved {name}; {but}")]
    Saved {
        /// The file, safe to show.
        name: String,
        /// What is to be known.
        but: Box<Self>,
    },
    /// A file of format 1 was put into the words of format 2.
    #[error("in the words of format 2; the file as it was is {0}")]
    Translated(String),
    /// The name of a file that is to be a sheet does not say as what.
    #[error("the name has to end in .pdf, .html or .txt")]
    SheetEnding,
    /// A sheet could not be made.
    #[error("no sheet: {0}")]
    NoSheet(String),
    /// No case that came with the program has the name.
    #[error("no case called {0} came with the program")]
    NoSuchShipped(String),
    /// A change of the shelf is in the program alone.
    #[error("changed here, not on disk: {0}")]
    ShelfNotKept(Box<Self>),
    /// The user's own catalogue was not read again.
    #[error("not read: {0}")]
    ShelfUnread(FileError),
    /// A change of your centre's rules is in the program alone.
    #[error("the rules are changed here, not on disk: {0}")]
    RulesNotKept(Box<Self>),
    /// Your centre's rules were not read again.
    #[error("the rules are not read: {0}")]
    RulesUnread(FileError),
    /// There is no folder of the user's own.
    #[error("HOME names no folder")]
    NoFolder,
    /// The same, and what is lost without one.
    #[error("HOME names no folder: {0} lost when the program ends")]
    Lost(&'static str),
}

fn first(faults: &[Diagnostic]) -> String {
    faults.first().map_or_else(String::new, ToString::to_string)
}

/// Who has a case open, where that is known.
fn who(holder: Option<Holder>) -> String {
    holder.map_or_else(String::new, |holder| {
        let process = holder.process;
        // A clock that was set back since says nothing of how long.
        SystemTime::now().duration_since(holder.since).map_or_else(
            |_| format!(" (process {process})"),
            |open| {
                let minutes = open.as_secs() / SECONDS_PER_MINUTE;
                format!(" (process {process}, for {minutes} min)")
            },
        )
    })
}

/// Seconds of a minute.
const SECONDS_PER_MINUTE: u64 = 60;

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    #[test]
    fn of_a_clock_that_was_set_back_no_minutes_are_told() {
        let now = SystemTime::now();
        let says = |since| who(Some(Holder { process: 7, since }));
        let minutes = |it: u64| Duration::from_secs(it * SECONDS_PER_MINUTE);
        assert_eq!(says(now - minutes(3)), " (process 7, for 3 min)");
        assert_eq!(says(now + minutes(90)), " (process 7)");
        assert_eq!(who(None), "");
    }
}
