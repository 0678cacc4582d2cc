//! Work that is done on several threads.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// How work is done; nothing of it changes the result.
#[derive(Clone, Copy, Debug)]
pub struct Work<'a> {
    /// How many threads work side by side, at least 1.
    pub threads: usize,
    /// Set from elsewhere to stop: looked at between parts of the work.
    pub cancel: &'a AtomicBool,
}

impl Work<'_> {
    pub(crate) fn is_cancelled(&self) -> bool {
        self.cancel.load(Ordering::Relaxed)
    }
}

/// What a worker gives on each of several threads; `None` where one of them was
/// cancelled.
pub(crate) fn on_each<R: Send>(
    work: &Work,
    worker: impl Fn() -> Option<R> + Sync,
) -> Option<Vec<R>> {
    std::thread::scope(|scope| {
        let others: Vec<_> = (1..work.threads).map(|_| scope.spawn(&worker)).collect();
        let mut all = vec![worker()];
        for other in others {
            let part = other.join();
            all.push(part.unwrap_or_else(|panic| std::panic::resume_unwind(panic)));
        }
        all.into_iter().collect()
    })
}

/// What is done for each item, in the order of the items; `None` where it was
/// cancelled, looked at between items.
pub(crate) fn side_by_side<T: Sync, R: Send>(
    items: &[T],
    work: &Work,
    done: impl Fn(&T) -> R + Sync,
) -> Option<Vec<R>> {
    let next = AtomicUsize::new(0);
    let parts = on_each(work, || {
        let mut mine = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(index) else {
                return Some(mine);
            };
            if work.is_cancelled() {
                return None;
            }
            mine.push((index, done(item)));
        }
    })?;
    let mut all: Vec<(usize, R)> = parts.into_iter().flatten().collect();
    all.sort_by_key(|(index, _)| *index);
    Some(all.into_iter().map(|(_, result)| result).collect())
}

/// What is made for each of some numbers, in their order: two halves side by side.
pub(crate) fn in_halves<R: Send>(count: usize, made: impl Fn(usize) -> R + Sync) -> Vec<R> {
    let mut all = Vec::with_capacity(count);
    std::thread::scope(|scope| {
        let later = scope.spawn(|| (count / 2..count).map(&made).collect::<Vec<R>>());
        all.extend((0..count / 2).map(&made));
        let later = later.join();
        all.extend(later.unwrap_or_else(|panic| std::panic::resume_unwind(panic)));
    });
    all
}
