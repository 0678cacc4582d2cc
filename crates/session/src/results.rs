use crate::worker::{Assessed, Reply};
use std::sync::Arc;

/// What came back from the worker, and for which state of the document.
#[derive(Clone, Debug)]
pub struct Results {
    /// The document's generation: it grows with every change of what is assessed.
    generation: u64,
    /// The newest generation that was asked for.
    asked: u64,
    assessed: Option<Arc<Assessed>>,
    failure: Option<(u64, String)>,
}

impl Default for Results {
    fn default() -> Self {
        Self {
            generation: 1,
            asked: 0,
            assessed: None,
            failure: None,
        }
    }
}

impl Results {
    /// The newest result, stale or not.
    pub fn assessed(&self) -> Option<&Arc<Assessed>> {
        self.assessed.as_ref()
    }

    /// Whether the result is of an older document than the open one.
    pub fn is_stale(&self) -> bool {
        self.assessed
            .as_ref()
            .is_some_and(|assessed| assessed.generation < self.generation)
    }

    /// Whether more is to come for the open document.
    pub fn is_awaited(&self) -> bool {
        let is_done = self
            .assessed
            .as_ref()
            .is_some_and(|assessed| assessed.generation == self.generation && assessed.is_last);
        !is_done && self.failure().is_none()
    }

    /// Why the assessment of the open document failed, if it did.
    pub fn failure(&self) -> Option<&str> {
        self.failure
            .as_ref()
            .filter(|(generation, _)| *generation == self.generation)
            .map(|(_, message)| message.as_str())
    }

    /// The document's generation.
    pub const fn generation(&self) -> u64 {
        self.generation
    }

    /// Says that what is assessed has changed.
    pub(crate) const fn outdate(&mut self) {
        self.generation += 1;
    }

    /// The generation to ask for, once for each.
    pub(crate) fn ask(&mut self) -> Option<u64> {
        let is_new = self.asked < self.generation;
        self.asked = self.generation;
        is_new.then_some(self.generation)
    }

    /// Takes a reply in, unless a newer one is there.
    pub(crate) fn receive(&mut self, reply: Reply) {
        match reply {
            Reply::Assessed(new) => {
                let newest = self
                    .assessed
                    .as_ref()
                    .map_or(0, |assessed| assessed.generation);
                if new.generation >= newest {
                    self.assessed = Some(new);
                }
            }
            Reply::Failed {
                generation,
                message,
            } => self.failure = Some((generation, message)),
        }
    }
}
