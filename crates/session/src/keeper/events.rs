use crate::event::FileEvent;
use crate::keeper_error::KeeperError;
use crate::overlay::Question;

/// What came of an effect, in its order.
#[derive(Debug, Default)]
pub(super) struct Events(Vec<FileEvent>);

impl Events {
    pub(super) fn push(&mut self, event: FileEvent) {
        self.0.push(event);
    }

    /// Says what was done.
    pub(super) fn tell(&mut self, what: impl Into<String>) {
        self.push(FileEvent::Done(what.into()));
    }

    /// Says why something was not done.
    pub(super) fn warn(&mut self, why: impl Into<KeeperError>) {
        self.push(FileEvent::Failed(why.into()));
    }

    pub(super) fn ask(&mut self, question: Question) {
        self.push(FileEvent::Asked(question));
    }
}

impl IntoIterator for Events {
    type Item = FileEvent;
    type IntoIter = std::vec::IntoIter<FileEvent>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}
