//! How far a learner has come with a job card. It looks at the bay and never touches it.

use lowside_session::{Bay, TICKS_PER_SECOND, Tick, predicate::Predicate};
use lowside_units::{Duration, Quantity};

use crate::{card::JobCard, toll::Severity};

/// Something to watch: whether it holds now, since when, and whether it has been reached.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
struct Mark {
    since: Option<Tick>,
    reached: Option<Tick>,
}

impl Mark {
    fn look(&mut self, holds: bool, hold: Duration, tick: Tick) {
        if !holds {
            self.since = None;
            return;
        }
        let since = *self.since.get_or_insert(tick);
        let held = (tick - since) as f64 / TICKS_PER_SECOND as f64;
        if held >= hold.si() - 1e-9 {
            self.reached.get_or_insert(tick);
        }
    }

    fn holds(&self, hold: Duration, tick: Tick) -> bool {
        self.since
            .is_some_and(|s| (tick - s) as f64 / TICKS_PER_SECOND as f64 >= hold.si() - 1e-9)
    }
}

/// Where a step stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Not reached yet.
    Open,
    /// Its goal holds, but not yet for long enough.
    Holding {
        /// Ticks it has held.
        held: Tick,
    },
    /// Reached.
    Done {
        /// When first.
        tick: Tick,
    },
    /// Reached once, but to be so to the end, and now it is not.
    Lost {
        /// When it was first reached.
        tick: Tick,
    },
}

/// A learner's way through a job card.
#[derive(Debug, Clone, PartialEq)]
pub struct Progress {
    steps: Vec<Mark>,
    harms: Vec<Mark>,
    tick: Tick,
}

impl Progress {
    /// Nothing done yet.
    pub fn new(card: &JobCard) -> Self {
        Self {
            steps: vec![Mark::default(); card.step.len()],
            harms: vec![Mark::default(); card.harm.len()],
            tick: 0,
        }
    }

    /// Looks at the bay; call after every step of it.
    pub fn look(&mut self, card: &JobCard, bay: &Bay) {
        let tick = bay.tick();
        self.tick = tick;
        let all = |conditions: &[Predicate]| conditions.iter().all(|c| c.holds(bay));
        for (i, step) in card.step.iter().enumerate() {
            let ready = step
                .after
                .iter()
                .all(|&n| self.steps.get(n - 1).is_some_and(|m| m.reached.is_some()));
            // what was reached once and needs no more is not asked again
            if step.to_the_end || self.steps[i].reached.is_none() {
                self.steps[i].look(ready && all(&step.goal), step.hold, tick);
            }
        }
        for (harm, mark) in card.harm.iter().zip(&mut self.harms) {
            if mark.reached.is_none() {
                mark.look(all(&harm.when), harm.hold, tick);
            }
        }
    }

    /// The same marks at another moment: nothing began, ended or was reached in between.
    #[must_use]
    pub fn at(mut self, tick: Tick) -> Self {
        self.tick = tick;
        self
    }

    /// Has anything begun, ended or been reached since `earlier`?
    pub fn moved_since(&self, earlier: &Self) -> bool {
        self.steps != earlier.steps || self.harms != earlier.harms
    }

    /// Where each step stands.
    pub fn steps(&self, card: &JobCard) -> Vec<Standing> {
        let stand = |(step, mark): (&crate::Step, &Mark)| match (mark.reached, mark.since) {
            (Some(tick), _) if step.to_the_end && !mark.holds(step.hold, self.tick) => {
                Standing::Lost { tick }
            }
            (Some(tick), _) => Standing::Done { tick },
            (None, Some(since)) => Standing::Holding {
                held: self.tick - since,
            },
            (None, None) => Standing::Open,
        };
        card.step.iter().zip(&self.steps).map(stand).collect()
    }

    /// When each harm happened, if it did.
    pub fn harms(&self) -> impl Iterator<Item = Option<Tick>> + '_ {
        self.harms.iter().map(|m| m.reached)
    }

    /// The first step that is not done.
    pub fn next(&self, card: &JobCard) -> Option<usize> {
        self.steps(card)
            .iter()
            .position(|s| !matches!(s, Standing::Done { .. }))
    }

    /// Every step is done and nothing happened that fails the job.
    pub fn passed(&self, card: &JobCard) -> bool {
        self.next(card).is_none()
            && !card
                .harm
                .iter()
                .zip(&self.harms)
                .any(|(h, m)| h.severity == Severity::Grave && m.reached.is_some())
    }
}
