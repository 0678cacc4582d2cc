//! Work that is done on several threads.

use crate::engine::Threads;
use std::sync::atomic::{AtomicUsize, Ordering};

/// What a worker gives on each of several threads; `None` where one of them was
/// cancelled.
pub(crate) fn on_each<R: Send>(
    threads: &Threads,
    worker: impl Fn() -> Option<R> + Sync,
) -> Option<Vec<R>> {
    std::thread::scope(|scope| {
        let others: Vec<_> = (1..threads.count).map(|_| scope.spawn(&worker)).collect();
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
    threads: &Threads,
    done: impl Fn(&T) -> R + Sync,
) -> Option<Vec<R>> {
    let next = AtomicUsize::new(0);
    let parts = on_each(threads, || {
        let mut mine = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(index) else {
                return Some(mine);
            };
            if threads.is_cancelled() {
                return None;
            }
            mine.push((index, done(item)));
        }
    })?;
    let mut all: Vec<(usize, R)> = parts.into_iter().flatten().collect();
    all.sort_by_key(|(index, _)| *index);
    Some(all.into_iter().map(|(_, result)| result).collect())
}
