//! Takes up a saved take: replays it in slices, so that the page can show how far it is.
use gloo::timers::future::TimeoutFuture;
use lowside_lessons::{Job, PerformanceTest, Shown};
use lowside_present::history::History;
use lowside_session::{
    Bay, Sitting, Take, TakeError, Timeline,
    take::{Card, End, Skipped},
};

use crate::{host, later};

/// Time given to a slice, ms.
const SLICE: f64 = 24.0;
/// Ticks replayed between looks at the clock.
const PORTION: u64 = 100;

/// A visit taken up again.
pub(crate) struct Resumed {
    pub(crate) bay: Bay,
    pub(crate) history: History,
    pub(crate) past: Timeline,
    /// The job that was under way.
    pub(crate) job: Option<Job>,
    /// How it is worked in.
    pub(crate) sitting: Sitting,
    /// Whether it stands where it was left; not so after a change of the physics.
    pub(crate) end: End,
    /// Acts that were left out: another physics took them, and this one refuses them.
    pub(crate) skipped: Vec<Skipped>,
}

/// Replays `take`, in which `job` may be under way; `report` hears the share done and says whether to go on. None if it was to end.
pub(crate) async fn resume(
    take: &Take,
    job: Option<&str>,
    report: impl Fn(f64) -> bool,
) -> Result<Option<Resumed>, TakeError> {
    let mut replay = take.replay();
    let mut history = History::default();
    let mut past = Timeline::new(replay.bay());
    let mut test = PerformanceTest::default();
    let mut since = host::now();
    let mut job = job
        .and_then(later::job)
        .filter(|job| job.owns(replay.bay()));
    // A job looks at every tick.
    let portion = if job.is_some() {
        1
    } else {
        lowside_present::history::EVERY.min(PORTION)
    };
    while !replay.run_observed(portion, &mut |bay| test.look(bay))? {
        if let Some(job) = &mut job {
            job.look(replay.bay());
        }
        if history.due(replay.bay().tick()) {
            history.record(&Shown::of(replay.bay()));
        }
        past.record(replay.bay());
        if host::now() - since > SLICE {
            if !report(replay.progress()) {
                return Ok(None);
            }
            TimeoutFuture::new(0).await;
            since = host::now();
        }
    }
    let mut sitting = take.sitting_here();
    if let Some(job) = &job {
        // Takes of before say no card.
        let name = || Card::Job(job.name.to_owned());
        sitting.card.get_or_insert_with(name);
    }
    past.remember(sitting.lines.clone());
    let skipped = replay.skipped().to_vec();
    let (bay, end) = replay.end();
    if let Some(job) = &mut job {
        job.look(&bay);
    }
    Ok(Some(Resumed {
        bay,
        history,
        past,
        job,
        sitting,
        end,
        skipped,
    }))
}
