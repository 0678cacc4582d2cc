//! One thread that assesses, with a queue of one: a newer request replaces the
//! waiting one and stops the running one.

mod assessor;
mod page_request;
mod page_work;
mod queue;
mod request;

pub use page_request::{DoubtResult, FitMapResult, PageRequest, TrialsResult, WorkUpResult};
pub use request::{ForecastResult, MapGrain, RankingResult, Reply, Request};

pub use assessor::Assessor;
use queue::Queue;
use sizing::Work;
use sizing::engine::Engine;
use std::any::Any;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::thread::JoinHandle;

/// The thread that assesses. Dropping it stops the work and waits for its end.
#[derive(Debug)]
pub struct Worker {
    queue: Arc<Queue>,
    thread: Option<JoinHandle<()>>,
}

impl Worker {
    /// Starts the thread. Every reply goes to `send`; when that says `false`,
    /// because nobody listens any more, the thread ends.
    pub fn start(
        engine: impl Engine + Send + 'static,
        threads: usize,
        send: impl FnMut(Reply) -> bool + Send + 'static,
    ) -> std::io::Result<Self> {
        let queue = Arc::new(Queue::default());
        let theirs = Arc::clone(&queue);
        let thread = std::thread::Builder::new()
            .name("assess".into())
            .spawn(move || work(&theirs, &engine, threads, send))?;
        Ok(Self {
            queue,
            thread: Some(thread),
        })
    }

    /// Asks for an assessment, in place of any asked for before.
    pub fn submit(&self, request: Request) {
        self.queue.put(request);
    }

    /// Stops what runs: something else is to be asked for soon.
    pub fn stop(&self) {
        self.queue.stop();
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        self.queue.close();
        if let Some(thread) = self.thread.take() {
            // A panic of the thread itself has nobody left to be told to.
            let _ = thread.join();
        }
    }
}

fn work(queue: &Queue, engine: &dyn Engine, threads: usize, mut send: impl FnMut(Reply) -> bool) {
    let mut assessor = Assessor::new(engine);
    while let Some(request) = queue.take() {
        let mut listens = true;
        let done = catch_unwind(AssertUnwindSafe(|| {
            let work = Work {
                threads,
                cancel: queue.cancel(),
            };
            assessor.answer(&request, &work, |reply| {
                listens = send(reply);
                listens
            });
        }));
        if let Err(panic) = done {
            // What it remembers may be half written.
            assessor = Assessor::new(engine);
            let message = message(panic.as_ref());
            listens = send(Reply::Failed {
                generation: request.generation,
                message,
            });
        }
        if !listens {
            return;
        }
    }
}

/// What a panic says.
fn message(panic: &(dyn Any + Send)) -> String {
    panic
        .downcast_ref::<&str>()
        .map(|text| (*text).to_owned())
        .or_else(|| panic.downcast_ref::<String>().cloned())
        .unwrap_or_else(|| "the assessment stopped without an error message".into())
}

#[cfg(test)]
mod tests;
