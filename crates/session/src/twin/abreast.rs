//! A twin that keeps abreast of its bay wherever that goes: on, back in time, to another line.
//!
//! It is kept as it was at every minute, so that any moment of a visit is a minute away at most.

use std::sync::Arc;

use super::{Change, Twin, TwinError};
use crate::{
    bay::{Bay, Entered, TICKS_PER_SECOND, Tick},
    scenario::Scenario,
};

/// Ticks between the moments at which it is kept: a minute.
const EVERY: Tick = 60 * TICKS_PER_SECOND;
/// Most moments kept: four hours of them; then every other one is let go.
const MOST: usize = 240;

/// A twin with its past.
#[derive(Debug, Clone)]
pub struct Abreast {
    /// What the first bay was opened with.
    first: Arc<Scenario>,
    twin: Twin,
    /// As it was, the oldest first; the first of them at the beginning.
    kept: Vec<Twin>,
    every: Tick,
    /// What the first bay has done, as far as it was ever seen on its present line.
    log: Vec<Entered>,
}

impl Abreast {
    /// Opens one at the start of the first bay's visit.
    ///
    /// # Errors
    /// [`TwinError`] as [`Twin::new`] has it.
    pub fn new(first: &Bay, changes: &[Change]) -> Result<Self, TwinError> {
        let twin = Twin::new(first, changes)?;
        Ok(Self {
            first: first.shared_scenario(),
            kept: vec![twin.clone()],
            twin,
            every: EVERY,
            log: Vec::new(),
        })
    }

    /// Goes to where the first bay is, at most `most` ticks on; `look` sees its bay after each. Returns whether it is there.
    pub fn follow(&mut self, first: &Bay, most: u64, mut look: impl FnMut(&Bay)) -> bool {
        self.turn(first);
        for _ in 0..most {
            if !self.twin.advance(first) {
                return true;
            }
            look(self.twin.bay());
            self.keep();
        }
        self.twin.now() >= first.tick()
    }

    /// Goes to the latest moment kept from which the way leads to the first bay's present, if it has left that way or is far behind.
    fn turn(&mut self, first: &Bay) {
        let log = first.log();
        let shared = log.iter().zip(&self.log).take_while(|(a, b)| a == b);
        let shared = shared.count();
        // All that a twin has seen was done by the first, and nothing that it has not seen was done by then.
        let on_the_way = |twin: &Twin| {
            let next = log.get(twin.seen).map(|(tick, _)| *tick);
            twin.seen <= shared && next.is_none_or(|tick| tick >= twin.now())
        };
        let undone = self.log.get(shared).map(|(tick, _)| *tick);
        let stays = on_the_way(&self.twin) && self.twin.now() <= first.tick();
        if shared < log.len() || undone.is_some_and(|tick| tick < first.tick()) {
            self.kept.retain(on_the_way);
            self.log.truncate(shared);
            self.log.extend_from_slice(&log[shared..]);
        }
        let mut past = self.kept.iter().rev();
        let nearest = past.find(|twin| twin.now() <= first.tick() && on_the_way(twin));
        if let Some(nearest) = nearest.filter(|twin| !stays || twin.now() > self.twin.now()) {
            self.twin = nearest.clone();
        }
    }

    fn keep(&mut self) {
        let now = self.twin.now();
        let last = self.kept.last().map_or(0, Twin::now);
        if now < last + self.every {
            return;
        }
        if self.kept.len() >= MOST {
            self.every *= 2;
            let every = self.every;
            self.kept.retain(|twin| twin.now().is_multiple_of(every));
        }
        self.kept.push(self.twin.clone());
    }

    /// Its bay, to read.
    pub fn bay(&self) -> &Bay {
        self.twin.bay()
    }

    /// Does it go beside this bay, or one that was opened as it was?
    pub fn is_beside(&self, first: &Bay) -> bool {
        let other = first.shared_scenario();
        Arc::ptr_eq(&self.first, &other) || self.first == other
    }
}
