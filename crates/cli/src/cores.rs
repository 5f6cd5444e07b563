//! Work on all cores, with a line of progress for whoever watches.

use std::{
    io::{IsTerminal, Write, stderr},
    sync::{
        Mutex,
        atomic::{AtomicUsize, Ordering},
    },
    thread,
};

/// Does something with each of a list, in the order of the list; `told` is what the progress says is done.
pub(crate) fn each<T: Sync, R: Send>(
    list: &[T],
    told: &str,
    work: impl Fn(&T) -> R + Sync,
) -> Vec<R> {
    let (next, found) = (AtomicUsize::new(0), Mutex::new(Vec::new()));
    let cores = thread::available_parallelism().map_or(1, usize::from);
    thread::scope(|scope| {
        for _ in 0..cores.min(list.len()) {
            scope.spawn(|| {
                loop {
                    let n = next.fetch_add(1, Ordering::Relaxed);
                    let Some(item) = list.get(n) else { return };
                    let done = work(item);
                    if let Ok(mut found) = found.lock() {
                        found.push((n, done));
                        progress(found.len(), list.len(), told);
                    }
                }
            });
        }
    });
    let mut found = found.into_inner().unwrap_or_default();
    found.sort_by_key(|(n, _)| *n);
    found.into_iter().map(|(_, done)| done).collect()
}

fn progress(done: usize, of: usize, told: &str) {
    if of > 1 && stderr().is_terminal() {
        let end = if done == of { "\n" } else { "" };
        drop(write!(stderr().lock(), "\r{done} of {of} {told}{end}"));
    }
}
