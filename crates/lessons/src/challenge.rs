//! Guess, then see: ten questions of what a reading will do, each answered by a bay that does it.
//!
//! A challenge is put to a bay as it stands, or, where that does not fit it, to one that does. The bay itself, or one with a stated change
//! beside it, goes on in copies: nothing happens to the one asked about. What came is what the copies read.

use lowside_plant::species::REFRIGERANT;
use lowside_session::{
    Action, Bay, Event, HoseAct, InstrumentAct, MachineAct, Scenario, TICKS_PER_SECOND, VehicleAct,
    VesselAct, library,
    twin::{Change, Twin},
};
use lowside_shop::{Attached, fault::Table, vacuum::GaugePlace};
use lowside_units::{Quantity, Ratio, RotationSpeed, Temperature, VolumeFlow};

/// What is guessed, and what came.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Guess {
    /// It rises.
    Climbs,
    /// It stands as it stood, as near as tells nothing.
    Stays,
    /// It sinks.
    Falls,
}

/// What is watched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Watched {
    /// The compound gauge, Pa gauge.
    Low,
    /// The high-pressure gauge, Pa gauge.
    High,
    /// How often the clutch pulls in, times a minute.
    Pulls,
    /// The scale under the can, kg.
    Scale,
}

/// What is changed.
enum Done {
    /// Acts, at so many seconds from now.
    Acts(fn(&Bay) -> Vec<(u64, Action)>),
    /// The same visit with another value from its start on.
    Otherwise(Table, &'static str, fn(&Bay) -> f64),
}

/// In what state a bay has to be.
#[derive(Clone, Copy, PartialEq)]
enum Fits {
    /// Running, the clutch in, nothing on the service hose, both gauges on.
    Running,
    /// Long at rest with liquid in it, likewise.
    AtRest,
    /// None but the challenge's own.
    Own,
}

/// A challenge.
#[expect(missing_debug_implementations, reason = "it holds functions")]
pub struct Challenge {
    /// Its id; the words go by it.
    pub id: &'static str,
    /// What is watched.
    pub watched: Watched,
    /// What a sound bay does; the reason is worded for it.
    pub truth: Guess,
    fits: Fits,
    done: Done,
    /// How long it is watched, s.
    lasts: u64,
}

/// What came.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// What the reading did.
    pub came: Guess,
    /// The reading before, or in the bay that was left as it is.
    pub before: f64,
    /// The reading after, or in the bay that was changed.
    pub after: f64,
    /// It was put to the bay as it stood, not to one of the challenge's own.
    pub here: bool,
    /// Two bays were compared, not one with itself.
    pub beside: bool,
}

/// All challenges, the plain ones first.
pub const ALL: [Challenge; 10] = [
    Challenge {
        id: "hotter-day",
        watched: Watched::High,
        truth: Guess::Climbs,
        fits: Fits::Running,
        done: Done::Acts(|bay| {
            let temperature = Temperature::from_k((bay.plant().day().t + 10.0).min(WARMEST));
            vec![(0, VehicleAct::Ambient { temperature }.into())]
        }),
        lasts: 180,
    },
    Challenge {
        id: "less-blower",
        watched: Watched::Pulls,
        truth: Guess::Climbs,
        fits: Fits::Running,
        done: Done::Acts(|_| vec![(0, VehicleAct::Blower { step: 1 }.into())]),
        lasts: 180,
    },
    Challenge {
        id: "faster-engine",
        watched: Watched::Low,
        truth: Guess::Falls,
        fits: Fits::Running,
        done: Done::Acts(|bay| {
            let speed =
                RotationSpeed::from_rpm((bay.plant().settings.engine_rpm * 1.6).min(4500.0));
            vec![(0, VehicleAct::EngineSpeed { speed }.into())]
        }),
        lasts: 120,
    },
    Challenge {
        id: "standing-charge",
        watched: Watched::High,
        truth: Guess::Stays,
        fits: Fits::AtRest,
        done: Done::Otherwise(Table::Start, "charge", |bay| 0.5 * started_with(bay)),
        lasts: 60,
    },
    Challenge {
        id: "more-gas",
        watched: Watched::Low,
        truth: Guess::Stays,
        fits: Fits::Running,
        done: Done::Otherwise(Table::Start, "charge", |bay| 1.1 * started_with(bay)),
        lasts: 60,
    },
    Challenge {
        id: "fan-stops",
        watched: Watched::High,
        truth: Guess::Climbs,
        fits: Fits::Running,
        done: Done::Otherwise(Table::Condition, "condenser_air", |_| 0.5),
        lasts: 60,
    },
    Challenge {
        id: "air-inside",
        watched: Watched::High,
        truth: Guess::Climbs,
        fits: Fits::Running,
        done: Done::Otherwise(Table::Start, "air", |_| 0.015),
        lasts: 60,
    },
    Challenge {
        id: "narrow-orifice",
        watched: Watched::High,
        truth: Guess::Climbs,
        fits: Fits::Running,
        done: Done::Otherwise(Table::Condition, "orifice_open", |_| 0.4),
        lasts: 120,
    },
    Challenge {
        id: "red-valve",
        watched: Watched::Scale,
        truth: Guess::Climbs,
        fits: Fits::Running,
        done: Done::Acts(|_| {
            let open = Ratio::from_fraction(1.0);
            vec![
                (0, VesselAct::TakeCan.into()),
                (1, VesselAct::Tap { on: true }.into()),
                (SETTLED, HoseAct::HighValve { open }.into()),
            ]
        }),
        lasts: 12,
    },
    Challenge {
        id: "wet-vacuum",
        watched: Watched::Low,
        truth: Guess::Stays,
        fits: Fits::Own,
        done: Done::Acts(|_| {
            let (open, at) = (Ratio::from_fraction(1.0), GaugePlace::Loop);
            let speed = VolumeFlow::from_cfm(4.0);
            vec![
                (0, MachineAct::TakePump { speed }.into()),
                (0, MachineAct::Pump { on: true }.into()),
                (0, MachineAct::Isolation { on: true }.into()),
                (0, HoseAct::LowValve { open }.into()),
                (0, HoseAct::HighValve { open }.into()),
                (PUMPED, InstrumentAct::VacuumGauge { at }.into()),
            ]
        }),
        lasts: 180,
    },
];

/// Warmest day that a challenge makes, K.
const WARMEST: f64 = 321.15;
/// How long a bay of a challenge's own runs before it is asked about, s.
const OWN_RUNS: u64 = 240;
/// How long a vacuum is pumped before it is looked at, s.
const PUMPED: u64 = 300;
/// How long a tap that was opened lets the scale settle, s.
const SETTLED: u64 = 8;
/// Longest visit that is gone through anew for a bay beside it, s.
const LONGEST: f64 = 1800.0;
/// Time over which a reading is taken, s: long enough for a cycling clutch.
const MEAN: u64 = 30;
/// Change of absolute pressure that tells nothing, share: the needle's width on the dial, and what one day's van has over the next
/// (own figure).
const SAME_PRESSURE: f64 = 0.05;
/// Least change of a gauge that is seen, Pa: its resolution.
const SEEN_PRESSURE: f64 = 2e3;
/// Least change of the scale that is seen, kg.
const SEEN_MASS: f64 = 5e-3;

/// Refrigerant that a bay's visit began with, kg.
fn started_with(bay: &Bay) -> f64 {
    let scenario = bay.scenario();
    scenario
        .start
        .charge()
        .unwrap_or(scenario.vehicle.label_charge.si())
}

impl Fits {
    fn to(self, bay: &Bay) -> bool {
        let (plant, hands) = (bay.plant(), &bay.shop().hands);
        let bare = hands.attached == Attached::Nothing
            && hands.low_coupled
            && hands.high_coupled
            && hands.low_valve.max(hands.high_valve) <= 0.0
            && bay.seconds() < LONGEST
            && bay.halt().is_none();
        let liquid = plant
            .circuit
            .nodes()
            .iter()
            .any(|id| plant.network.node(*id).state.m_liq > 0.05);
        bare && match self {
            Self::Running => {
                plant.settings.engine_on && plant.drive.engaged && bay.seconds() > 120.0
            }
            Self::AtRest => !plant.settings.engine_on && liquid && levelled(bay),
            Self::Own => false,
        }
    }

    /// A bay of the challenge's own.
    fn own(self) -> Option<Bay> {
        let mut scenario: Scenario =
            library::shipped(if self == Self::Own { EMPTY } else { "healthy" })?;
        match self {
            Self::Running => {}
            Self::AtRest => {
                scenario.engine.on = false;
                scenario.controls.ac = false;
            }
            Self::Own => {
                scenario.set(Table::Start, "water", 5e-3);
                scenario.set(Table::Condition, "desiccant_load", 1.0);
                scenario.day.ambient = Temperature::from_deg_c(25.0);
            }
        }
        let mut bay = Bay::new(&scenario);
        if self == Self::Running {
            pass(&mut bay, OWN_RUNS);
        }
        Some(bay)
    }
}

/// The scenario of an empty loop.
const EMPTY: &str = "charge-from-cans";

/// Lets time pass, as far as the engine goes.
fn pass(bay: &mut Bay, seconds: u64) {
    for _ in 0..seconds * TICKS_PER_SECOND {
        if bay.step().is_err() {
            return;
        }
    }
}

impl Watched {
    fn of(self, bay: &Bay) -> f64 {
        let (plant, shop) = (bay.plant(), bay.shop());
        match self {
            Self::Low => shop.instruments.low.pointer(),
            Self::High => shop.instruments.high.pointer(),
            Self::Pulls => {
                let since = bay.tick().saturating_sub(60 * TICKS_PER_SECOND);
                let lately = bay
                    .events()
                    .iter()
                    .rev()
                    .take_while(|(tick, _)| *tick > since);
                lately
                    .filter(|(_, event)| *event == Event::ClutchIn)
                    .count() as f64
            }
            Self::Scale => plant.network.node(shop.manifold.can).content.whole()[REFRIGERANT],
        }
    }

    /// The mean of what it reads over the next half minute, as a technician reads it: with the clutch in, where it is in at all; of a mass
    /// what it is now.
    fn mean(self, bay: &mut Bay) -> f64 {
        if matches!(self, Self::Pulls | Self::Scale) {
            return self.of(bay);
        }
        let (mut all, mut pulled, mut times) = (0.0, 0.0, 0_u32);
        for _ in 0..MEAN {
            pass(bay, 1);
            all += self.of(bay);
            if bay.plant().drive.engaged {
                pulled += self.of(bay);
                times += 1;
            }
        }
        if times > 0 {
            pulled / f64::from(times)
        } else {
            all / MEAN as f64
        }
    }

    /// What a reading did that stood at `before` and stands at `after`; `room` is the atmosphere, Pa.
    fn came(self, before: f64, after: f64, room: f64) -> Guess {
        let same = match self {
            Self::Low | Self::High => (SAME_PRESSURE * (before + room)).max(SEEN_PRESSURE),
            Self::Pulls => 0.5,
            Self::Scale => SEEN_MASS,
        };
        match after - before {
            x if x > same => Guess::Climbs,
            x if x < -same => Guess::Falls,
            _ => Guess::Stays,
        }
    }
}

impl Challenge {
    /// Does a bay fit it as it stands?
    pub fn fits(&self, bay: &Bay) -> bool {
        self.fits.to(bay)
    }

    /// The acts that it consists of, now, in this bay; none where it compares two bays.
    pub fn acts(&self, bay: &Bay) -> Vec<Action> {
        match &self.done {
            Done::Acts(acts) => acts(bay).into_iter().map(|(_, act)| act).collect(),
            Done::Otherwise(..) => Vec::new(),
        }
    }

    /// Sees what comes, in copies of `bay` if it fits; none if the engine cannot say.
    pub fn see(&self, bay: &Bay) -> Option<Outcome> {
        let here = self.fits(bay);
        let mut first = if here { bay.clone() } else { self.fits.own()? };
        let room = first.plant().day().p;
        let (before, after) = match &self.done {
            Done::Acts(acts) => {
                let acts = acts(&first);
                let last = acts.last().map_or(0, |(at, _)| *at);
                let mut now = 0;
                let mut before = if last == 0 {
                    self.watched.mean(&mut first)
                } else {
                    0.0
                };
                for (at, act) in acts {
                    pass(&mut first, at - now);
                    now = at;
                    if last > 0 && at == last {
                        before = self.watched.mean(&mut first);
                    }
                    first.apply(act).ok()?;
                }
                pass(&mut first, self.lasts);
                (before, self.watched.mean(&mut first))
            }
            Done::Otherwise(table, key, value) => {
                let mut scenario = first.scenario().clone();
                scenario.act.clear();
                if !scenario.set(*table, key, value(&first)) {
                    return None;
                }
                let twin = Twin::new(&first, &[Change::Start(Box::new(scenario))]);
                let mut twin = twin.ok()?;
                twin.follow(&first);
                let mut beside = twin.bay().clone();
                for bay in [&mut first, &mut beside] {
                    pass(bay, self.lasts);
                }
                (
                    self.watched.mean(&mut first),
                    self.watched.mean(&mut beside),
                )
            }
        };
        first.halt().is_none().then(|| Outcome {
            came: self.watched.came(before, after, room),
            before,
            after,
            here,
            beside: matches!(self.done, Done::Otherwise(..)),
        })
    }
}

/// Both sides stand at one pressure.
fn levelled(bay: &Bay) -> bool {
    let (net, c) = (&bay.plant().network, &bay.plant().circuit);
    let [high, low] = [c.high_side(), c.low_side()].map(|id| net.node(id).state.p);
    (high - low).abs() < 0.02 * high
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Truths of the trade that much teaching gets wrong (common practice, no source): each comes by the engine in the challenge's own bay,
    /// plainly, not at the edge of what counts as the same.
    #[test]
    fn every_truth_comes_by_the_engine() {
        let empty = Bay::new(&library::shipped(EMPTY).expect("shipped"));
        let see = |challenge: &Challenge| challenge.see(&empty).expect("the engine goes on");
        let all = ALL.each_ref().map(|challenge| (challenge, see(challenge)));
        for (challenge, outcome) in all {
            assert!(!outcome.here, "{}: an empty bay fits none", challenge.id);
            assert_eq!(
                outcome.came, challenge.truth,
                "{}: {outcome:?}",
                challenge.id
            );
        }
    }

    #[test]
    fn a_running_bay_is_asked_as_it_stands_and_nothing_happens_to_it() {
        let mut bay = Bay::new(&library::shipped("healthy-compact").expect("shipped"));
        pass(&mut bay, OWN_RUNS);
        let before = bay.state_hash().expect("sound");
        for challenge in ALL.iter().filter(|c| c.fits == Fits::Running) {
            let outcome = challenge.see(&bay).expect("the engine goes on");
            assert!(outcome.here, "{}", challenge.id);
        }
        assert_eq!(bay.state_hash().expect("sound"), before);
    }

    #[test]
    fn a_hotter_day_in_a_cooler_bay_is_its_own() {
        let mut cool = library::shipped("healthy").expect("shipped");
        cool.day.ambient = Temperature::from_deg_c(25.0);
        let mut bay = Bay::new(&cool);
        pass(&mut bay, OWN_RUNS);
        let there = ALL[0].see(&bay).expect("it goes on");
        let own = ALL[0]
            .fits
            .own()
            .and_then(|bay| ALL[0].see(&bay))
            .expect("it goes on");
        assert!(there.here && there.after < own.before, "{there:?} {own:?}");
    }
}
