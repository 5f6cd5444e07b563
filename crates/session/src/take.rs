//! A take: a scenario, the acts done in it, how long it lasted and where it ended. Text, checked by replay.

use lowside_plant::halt::Halt;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use thiserror::Error;

use crate::{
    action::Refused,
    bay::{Bay, Entered, TICKS_PER_SECOND, Tick},
    scenario::Scenario,
};

/// Version of the format.
pub const FORMAT: u32 = 1;
/// Most bytes a take may have.
pub const LARGEST: usize = 8 * 1024 * 1024;
/// Most acts a take may have.
pub const MOST_ACTS: usize = 100_000;
/// Longest take, ticks (24 h).
pub const LONGEST: Tick = 24 * 3600 * TICKS_PER_SECOND;

/// A recorded bay.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Take {
    /// Version of the format.
    pub format: u32,
    /// What it was opened with.
    #[serde(deserialize_with = "Scenario::with_acts")]
    pub scenario: Scenario,
    /// Acts with their ticks, in order.
    pub log: Vec<Entered>,
    /// Ticks it lasted.
    pub ticks: Tick,
    /// Fingerprint of the state at the end, hexadecimal.
    pub hash: String,
}

/// Why a take could not be read or replayed.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum TakeError {
    /// Too large.
    #[error("{bytes} bytes are more than {LARGEST}, the most a take may have")]
    TooLarge {
        /// Its size.
        bytes: usize,
    },
    /// Not such a file.
    #[error("not a take: {0}")]
    Text(String),
    /// Another version.
    #[error("format = {0} is not {FORMAT}, the version this program reads")]
    Format(u32),
    /// A scenario with a value out of range.
    #[error("scenario: {0}")]
    Scenario(String),
    /// Too many acts, too long, or acts out of order.
    #[error("{field} = {value} is outside 0 to {most}")]
    Range {
        /// Which field.
        field: &'static str,
        /// Its value.
        value: u64,
        /// Greatest allowed.
        most: u64,
    },
    /// An act the bay refused.
    #[error("act {} of the log: {why}", .index + 1)]
    Act {
        /// Which act, from 0.
        index: usize,
        /// Why.
        why: Refused,
    },
    /// The engine could not go on.
    #[error("the bay halted at tick {tick}: {why}")]
    Halted {
        /// When.
        tick: Tick,
        /// Why.
        why: Halt,
    },
    /// It ended elsewhere: made by a program with other physics.
    #[error(
        "the replay ended in {got} and the take says {said}: it was changed, or made with another version of the physics"
    )]
    Differs {
        /// Hash reached.
        got: String,
        /// Hash recorded.
        said: String,
    },
}

impl Take {
    /// Records a bay.
    pub fn of(bay: &Bay) -> Self {
        Self {
            format: FORMAT,
            scenario: bay.scenario().clone(),
            log: bay.log().to_vec(),
            ticks: bay.tick(),
            hash: hex(bay.state_hash()),
        }
    }

    /// A log as text.
    pub fn log_text(log: &[Entered]) -> String {
        serde_json::to_string(log).unwrap_or_default()
    }

    /// Puts a take together from parts that come from outside, checked as [`Take::parse`] checks.
    ///
    /// # Errors
    /// [`TakeError`], naming the field.
    pub fn assemble(
        scenario: Scenario,
        log: &str,
        ticks: Tick,
        hash: String,
    ) -> Result<Self, TakeError> {
        let log = serde_json::from_str(log)
            .and_then(serde_json::from_value)
            .map_err(|e| TakeError::Text(e.to_string()))?;
        let take = Self {
            format: FORMAT,
            scenario,
            log,
            ticks,
            hash,
        };
        Self::parse(&take.to_text())
    }

    /// As text.
    pub fn to_text(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Reads a take and checks every bound, without replaying it.
    ///
    /// # Errors
    /// [`TakeError`], naming the field.
    pub fn parse(text: &str) -> Result<Self, TakeError> {
        if text.len() > LARGEST {
            return Err(TakeError::TooLarge { bytes: text.len() });
        }
        // By way of a value, as everything that the page reads: straight from text, all the reading code would be there twice.
        let read = serde_json::from_str(text).and_then(serde_json::from_value);
        let take: Self = read.map_err(|e| {
            let place = place(text).map_or_else(String::new, |p| format!("{p}: "));
            TakeError::Text(format!("{place}{e}"))
        })?;
        if take.format != FORMAT {
            return Err(TakeError::Format(take.format));
        }
        take.scenario
            .check()
            .map_err(|e| TakeError::Scenario(e.to_string()))?;
        let range = |field, value, most| {
            if value <= most {
                Ok(())
            } else {
                Err(TakeError::Range { field, value, most })
            }
        };
        range("number of acts", take.log.len() as u64, MOST_ACTS as u64)?;
        range("ticks", take.ticks, LONGEST)?;
        let mut last = take.ticks;
        for (tick, _) in take.log.iter().rev() {
            range("tick of an act", *tick, last)?;
            last = *tick;
        }
        Ok(take)
    }

    /// Starts a replay that the host drives in slices.
    pub fn replay(&self) -> Replay<'_> {
        Replay {
            take: self,
            bay: Bay::new(&self.scenario),
            next: 0,
        }
    }

    /// Replays all of it and checks where it ends.
    ///
    /// # Errors
    /// [`TakeError::Act`] or [`TakeError::Differs`].
    pub fn resume(&self) -> Result<Bay, TakeError> {
        let mut replay = self.replay();
        while !replay.run(u64::MAX)? {}
        replay.finish()
    }
}

/// Which part of a take that does not read is at fault; the reader itself says only line and column.
fn place(text: &str) -> Option<String> {
    fn reads<T: serde::de::DeserializeOwned>(value: &Value) -> bool {
        serde_json::from_value::<T>(value.clone()).is_ok()
    }
    let parts: serde_json::Map<String, Value> = serde_json::from_str(text).ok()?;
    let (name, value) = parts.iter().find(|(name, value)| match name.as_str() {
        "format" => !reads::<u32>(value),
        "scenario" => Scenario::with_acts((*value).clone()).is_err(),
        "log" => !reads::<Vec<Entered>>(value),
        "ticks" => !reads::<Tick>(value),
        "hash" => !reads::<String>(value),
        _ => false,
    })?;
    let acts = value.as_array().filter(|_| name == "log");
    match acts.and_then(|acts| acts.iter().position(|act| !reads::<Entered>(act))) {
        Some(index) => Some(format!("act {} of the log", index + 1)),
        None => Some(name.clone()),
    }
}

/// A replay under way.
#[derive(Debug)]
pub struct Replay<'a> {
    take: &'a Take,
    bay: Bay,
    next: usize,
}

impl Replay<'_> {
    /// Replays at most `ticks` more; true when all is done.
    ///
    /// # Errors
    /// [`TakeError::Act`] when the bay refuses an act, [`TakeError::Halted`] when its engine cannot go on.
    pub fn run(&mut self, ticks: Tick) -> Result<bool, TakeError> {
        let stop = self.bay.tick().saturating_add(ticks).min(self.take.ticks);
        loop {
            while let Some((tick, action)) = self.take.log.get(self.next)
                && *tick <= self.bay.tick()
            {
                self.bay.apply(*action).map_err(|why| TakeError::Act {
                    index: self.next,
                    why,
                })?;
                self.next += 1;
            }
            if self.bay.tick() >= stop {
                return Ok(self.bay.tick() >= self.take.ticks);
            }
            let tick = self.bay.tick();
            self.bay
                .step()
                .map_err(|why| TakeError::Halted { tick, why })?;
        }
    }

    /// The bay as far as it has come, to read.
    pub fn bay(&self) -> &Bay {
        &self.bay
    }

    /// Share done, 0 to 1.
    pub fn progress(&self) -> f64 {
        self.bay.tick() as f64 / (self.take.ticks as f64).max(1.0)
    }

    /// The bay, its end checked against the take.
    ///
    /// # Errors
    /// [`TakeError::Differs`] when the states are not the same.
    pub fn finish(self) -> Result<Bay, TakeError> {
        let got = hex(self.bay.state_hash());
        if got != self.take.hash {
            return Err(TakeError::Differs {
                got,
                said: self.take.hash.clone(),
            });
        }
        Ok(self.bay)
    }

    /// Gives the bay as the replay left it, and whether its state is the one recorded: for a host that takes up a person's own
    /// visit after the physics has become better.
    pub fn end(self) -> (Bay, bool) {
        let same = hex(self.bay.state_hash()) == self.take.hash;
        (self.bay, same)
    }
}

/// Has a bay come to the end of what a take can hold? What goes on beyond cannot be read again.
pub fn is_full(bay: &Bay) -> bool {
    bay.tick() >= LONGEST || bay.log().len() >= MOST_ACTS
}

/// A hash as text.
pub fn hex(hash: u64) -> String {
    format!("{hash:016x}")
}
