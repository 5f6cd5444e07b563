//! Every outside check run natively, and one report with figures, plots and verdicts.
//!
//! A check looks at the program from outside: it reads published tables or plays scenarios, and compares. Nothing here is
//! loosened so that a check passes; a miss is reported as a miss.

pub mod check;
pub mod checks;
pub mod error;
pub mod plot;
pub mod reference;
pub mod report;
pub mod run;
pub mod second_law;

use std::{
    sync::{
        Mutex, PoisonError,
        atomic::{AtomicUsize, Ordering},
    },
    thread,
};

use check::{Check, Section};
use error::Error;
use run::Runs;

/// A piece of work that gives checks.
pub type Job = fn(&Runs) -> Found;

/// What a job gives.
pub type Found = Result<Vec<Check>, Error>;

/// Runs every check whose section's heading contains `only` (all, when empty), on as many threads as the machine has processors, then those that look at all runs together.
///
/// # Errors
/// When a check could not be run; a miss is no error.
pub fn all(only: &str) -> Result<Vec<Section>, Error> {
    let runs = Runs::default();
    let jobs: Vec<(usize, &'static str, Job)> = checks::SECTIONS
        .iter()
        .enumerate()
        .filter(|(_, (title, _))| title.contains(only))
        .flat_map(|(i, (title, jobs))| jobs.iter().map(move |job| (i, *title, *job)))
        .collect();
    let done = in_parallel(&jobs, &runs)?;
    let mut sections: Vec<Section> = checks::SECTIONS
        .iter()
        .map(|(title, _)| Section {
            title,
            checks: Vec::new(),
        })
        .collect();
    for ((section, _, _), found) in jobs.iter().zip(done) {
        sections[*section].checks.extend(found);
    }
    sections.retain(|s| !s.checks.is_empty());
    sections.push(Section {
        title: checks::always::TITLE,
        checks: checks::always::checks(&runs),
    });
    sections
        .iter_mut()
        .flat_map(|s| &mut s.checks)
        .for_each(checks::beliefs::explain);
    Ok(sections)
}

/// Threads take the next job until none is left; results keep the order of the jobs.
fn in_parallel(jobs: &[(usize, &'static str, Job)], runs: &Runs) -> Result<Vec<Vec<Check>>, Error> {
    let next = AtomicUsize::new(0);
    let slots: Vec<Mutex<Option<Found>>> = jobs.iter().map(|_| Mutex::new(None)).collect();
    let threads = thread::available_parallelism().map_or(1, usize::from);
    thread::scope(|scope| {
        for _ in 0..threads.min(jobs.len()) {
            scope.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    let (Some((_, _, job)), Some(slot)) = (jobs.get(at), slots.get(at)) else {
                        return;
                    };
                    let found = job(runs);
                    *slot.lock().unwrap_or_else(PoisonError::into_inner) = Some(found);
                }
            });
        }
    });
    slots
        .into_iter()
        .zip(jobs)
        .map(|(slot, (_, title, _))| {
            slot.into_inner()
                .unwrap_or_else(PoisonError::into_inner)
                .unwrap_or(Err(Error::Stopped(title)))
        })
        .collect()
}
