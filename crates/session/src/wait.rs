//! Waiting for something to happen: "until the can is empty", "until the vent is steady".
use lowside_units::{Duration, Quantity};

use crate::{
    bay::{Bay, TICKS_PER_SECOND, Tick},
    event::Event,
    event_detector::EMPTY,
    predicate::{Predicate, Reading, Test},
};

/// How little the vent must have moved to count as steady, K.
const STEADY: f64 = 0.3;
/// For how long it must have kept to that, ticks.
const STEADY_FOR: Tick = 60 * TICKS_PER_SECOND;
/// Longest wait, ticks (an hour): what has not come by then is not coming.
pub const LONGEST: Tick = 3600 * TICKS_PER_SECOND;

/// What is waited for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Goal {
    /// So much time has passed.
    Passed(Duration),
    /// An event happened.
    Event(Event),
    /// The clutch has pulled in so many times.
    Cycles(u32),
    /// The vent thermometer has stayed within 0.3 K for a minute.
    VentSteady,
    /// A condition holds that did not hold at the start, or holds again.
    Predicate(Predicate),
}

impl Goal {
    /// Can it come about as the bay stands: is there a can to run empty, does anything drive the clutch and the cold?
    pub fn can_come(self, bay: &Bay) -> bool {
        let s = &bay.plant().settings;
        let cools = s.engine_on && s.ac_on;
        match self {
            Self::Event(Event::CanEmpty) => {
                let can = bay.shop().hands.attached.can();
                let liquid = bay
                    .plant()
                    .network
                    .node(bay.shop().manifold.can)
                    .state
                    .m_liq;
                can.is_some_and(|c| !c.burst) && liquid > EMPTY
            }
            Self::Event(Event::ClutchIn)
            | Self::Cycles(_)
            | Self::Predicate(Predicate {
                reading: Reading::Vent,
                test: Test::Below(_),
            }) => cools,
            _ => true,
        }
    }
}

/// How a wait stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// It goes on.
    Waiting,
    /// What was waited for is there.
    Met,
    /// An hour has passed without it.
    GivenUp,
}

/// A wait under way. What it looks at is the bay's alone, so it ends at the same tick at every speed.
#[derive(Debug, Clone)]
pub struct Wait {
    goal: Goal,
    since: Tick,
    heard: Tick,
    cycles: u32,
    /// The vent at the time since which it has not moved.
    level: (f64, Tick),
    /// The condition has been seen not to hold.
    armed: bool,
}

impl Wait {
    /// Begins to wait.
    pub fn new(goal: Goal, bay: &Bay) -> Self {
        Self {
            goal,
            since: bay.tick(),
            heard: bay.tick(),
            cycles: 0,
            level: (vent(bay), bay.tick()),
            armed: false,
        }
    }

    /// What is waited for.
    pub fn goal(&self) -> Goal {
        self.goal
    }

    /// Looks at the bay after a step.
    pub fn look(&mut self, bay: &Bay) -> Outcome {
        let now = bay.tick();
        let news = |wanted: Event| {
            let new = |(t, _): &&(Tick, Event)| *t > self.heard;
            bay.events()
                .iter()
                .rev()
                .take_while(new)
                .filter(|(_, e)| *e == wanted)
                .count()
        };
        let met = match self.goal {
            Goal::Passed(t) => (now - self.since) as f64 >= t.si() * TICKS_PER_SECOND as f64,
            Goal::Event(e) => news(e) > 0,
            Goal::Cycles(n) => {
                self.cycles += u32::try_from(news(Event::ClutchIn)).unwrap_or(0);
                self.cycles >= n
            }
            Goal::VentSteady => {
                if (vent(bay) - self.level.0).abs() > STEADY {
                    self.level = (vent(bay), now);
                }
                now - self.level.1 >= STEADY_FOR
            }
            Goal::Predicate(c) => {
                let holds = c.holds(bay);
                self.armed |= !holds;
                holds && self.armed
            }
        };
        self.heard = now;
        if met {
            Outcome::Met
        } else if now - self.since >= LONGEST {
            Outcome::GivenUp
        } else {
            Outcome::Waiting
        }
    }
}

fn vent(bay: &Bay) -> f64 {
    bay.shop().instruments.vent.pointer()
}
