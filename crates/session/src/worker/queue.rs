use super::request::Request;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};

/// A queue of one.
#[derive(Debug, Default)]
pub(super) struct Queue {
    state: Mutex<State>,
    changed: Condvar,
    /// Set while what runs is not wanted any more. It changes under the lock
    /// alone, so that no request is cancelled in another's stead.
    cancel: AtomicBool,
}

#[derive(Debug, Default)]
struct State {
    waiting: Option<Request>,
    closed: bool,
}

impl Queue {
    /// Puts a request in place of the waiting one and stops the running one.
    pub(super) fn put(&self, request: Request) {
        let mut state = self.lock();
        state.waiting = Some(request);
        self.cancel.store(true, Ordering::Relaxed);
        self.changed.notify_one();
    }

    /// Stops the running request; one that waits is taken as ever.
    pub(super) fn stop(&self) {
        let _state = self.lock();
        self.cancel.store(true, Ordering::Relaxed);
    }

    /// Stops the running request and lets no other begin.
    pub(super) fn close(&self) {
        let mut state = self.lock();
        state.closed = true;
        self.cancel.store(true, Ordering::Relaxed);
        self.changed.notify_one();
    }

    /// Waits for a request; `None` when it is closed.
    pub(super) fn take(&self) -> Option<Request> {
        let mut state = self.lock();
        loop {
            if state.closed {
                return None;
            }
            if let Some(request) = state.waiting.take() {
                self.cancel.store(false, Ordering::Relaxed);
                return Some(request);
            }
            state = self
                .changed
                .wait(state)
                .unwrap_or_else(PoisonError::into_inner);
        }
    }

    /// Set when what runs is not wanted any more.
    pub(super) const fn cancel(&self) -> &AtomicBool {
        &self.cancel
    }

    fn lock(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
