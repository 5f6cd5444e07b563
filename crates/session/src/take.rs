//! A take: a scenario, the acts done in it, how long it lasted and where it ended. Text, checked by replay.

use core::fmt;

use lowside_plant::halt::Halt;
use lowside_units::UnitError;
use serde::{Deserialize, Deserializer, Serialize, de};
use serde_json::{Value, value::RawValue};
use thiserror::Error;

use crate::{
    action::Refused,
    bay::{Bay, Entered, TICKS_PER_SECOND, Tick},
    limits::size,
    observe::Observer,
    scenario::{self, Scenario},
};

/// Version of the format that is written. Version 1 is read too: its end hash went over other things and can be compared with nothing.
pub const FORMAT: u32 = 2;
/// Oldest version that is read.
const OLDEST: u32 = 1;
/// Most bytes a take may have.
pub const LARGEST: usize = 8 * 1024 * 1024;
/// Most acts a take may have.
pub const MOST_ACTS: usize = 100_000;
/// Most bytes of a take's scenario: as text with units it may be longer than the file it was read from.
const LARGEST_SCENARIO: usize = 2 * scenario::LARGEST;
/// Most bytes of one act, and of a number or the hash: several times the longest.
const LARGEST_ACT: usize = 4096;
/// Most characters kept of what a reader of text says.
const LONGEST_DETAIL: usize = 300;
/// Longest take, ticks (24 h).
pub const LONGEST: Tick = 24 * 3600 * TICKS_PER_SECOND;

/// A recorded bay.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Take {
    /// Version of the format.
    pub format: u32,
    /// What it was opened with.
    pub scenario: Scenario,
    /// Acts with their ticks, in order.
    pub log: Vec<Entered>,
    /// Ticks it lasted.
    pub ticks: Tick,
    /// Fingerprint of the state at the end, hexadecimal; empty where a number in it is none.
    pub hash: String,
}

/// A part of a take's text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// All of it.
    Whole,
    /// The version of the format.
    Format,
    /// The scenario.
    Scenario,
    /// The acts.
    Log,
    /// An act of the log, from 0.
    Act(usize),
    /// How long it lasted.
    Ticks,
    /// The fingerprint of its end.
    Hash,
}

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Whole => "the whole",
            Self::Format => "format",
            Self::Scenario => "scenario",
            Self::Log => "log",
            Self::Act(index) => return write!(f, "act {} of the log", index + 1),
            Self::Ticks => "ticks",
            Self::Hash => "hash",
        })
    }
}

/// Why a take could not be read or replayed.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum TakeError {
    /// Too large.
    #[error("{part} is larger than {}, the most it may be", size(*.most))]
    TooLarge {
        /// What is.
        part: Part,
        /// Most bytes it may have.
        most: usize,
    },
    /// Nothing stands in it.
    #[error("not a take: it is empty")]
    Empty,
    /// The end is missing.
    #[error("not a take: it is cut short")]
    CutShort,
    /// Not of the form.
    #[error("not a take: {part}: {detail}")]
    Form {
        /// What is not.
        part: Part,
        /// What the reader of the text says, in English.
        detail: String,
    },
    /// Another version.
    #[error("format = {0} is outside {OLDEST} to {FORMAT}, the versions this program reads")]
    Format(u32),
    /// A scenario with a value out of range.
    #[error("scenario: {0}")]
    Scenario(UnitError),
    /// Too many acts, too long, or acts out of order.
    #[error("{} = {value} is outside 0 to {most}", counted(*.part))]
    Range {
        /// Of which part: the number of acts of a log, the tick of an act.
        part: Part,
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
    /// It ended elsewhere. Nothing tells whether somebody changed it or another version made it.
    #[error(
        "it does not end where it says: the replay ended in {got} and the take says {said}; it was edited, or another version \
         made it"
    )]
    Differs {
        /// Hash reached.
        got: String,
        /// Hash recorded.
        said: String,
    },
}

/// A take's text taken apart. Nothing of it is built yet, so that a part can be refused for its size.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Parts<'a> {
    #[serde(borrow)]
    format: &'a RawValue,
    scenario: &'a RawValue,
    log: &'a RawValue,
    ticks: &'a RawValue,
    hash: &'a RawValue,
}

/// The acts of a log, read one by one: a log too long or an act too large is never built.
struct Log(Result<Vec<Entered>, TakeError>);

impl<'de> Deserialize<'de> for Log {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        struct Acts;
        impl<'de> de::Visitor<'de> for Acts {
            type Value = Log;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a list of acts")
            }

            fn visit_seq<A: de::SeqAccess<'de>>(self, mut seq: A) -> Result<Log, A::Error> {
                let (mut log, mut acts) = (Ok(Vec::new()), 0);
                while let Some(raw) = seq.next_element::<&RawValue>()? {
                    if acts < MOST_ACTS
                        && let Ok(read) = &mut log
                    {
                        match part(Part::Act(acts), raw, LARGEST_ACT) {
                            Ok(act) => read.push(act),
                            Err(e) => log = Err(e),
                        }
                    }
                    acts += 1;
                }
                Ok(Log(
                    in_range(Part::Log, acts as u64, MOST_ACTS as u64).and(log)
                ))
            }
        }
        d.deserialize_seq(Acts)
    }
}

/// Reads a part of at most `most` bytes. By way of a value, as everything that the page reads: straight from text, all the reading code
/// would be there twice.
fn part<T: de::DeserializeOwned>(part: Part, raw: &RawValue, most: usize) -> Result<T, TakeError> {
    if raw.get().len() > most {
        return Err(TakeError::TooLarge { part, most });
    }
    let read = serde_json::from_str::<Value>(raw.get()).and_then(serde_json::from_value);
    read.map_err(|e| form(part, &e))
}

fn log(text: &str) -> Result<Vec<Entered>, TakeError> {
    serde_json::from_str(text)
        .map_err(|e| form(Part::Log, &e))
        .and_then(|Log(log)| log)
}

/// What is counted of a part.
fn counted(part: Part) -> String {
    match part {
        Part::Log => "number of acts".to_owned(),
        Part::Act(_) => format!("tick of {part}"),
        other => other.to_string(),
    }
}

/// What a reader says, short: it may repeat the whole text.
fn form(part: Part, e: &serde_json::Error) -> TakeError {
    if e.is_eof() {
        return TakeError::CutShort;
    }
    let detail = e.to_string().chars().take(LONGEST_DETAIL).collect();
    TakeError::Form { part, detail }
}

fn in_range(part: Part, value: u64, most: u64) -> Result<(), TakeError> {
    if value <= most {
        Ok(())
    } else {
        Err(TakeError::Range { part, value, most })
    }
}

impl Take {
    /// Records a bay.
    pub fn of(bay: &Bay) -> Self {
        Self {
            format: FORMAT,
            scenario: bay.scenario().clone(),
            log: bay.log().to_vec(),
            ticks: bay.tick(),
            hash: fingerprint(bay),
        }
    }

    /// A log as text.
    pub fn log_text(log: &[Entered]) -> String {
        serde_json::to_string(log).unwrap_or_default()
    }

    /// Puts a take together from parts that come from outside, checked as [`Take::parse`] checks.
    ///
    /// # Errors
    /// [`TakeError`], naming the part.
    pub fn assemble(
        format: u32,
        scenario: Scenario,
        acts: &str,
        ticks: Tick,
        hash: String,
    ) -> Result<Self, TakeError> {
        Self {
            format,
            scenario,
            log: log(acts)?,
            ticks,
            hash,
        }
        .checked()
    }

    /// As text.
    pub fn to_text(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Reads a take and checks every bound, without replaying it. Takes memory for what a take may hold, whatever the text.
    ///
    /// # Errors
    /// [`TakeError`], naming the part.
    pub fn parse(text: &str) -> Result<Self, TakeError> {
        if text.len() > LARGEST {
            let part = Part::Whole;
            return Err(TakeError::TooLarge {
                part,
                most: LARGEST,
            });
        }
        if text.trim_start().is_empty() {
            return Err(TakeError::Empty);
        }
        if !text.trim_start().starts_with('{') {
            let (part, detail) = (Part::Whole, "begins with no {".to_owned());
            return Err(TakeError::Form { part, detail });
        }
        let parts: Parts<'_> = serde_json::from_str(text).map_err(|e| form(Part::Whole, &e))?;
        Self {
            format: part(Part::Format, parts.format, LARGEST_ACT)?,
            scenario: part(Part::Scenario, parts.scenario, LARGEST_SCENARIO)
                .map(|WithActs(s)| s)?,
            log: log(parts.log.get())?,
            ticks: part(Part::Ticks, parts.ticks, LARGEST_ACT)?,
            hash: part(Part::Hash, parts.hash, LARGEST_ACT)?,
        }
        .checked()
    }

    /// The take, if every number in it is in its range.
    fn checked(self) -> Result<Self, TakeError> {
        if !(OLDEST..=FORMAT).contains(&self.format) {
            return Err(TakeError::Format(self.format));
        }
        self.scenario.check().map_err(TakeError::Scenario)?;
        in_range(Part::Ticks, self.ticks, LONGEST)?;
        let mut last = self.ticks;
        for (index, (tick, _)) in self.log.iter().enumerate().rev() {
            in_range(Part::Act(index), *tick, last)?;
            last = *tick;
        }
        Ok(self)
    }

    /// Whether its end can be compared with that of a replay.
    pub fn is_comparable(&self) -> bool {
        self.format == FORMAT && !self.hash.is_empty()
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

/// How the end of a replay stands to the end recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The same, to the bit.
    Same,
    /// Another.
    Elsewhere,
    /// Nobody can tell: an earlier version recorded it.
    Unknown,
}

/// A scenario read with its acts.
#[derive(Deserialize)]
struct WithActs(#[serde(deserialize_with = "Scenario::with_acts")] Scenario);

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
                self.bay.apply(*action).map_err(|why| TakeError::Act {
                    index: self.next,
                    why,
                })?;
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

/// Has a bay come to the end of what a take can hold? What goes on beyond cannot be read again.
pub fn is_full(bay: &Bay) -> bool {
    bay.tick() >= LONGEST || bay.log().len() >= MOST_ACTS
}

/// Fingerprint of a bay's state as text; empty where a number in it is none.
pub fn fingerprint(bay: &Bay) -> String {
    bay.state_hash().map_or_else(|_| String::new(), hex)
}

/// A hash as text.
pub fn hex(hash: u64) -> String {
    format!("{hash:016x}")
}
