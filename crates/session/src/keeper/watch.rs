use super::{Keeper, questions};
use crate::event::FileEvent;
use crate::{Session, Status};
use files::digest_on_disk;
use std::time::{Duration, Instant};

/// How often the file on disk is looked at, at most: with the keys that come, so
/// that a program nobody touches does nothing.
const BETWEEN_LOOKS: Duration = Duration::from_secs(1);

impl Keeper {
    /// Looks whether the open file is still the one that was read, and asks what
    /// to do where it is not: once for each change, and only while nothing else is
    /// asked.
    ///
    /// It is for when all keys that came were taken: what is asked would take the
    /// rest of them as its answer.
    pub fn watch(&mut self, session: &mut Session, now: Instant) {
        if !session.overlays().is_empty() {
            return;
        }
        if self
            .looked
            .is_some_and(|looked| now.duration_since(looked) < BETWEEN_LOOKS)
        {
            return;
        }
        self.looked = Some(now);
        let Some(kept) = &mut self.kept else { return };
        if session.document().home().file() != Some(&kept.path) {
            return;
        }
        // What cannot be looked at is told when it is saved.
        let Ok(found) = digest_on_disk(&self.disk, &kept.path) else {
            return;
        };
        let is_told = kept.seen == found;
        kept.seen = found;
        if is_told || found == Some(kept.digest) {
            return;
        }
        let mut question = questions::changed(&kept.path, found.is_some());
        // The question lies over the line that names it.
        if let Some(Status::Done(made)) = session.status() {
            question.about.push(format!("made here: {made}"));
        }
        session.file(FileEvent::Asked(question));
    }
}
