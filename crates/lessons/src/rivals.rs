//! Rivals: which faults could have given what was read?
//!
//! What somebody did in a bay is done again in a bay for each suspect, on the same day; the readings there are held against those that were
//! taken. Nothing is read of the learner's vehicle but its readings and what everybody knows of it. No library of cases is asked: a
//! fault that the engine knows is a suspect.
//!
//! A host makes the bays in any order and as many at a time as it has cores: [`Case::run`] makes one [`Trace`] of one [`Run`], and
//! [`Odds::of`] judges all of them together.

use lowside_session::{Bay, Entered, Scenario, TICKS_PER_SECOND, Tick};
use lowside_shop::fault::{self, Fault, Severity, Table};

use crate::draw::Draw;

mod channel;
mod debrief;
mod inquiry;
mod odds;
mod root;
mod runner;
mod twins;

pub use channel::Channel;
pub use debrief::{Beside, Debrief, Telling, told_apart};
pub use inquiry::Inquiry;
pub use odds::{Odds, Standing};
use runner::Runner;
pub use twins::twins;

/// Sound vehicles that are run to find how far apart they are.
const SCATTERED: u64 = 12;

/// What was done and read in a bay, and what everybody knows of the vehicle.
#[derive(Debug, Clone)]
pub struct Case {
    known: Scenario,
    log: Vec<Entered>,
    ticks: Tick,
    evidence: Trace,
}

/// A bay that is run for a case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Run {
    /// A sound vehicle, as its kind is.
    Sound,
    /// A sound vehicle as sound vehicles are: one of several that are drawn.
    Scattered(u64),
    /// A vehicle with a fault.
    Faulty(&'static Fault, Severity),
}

/// What instruments show in one bay: a number each, none where there was nothing to read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Trace {
    /// At each reading that was taken, in order.
    pub read: Vec<Read>,
    /// What could have been read at the end, whatever was connected. Their numbers are those of the list, not of readings.
    pub menu: Vec<Read>,
}

/// One number of a reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Read {
    /// Which reading it is of, from 0.
    pub reading: usize,
    /// What was read, and which of its numbers.
    pub channel: Channel,
    /// What it showed; none where it was refused.
    pub value: Option<f64>,
}

impl Case {
    /// Takes what was done in a bay up to now.
    pub fn of(bay: &Bay) -> Self {
        let mut case = Self {
            known: bay.scenario().as_known(),
            log: bay.log().to_vec(),
            ticks: bay.tick(),
            evidence: Trace::default(),
        };
        case.evidence = case.trace(bay.scenario());
        case
    }

    /// Takes what is to be done in bays of a kind, and was done in none yet.
    pub(crate) fn done(kind: &Scenario, log: Vec<Entered>, ticks: Tick) -> Self {
        Self {
            known: kind.as_known(),
            log,
            ticks,
            evidence: Trace::default(),
        }
    }

    /// What a vehicle shows where the same is done.
    pub(crate) fn shown(&self, vehicle: &Scenario) -> Trace {
        self.trace(vehicle)
    }

    /// The readings that were taken.
    pub fn evidence(&self) -> &Trace {
        &self.evidence
    }

    /// The faults that may be suspected: all of the registry but those that are nothing but a place where something gets out, which no reading
    /// but a search tells.
    pub fn suspects() -> impl Iterator<Item = &'static Fault> {
        fault::all().filter(|fault| !matches!(fault.field.table, Table::Leak | Table::Joint))
    }

    /// The severities of a fault that differ: a switch has but one.
    pub fn severities(fault: &'static Fault) -> impl Iterator<Item = Severity> {
        Severity::ALL
            .into_iter()
            .filter(move |s| differs(fault, *s))
    }

    /// All bays that can be run.
    pub fn runs() -> impl Iterator<Item = Run> {
        let scattered = (0..SCATTERED).map(Run::Scattered);
        let faulty = Self::suspects()
            .flat_map(|fault| Self::severities(fault).map(move |s| Run::Faulty(fault, s)));
        core::iter::once(Run::Sound).chain(scattered).chain(faulty)
    }

    /// Runs one of them.
    pub fn run(&self, run: Run) -> Trace {
        self.trace(&self.vehicle(run))
    }

    fn trace(&self, scenario: &Scenario) -> Trace {
        let mut runner = Runner::new(scenario);
        runner.advance(self, Tick::MAX);
        runner.trace
    }

    /// The vehicle of a run.
    fn vehicle(&self, run: Run) -> Scenario {
        match run {
            Run::Sound => self.known.clone(),
            Run::Scattered(seed) => Scenario {
                scatter: Draw::new(seed).scatter(1.0),
                ..self.known.clone()
            },
            Run::Faulty(fault, severity) => self.known.with_fault(fault, severity),
        }
    }

    /// How long it lasted, s.
    pub fn seconds(&self) -> f64 {
        self.ticks as f64 / TICKS_PER_SECOND as f64
    }
}

/// Is a severity another than the one below it?
fn differs(fault: &Fault, severity: Severity) -> bool {
    let values = &fault.severities;
    let at = severity as usize;
    at == 0 || (values[at] - values[at - 1]).abs() > 0.0
}
