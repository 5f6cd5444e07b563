//! Playing a take again.

use super::{Take, TakeError, fingerprint};
#[cfg(feature = "checkpoint")]
use crate::checkpoint;
use crate::{
    action::{Action, Refused},
    bay::{Bay, Tick},
    observe::Observer,
    reading::Reading,
};

/// How the end of a replay stands to the end recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The same, to the bit.
    Same,
    /// Another.
    Elsewhere,
    /// Nobody can tell: it was recorded under another physics.
    Unknown,
}

/// A replay under way.
#[derive(Debug)]
pub struct Replay<'a> {
    take: &'a Take,
    bay: Bay,
    next: usize,
    skipped: Vec<Skipped>,
    readings: Vec<Reading>,
}

/// An act that was taken under another physics, is refused under this one, and was left out.
#[derive(Debug, Clone, PartialEq)]
pub struct Skipped {
    /// Its place in the log, from 0.
    pub index: usize,
    /// The act.
    pub action: Action,
    /// Why it is refused.
    pub why: Refused,
}

impl<'a> Replay<'a> {
    pub(super) fn new(take: &'a Take) -> Self {
        Self {
            take,
            bay: Bay::new(&take.scenario),
            next: 0,
            skipped: Vec::new(),
            readings: Vec::new(),
        }
    }

    /// A replay that begins where a checkpoint of the same take stands; none if the checkpoint is not the take's, or of another physics: then
    /// the take is replayed from its beginning. What was read before the checkpoint is not listed.
    #[cfg(feature = "checkpoint")]
    pub fn from_checkpoint(take: &'a Take, text: &str) -> Option<Self> {
        let own = take.is_own_physics() && checkpoint::is_own_physics(text);
        let bay = own.then(|| Bay::load(&take.scenario, &take.log, text).ok())??;
        (bay.tick() <= take.ticks).then(|| Self {
            next: bay.log().len(),
            bay,
            ..Self::new(take)
        })
    }

    /// Replays at most `ticks` more; true when all is done.
    ///
    /// # Errors
    /// [`TakeError::Act`] when the bay refuses an act that was taken under the same physics, [`TakeError::Halted`] when its engine cannot
    /// go on.
    pub fn run(&mut self, ticks: Tick) -> Result<bool, TakeError> {
        self.run_observed(ticks, &mut |_| None)
    }

    /// As [`Replay::run`], while an observer watches. What it gives is entered where the log has no entry of its own.
    ///
    /// # Errors
    /// As [`Replay::run`].
    pub fn run_observed(&mut self, ticks: Tick, observer: Observer<'_>) -> Result<bool, TakeError> {
        let stop = self.bay.tick().saturating_add(ticks).min(self.take.ticks);
        loop {
            while let Some((tick, action)) = self.take.log.get(self.next)
                && *tick <= self.bay.tick()
            {
                let index = self.next;
                match self.bay.apply(*action) {
                    Ok(()) => self.readings.extend(Reading::of(&self.bay, *action)),
                    Err(why) if self.take.is_own_physics() => {
                        return Err(TakeError::Act { index, why });
                    }
                    Err(why) => self.skipped.push(Skipped {
                        index,
                        action: *action,
                        why,
                    }),
                }
                self.next += 1;
                self.observe(observer);
            }
            if self.bay.tick() >= stop {
                return Ok(self.bay.tick() >= self.take.ticks);
            }
            let tick = self.bay.tick();
            self.bay
                .step()
                .map_err(|why| TakeError::Halted { tick, why })?;
            self.observe(observer);
        }
    }

    fn observe(&mut self, observer: Observer<'_>) {
        let entry = observer(&self.bay);
        let now = self.bay.tick();
        let next = self.take.log.get(self.next);
        if !next.is_some_and(|(tick, action)| *tick <= now && action.is_entry()) {
            self.bay.enter(entry);
        }
    }

    /// The bay as far as it has come, to read.
    pub fn bay(&self) -> &Bay {
        &self.bay
    }

    /// Acts that were left out so far: none in a take of the same physics.
    pub fn skipped(&self) -> &[Skipped] {
        &self.skipped
    }

    /// What was read so far, in the order of the reading.
    pub fn readings(&self) -> &[Reading] {
        &self.readings
    }

    /// Share done, 0 to 1.
    pub fn progress(&self) -> f64 {
        self.bay.tick() as f64 / (self.take.ticks as f64).max(1.0)
    }

    /// The bay, its end checked against the take if it can be ([`Take::is_comparable`]). It stands halted if that is how the take ends.
    ///
    /// # Errors
    /// [`TakeError::Differs`] when the states are not the same.
    pub fn finish(self) -> Result<Bay, TakeError> {
        let said = &self.take.hash;
        match self.end() {
            (bay, End::Elsewhere) => Err(TakeError::Differs {
                got: fingerprint(&bay),
                said: said.clone(),
            }),
            (bay, End::Same | End::Unknown) => Ok(bay),
        }
    }

    /// Gives the bay as the replay left it, and how its state stands to the one recorded: for a host that takes up a person's own
    /// visit after the physics has become better.
    ///
    /// A bay that halted in a step has spent it without a tick to count it: such an end is reached by one step more.
    pub fn end(self) -> (Bay, End) {
        if !self.take.is_comparable() {
            return (self.bay, End::Unknown);
        }
        let is_end = |bay: &Bay| fingerprint(bay) == self.take.hash;
        if is_end(&self.bay) {
            return (self.bay, End::Same);
        }
        let mut halted = self.bay.clone();
        if halted.step().is_err() && is_end(&halted) {
            return (halted, End::Same);
        }
        (self.bay, End::Elsewhere)
    }
}
