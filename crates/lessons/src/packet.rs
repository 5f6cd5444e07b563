//! Vehicles to hand out to a class: equally difficult, on one day, under one set of tests.
//!
//! How difficult a vehicle is, is how many readings it takes at least to leave one suspect. The tests are those of a good look ([`Tests`]);
//! day and tests are the packet's, so every rival is run once, and each vehicle once. What was drawn comes back with the seed.

use lowside_session::{
    Entered, HoseAct, InstrumentAct, LearnerAct, Scenario, TICKS_PER_SECOND, Tick, VehicleAct,
    action::{Action, Meter, Wheel},
};
use lowside_shop::{
    fault::{Fault, Severity},
    meters::Point,
};
use lowside_units::RotationSpeed;

use crate::{
    draw::Draw,
    drill::{Deck, Drill},
    rivals::{Case, Run, Trace, told_apart},
};

/// Most vehicles of a packet.
pub const MOST: usize = 200;
/// Vehicles drawn for each that is wanted before the draw is given up.
const DRAWN: usize = 30;

/// The tests of a good look, and what every rival shows in them.
#[derive(Debug)]
pub struct Tests {
    case: Case,
    rivals: Vec<(Run, Trace)>,
    /// Least severity of a rival: of faults slighter than those handed out nobody asks.
    least: Severity,
}

/// A vehicle of a packet.
#[derive(Debug, Clone)]
pub struct Vehicle {
    /// What it is, with all that is hidden.
    pub drill: Drill,
    /// Least number of readings that leaves one suspect.
    pub readings: usize,
}

/// Seconds that a reading and what goes before it take: a moment, a clamp that warms up, a loop that settles (own figures).
const READS: f64 = 5.0;
const CLAMPS: f64 = 25.0;
const SETTLES: f64 = 300.0;
const RESTS: f64 = 45.0;

/// Writes acts down, one after the other.
#[derive(Default)]
struct Script {
    log: Vec<Entered>,
    tick: Tick,
}

impl Script {
    fn act(&mut self, act: impl Into<Action>) {
        self.log.push((self.tick, act.into()));
    }

    fn pass(&mut self, seconds: f64) {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "of this file's own constants"
        )]
        let ticks = (seconds * TICKS_PER_SECOND as f64) as Tick;
        self.tick += ticks;
    }

    fn read(&mut self, instrument: Meter) {
        self.act(LearnerAct::Read { instrument });
        self.pass(READS);
    }

    /// Gauges at rest; gauges, vent, clutch, air and four clamps while it runs; gauges after it was stopped (common practice, no source).
    fn look(blower: u8) -> Self {
        let mut s = Self::default();
        s.act(HoseAct::LowCoupler { on: true });
        s.act(HoseAct::HighCoupler { on: true });
        s.pass(20.0);
        s.read(Meter::LowGauge);
        s.read(Meter::HighGauge);
        s.act(VehicleAct::Engine { on: true });
        let speed = RotationSpeed::from_rpm(1500.0);
        s.act(VehicleAct::EngineSpeed { speed });
        s.act(VehicleAct::AirConditioning { on: true });
        s.act(VehicleAct::Blower { step: blower });
        s.act(VehicleAct::Windows { on: true });
        s.pass(SETTLES);
        s.read(Meter::LowGauge);
        s.read(Meter::HighGauge);
        s.read(Meter::VentThermometer);
        s.read(Meter::Tachometer(Wheel::Hub));
        s.read(Meter::Anemometer);
        for at in [
            Point::Discharge,
            Point::LiquidLine,
            Point::EvaporatorIn,
            Point::EvaporatorOut,
        ] {
            s.act(InstrumentAct::Clamp { at: Some(at) });
            s.pass(CLAMPS);
            s.read(Meter::Clamp(at));
        }
        s.act(VehicleAct::AirConditioning { on: false });
        s.pass(RESTS);
        s.read(Meter::LowGauge);
        s.read(Meter::HighGauge);
        s
    }
}

impl Tests {
    /// Of a vehicle's kind on its day; of rivals as severe as `least`. None has been run yet: [`Tests::run`] gives what [`Tests::with`] takes.
    pub fn new(kind: &Scenario, least: Severity) -> Self {
        let blower = u8::try_from(kind.vehicle.cabin.blower.len()).unwrap_or(1);
        let script = Script::look(blower);
        Self {
            case: Case::done(kind, script.log, script.tick),
            rivals: Vec::new(),
            least,
        }
    }

    /// The rivals to be run.
    pub fn runs(&self) -> Vec<Run> {
        let least = self.least;
        let severe = |run: &Run| match run {
            Run::Sound => true,
            Run::Faulty(fault, severity) => {
                *severity >= least || Case::severities(fault).count() == 1
            }
            Run::Scattered(_) => false,
        };
        Case::runs().filter(severe).collect()
    }

    /// Runs one of them.
    pub fn run(&self, run: Run) -> Trace {
        self.case.run(run)
    }

    /// Takes what they showed.
    #[must_use]
    pub fn with(self, rivals: Vec<(Run, Trace)>) -> Self {
        Self { rivals, ..self }
    }

    /// Least number of readings that leaves one suspect; none where all of them together do not.
    pub fn readings(&self, drill: &Drill) -> Option<usize> {
        let own = self.case.shown(&drill.scenario);
        let all = own.read.iter().map(|read| read.reading + 1).max()?;
        let fault = |run: &Run| match run {
            Run::Faulty(fault, _) => Some(*fault),
            Run::Sound | Run::Scattered(_) => None,
        };
        let others = self
            .rivals
            .iter()
            .filter(|(run, _)| fault(run) != drill.fault);
        // Of each reading which rivals it rules out.
        let mut out = vec![0_u128; all];
        let mut everybody = 0_u128;
        for (n, (_, trace)) in others.enumerate() {
            let bit = 1_u128.checked_shl(u32::try_from(n).ok()?)?;
            everybody |= bit;
            for (reading, out) in out.iter_mut().enumerate() {
                if told_apart(&own, trace, |of| of == reading).is_some() {
                    *out |= bit;
                }
            }
        }
        fewest(&out, everybody)
    }
}

/// Fewest of the sets that together have every member; none where all of them do not.
fn fewest(sets: &[u128], all: u128) -> Option<usize> {
    let most = 1_u32.checked_shl(u32::try_from(sets.len()).ok()?)?;
    let united = |chosen: u32| {
        let of = |(n, set): (usize, &u128)| if chosen >> n & 1 == 1 { *set } else { 0 };
        sets.iter().enumerate().map(of).fold(0, |a, b| a | b)
    };
    let fits = (0..most).filter(|chosen| united(*chosen) == all);
    fits.map(|chosen| chosen.count_ones() as usize).min()
}

/// A vehicle's kind as all of a packet come in: switched off, on the day of the first that is drawn.
pub fn kind(seed: u64, deck: &Deck, of: &Scenario) -> Scenario {
    let first = Drill::drawn(seed, deck, of).scenario;
    Scenario {
        day: first.day,
        engine: first.engine,
        controls: first.controls,
        ..of.clone()
    }
}

/// Vehicles that may be in a packet, in the order of their drawing, without end: on the packet's day.
pub fn drawn<'a>(
    seed: u64,
    deck: &'a Deck,
    kind: &'a Scenario,
) -> impl Iterator<Item = Drill> + 'a {
    let mut draw = Draw::new(seed);
    core::iter::repeat_with(move || {
        let mut drill = Drill::drawn(draw.bits(), deck, kind);
        drill.scenario.day = kind.day.clone();
        drill
    })
}

/// How many vehicles are drawn at most for so many.
pub fn drawn_at_most(count: usize) -> usize {
    count.saturating_mul(DRAWN)
}

/// Chooses so many vehicles of equal difficulty: of `readings`, or of as many readings as most have; no fault comes again before each had its
/// turn, as far as there are enough. None where too few are equal.
pub fn choose(all: &[Vehicle], count: usize, readings: Option<usize>) -> Option<Vec<Vehicle>> {
    let of = |n: usize| all.iter().filter(move |v| v.readings == n);
    let usual = || (1..=u128::BITS as usize).max_by_key(|n| (of(*n).count(), usize::MAX - n));
    let readings = readings.or_else(usual)?;
    let mut left: Vec<&Vehicle> = of(readings).collect();
    if left.len() < count {
        return None;
    }
    let mut chosen: Vec<Vehicle> = Vec::new();
    while chosen.len() < count {
        let times = |fault: Option<&'static Fault>| {
            chosen.iter().filter(|v| v.drill.fault == fault).count()
        };
        let next = (0..left.len()).min_by_key(|n| times(left[*n].drill.fault))?;
        chosen.push(left.remove(next).clone());
    }
    Some(chosen)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: four rivals, of which no one reading rules out all and two do.
    #[test]
    fn the_fewest_readings_are_found() {
        assert_eq!(fewest(&[0b0011, 0b0110, 0b1100], 0b1111), Some(2));
        assert_eq!(fewest(&[0b0011, 0b0110, 0b1111], 0b1111), Some(1));
        assert_eq!(fewest(&[0b0001, 0b0010, 0b0100, 0b1000], 0b1111), Some(4));
        assert_eq!(fewest(&[0b0111], 0b1111), None);
        assert_eq!(fewest(&[], 0), Some(0));
    }

    #[test]
    fn equal_ones_are_chosen_and_faults_take_turns() {
        let kind = lowside_session::library::shipped("healthy").expect("shipped");
        let deck = Deck::default();
        let vehicle = |seed, readings| Vehicle {
            drill: Drill::drawn(seed, &deck, &kind),
            readings,
        };
        let all: Vec<Vehicle> = (0..60)
            .map(|seed| vehicle(seed, if seed % 3 == 0 { 2 } else { 3 }))
            .collect();
        let chosen = choose(&all, 12, None).expect("there are forty");
        assert!(chosen.iter().all(|v| v.readings == 3));
        let mut faults: Vec<_> = chosen.iter().map(|v| v.drill.fault.map(|f| f.id)).collect();
        faults.sort_unstable();
        faults.dedup();
        assert!(faults.len() >= 10, "{faults:?}");
        assert_eq!(choose(&all, 20, Some(2)).map(|v| v.len()), Some(20));
        assert!(choose(&all, 21, Some(2)).is_none());
        assert!(choose(&all, 1, Some(7)).is_none());
    }
}
