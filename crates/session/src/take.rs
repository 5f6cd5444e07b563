//! A take: a scenario, the acts done in it, how long it lasted and where it ended. Text, checked by replay.

use core::fmt;

use lowside_plant::halt::Halt;
use lowside_units::UnitError;
use thiserror::Error;

use crate::{
    action::Refused,
    bay::{Bay, Entered, TICKS_PER_SECOND, Tick},
    limits::size,
    scenario::{self, Scenario},
    state,
};

mod physics;
mod replay;
mod sitting;
mod text;

pub use physics::PHYSICS;
pub use replay::{End, Replay, Skipped};
pub use sitting::{Card, Hint, LONGEST_NAME, MOST_HINTS, MOST_LINES, Sitting, Undone, is_code};

/// Version of the format that is written. Version 1 is read too: its end hash went over other things and can be compared with nothing.
pub const FORMAT: u32 = 2;
/// Oldest version that is read.
const OLDEST: u32 = 1;
/// Most bytes a take may have.
pub const LARGEST: usize = 8 * 1024 * 1024;
/// Most acts a take may have, and as many undone ones.
pub const MOST_ACTS: usize = 100_000;
/// Most bytes of a take's scenario: as text with units it may be longer than the file it was read from.
const LARGEST_SCENARIO: usize = 2 * scenario::LARGEST;
/// Most bytes of one act, and of a number, a name or a hash: several times the longest.
const LARGEST_ACT: usize = 4096;
/// Most characters kept of what a reader of text says.
const LONGEST_DETAIL: usize = 300;
/// Longest take, ticks (24 h).
pub const LONGEST: Tick = 24 * 3600 * TICKS_PER_SECOND;

/// A recorded bay. [`Take::to_text`] has the text's form.
#[derive(Debug, Clone, PartialEq)]
pub struct Take {
    /// Version of the format.
    pub format: u32,
    /// The physics under which it was recorded (see [`PHYSICS`]); none in takes from before that was written.
    pub physics: Option<String>,
    /// What it was opened with.
    pub scenario: Scenario,
    /// In what sitting.
    pub sitting: Sitting,
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
    /// The physics it was recorded under.
    Physics,
    /// The scenario.
    Scenario,
    /// The scenario's hidden part.
    Hidden,
    /// The card.
    Card,
    /// How much was seen.
    Sight,
    /// When an exam was handed in.
    HandedIn,
    /// When the inside was opened.
    Opened,
    /// The learner's code.
    Learner,
    /// What chance had in it.
    Seed,
    /// Hints asked for.
    Hints,
    /// Undone acts.
    Lines,
    /// Whether it is of more than one physics.
    Mixed,
    /// The acts.
    Log,
    /// An act of the log, from 0.
    Act(usize),
    /// How long it lasted.
    Ticks,
    /// The fingerprint of its end.
    Hash,
    /// The seal.
    Seal,
}

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Whole => "the whole",
            Self::Act(index) => return write!(f, "act {} of the log", index + 1),
            other => other.key(),
        })
    }
}

impl Part {
    /// The key of the text; empty for the whole.
    pub fn key(self) -> &'static str {
        match self {
            Self::Whole => "",
            Self::Format => "format",
            Self::Physics => "physics",
            Self::Scenario => "scenario",
            Self::Hidden => "hidden",
            Self::Card => "card",
            Self::Sight => "sight",
            Self::HandedIn => "handed_in",
            Self::Opened => "opened",
            Self::Learner => "learner",
            Self::Seed => "seed",
            Self::Hints => "hints",
            Self::Lines => "lines",
            Self::Mixed => "mixed",
            Self::Log | Self::Act(_) => "log",
            Self::Ticks => "ticks",
            Self::Hash => "hash",
            Self::Seal => "seal",
        }
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
    /// Changed after it was written.
    #[error(
        "seal = {said} does not fit the text, whose seal is {got}: it was changed after it was written. Without its seal it is \
         read as it stands"
    )]
    Seal {
        /// Of the text as it is.
        got: String,
        /// As written.
        said: String,
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
    /// It ended elsewhere, under the same physics as far as it says. Nothing tells whether somebody changed it or another version made it.
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

/// What is counted of a part.
fn counted(part: Part) -> String {
    match part {
        Part::Log => "number of acts".to_owned(),
        Part::Lines => "number of lines or of undone acts".to_owned(),
        Part::Hints => "number of hints".to_owned(),
        Part::Act(_) => format!("tick of {part}"),
        other => other.to_string(),
    }
}

fn in_range(part: Part, value: u64, most: u64) -> Result<(), TakeError> {
    if value <= most {
        Ok(())
    } else {
        Err(TakeError::Range { part, value, most })
    }
}

impl Take {
    /// Records a bay in a sitting that nobody asked anything of and that saw everything.
    pub fn of(bay: &Bay) -> Self {
        Self::in_sitting(bay, Sitting::default())
    }

    /// Records a bay in its sitting.
    pub fn in_sitting(bay: &Bay, sitting: Sitting) -> Self {
        Self {
            format: FORMAT,
            physics: Some(PHYSICS.to_owned()),
            scenario: bay.scenario().clone(),
            sitting,
            log: bay.log().to_vec(),
            ticks: bay.tick(),
            hash: fingerprint(bay),
        }
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
        let s = &self.sitting;
        let hints = s.hints.iter().map(|hint| (Part::Hints, hint.tick));
        let ends = [(Part::HandedIn, s.handed_in), (Part::Opened, s.opened)];
        let ends = ends
            .into_iter()
            .filter_map(|(part, tick)| Some((part, tick?)));
        for (part, tick) in hints.chain(ends) {
            in_range(part, tick, LONGEST)?;
        }
        let undone = s.lines.iter().flat_map(|line| {
            let acts = line.acts.iter().map(|(tick, _)| *tick);
            acts.chain([line.tick])
        });
        for tick in undone {
            in_range(Part::Lines, tick, LONGEST)?;
        }
        Ok(self)
    }

    /// Was it recorded under this program's physics, as far as it says?
    pub fn is_own_physics(&self) -> bool {
        self.format == FORMAT && self.physics.as_deref().is_none_or(|p| p == PHYSICS)
    }

    /// Whether its end can be compared with that of a replay.
    pub fn is_comparable(&self) -> bool {
        self.is_own_physics() && !self.hash.is_empty()
    }

    /// Whether what was done in it can be marked as if it had been done under this program's physics.
    pub fn has_comparable_mark(&self) -> bool {
        self.is_own_physics() && !self.sitting.mixed
    }

    /// The sitting as it goes on from a replay of the take here.
    pub fn sitting_here(&self) -> Sitting {
        Sitting {
            mixed: !self.has_comparable_mark(),
            ..self.sitting.clone()
        }
    }

    /// Starts a replay that the host drives in slices.
    pub fn replay(&self) -> Replay<'_> {
        Replay::new(self)
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

/// The physics that ends takes with these fingerprints: of the golden ones, in the order of their names.
pub fn physics_of<'a>(ends: impl IntoIterator<Item = &'a str>) -> String {
    let ends: Vec<&str> = ends.into_iter().collect();
    hex(state::hash_of_text(&ends.join("\n")))
}
