//! The one obvious next thing to do, from how the bay stands, never from a click order.

use lowside_lessons::progress::Standing;
use lowside_session::Bay;
use lowside_shop::{Attached, can};
use lowside_units::Quantity;

use crate::{controls::Control, job::Job, readout};

/// What is worth doing next. The words are the page's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NextStep {
    /// The can has burst: take it off, shut what is open.
    BurstCan,
    /// The high valve is open with the engine running: shut it.
    ShutHighValve,
    /// A valve stands open to the room: shut it.
    ShutOpenHose,
    /// The low coupler is off and is needed.
    PutLowCoupler,
    /// Pump, machine, cylinder or nitrogen hangs on the hose: work with it.
    WorkTool,
    /// Screw a can onto the service hose.
    TakeCan,
    /// Open the can's tap.
    OpenTap,
    /// Purge until the air is out of the service hose.
    Purge,
    /// The air is out: tighten the hose.
    StopPurge,
    /// Start the engine.
    StartEngine,
    /// Press the A/C button.
    AcOn,
    /// Set the blower high.
    BlowerHigh,
    /// Open the low valve.
    OpenLowValve,
    /// Vapour flows: watch.
    WatchCharging,
    /// The can has become cold and slow: warm it.
    WarmCan,
    /// The bath is too hot.
    CoolBath,
    /// The can is turned over with the engine running.
    TurnUpright,
    /// The can is empty: shut the low valve.
    CanEmptyShut,
    /// The can is empty and shut off: take a fresh one.
    CanEmptySwap,
    /// The charge is in: shut the low valve.
    ChargedShut,
    /// More than the label says is in.
    Overcharged,
    /// More than the label says is in and the valve is shut.
    TooMuch,
    /// Charged and shut: let it settle.
    Settle,
    /// Vent cold: shut the tap.
    ShutTap,
    /// Vent cold, tap shut: take the low coupler off.
    TakeLowCoupler,
    /// Take the high coupler off.
    TakeHighCoupler,
    /// Done.
    Done,
    /// The vehicle is as it should be and nobody has charged it.
    AllWell,
}

/// Air in the service hose above which it needs purging, share of its pressure.
const AIR_LEFT: f64 = 0.03;
/// Charge within so much of the label counts as in, kg (1.5 oz: what a small can keeps back and a purge costs; common practice).
const NEAR: f64 = 0.0425;
/// Charge above the label that counts as too much, kg (2.5 oz; common practice, no source).
const OVER: f64 = 0.071;
/// Liquid left below which a can is empty, kg.
const EMPTY: f64 = 1e-3;
/// A can this much colder than the day gives slowly, K.
const COLD: f64 = 18.0;

impl NextStep {
    /// The control it refers to.
    pub fn control(self) -> Option<Control> {
        Some(match self {
            Self::BurstCan => Control::DropCan,
            Self::ShutHighValve => Control::HighValve,
            Self::ShutOpenHose
            | Self::OpenLowValve
            | Self::CanEmptyShut
            | Self::ChargedShut
            | Self::Overcharged => Control::LowValve,
            Self::PutLowCoupler | Self::TakeLowCoupler => Control::LowCoupler,
            Self::TakeHighCoupler => Control::HighCoupler,
            Self::TakeCan | Self::CanEmptySwap => Control::TakeCan,
            Self::OpenTap | Self::ShutTap => Control::Tap,
            Self::Purge | Self::StopPurge => Control::Purge,
            Self::StartEngine => Control::Engine,
            Self::AcOn => Control::Ac,
            Self::BlowerHigh => Control::Blower,
            Self::WarmCan | Self::CoolBath => Control::Bath,
            Self::TurnUpright => Control::Invert,
            Self::AllWell => Control::Ambient,
            Self::WorkTool | Self::WatchCharging | Self::Settle | Self::TooMuch | Self::Done => {
                return None;
            }
        })
    }
}

/// What is advised.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Advice {
    /// A step that follows from the bay alone.
    Step(NextStep),
    /// A step of the open job card, by its place.
    Card(usize),
    /// Every step of the card is done: sign off.
    SignOff,
}

impl Advice {
    /// The control it refers to; a card's step leaves the way to the learner.
    pub fn control(self) -> Option<Control> {
        match self {
            Self::Step(step) => step.control(),
            Self::Card(_) | Self::SignOff => None,
        }
    }
}

/// What is advised in a bay, with the job that is open: its card's first step that is not done, unless something is dangerous now.
pub fn advice(bay: &Bay, job: Option<&Job>) -> Advice {
    let step = next_step(bay);
    let urgent = matches!(
        step,
        NextStep::BurstCan
            | NextStep::ShutHighValve
            | NextStep::ShutOpenHose
            | NextStep::CoolBath
            | NextStep::TurnUpright
            | NextStep::Overcharged
    );
    let Some(job) = job.filter(|_| !urgent) else {
        return Advice::Step(step);
    };
    let done = |s: &Standing| matches!(s, Standing::Done { .. });
    let first = job.steps().iter().position(|s| !done(s));
    first.map_or(Advice::SignOff, Advice::Card)
}

/// The next step in a bay.
pub fn next_step(bay: &Bay) -> NextStep {
    let (plant, shop) = (bay.plant(), bay.shop());
    let (h, s) = (&shop.hands, &plant.settings);
    let label = crate::retrofit::target(bay);
    // What the technician knows: what the cans gave, on top of what the job started with and was not recovered.
    let of_maker = plant.vehicle.label_charge;
    let start = bay.scenario().start.charge.unwrap_or(of_maker).si();
    let charge = (start - shop.recovered(plant)).max(0.0) + readout::given(bay);
    let charged = charge >= label - NEAR;
    let node = |id| &plant.network.node(id).state;
    let open = h.low_valve > 0.0;
    if h.attached.can().is_some_and(|c| c.burst) {
        return NextStep::BurstCan;
    }
    let tool = h.attached != Attached::Nothing && h.attached.can().is_none();
    if h.high_valve > 0.0 && (s.engine_on || h.attached == Attached::Nothing) {
        return NextStep::ShutHighValve;
    }
    if let Some(can) = h.attached.can() {
        if can.bath.is_some_and(|t| t > can::BATH_LIMIT) {
            return NextStep::CoolBath;
        }
        if can.stance == can::Stance::Inverted && s.engine_on && can.open() && open {
            return NextStep::TurnUpright;
        }
    }
    if tool {
        return NextStep::WorkTool;
    }
    if open && h.attached.can().is_none() {
        return NextStep::ShutOpenHose;
    }
    if charge > label + OVER && open {
        return NextStep::Overcharged;
    }
    if charge > label + OVER {
        return NextStep::TooMuch;
    }
    if charged {
        return finish(bay, open);
    }
    let Some(can) = h.attached.can() else {
        return NextStep::TakeCan;
    };
    if node(shop.places.can).m_liq < EMPTY {
        return if open {
            NextStep::CanEmptyShut
        } else {
            NextStep::CanEmptySwap
        };
    }
    if !h.low_coupled {
        return NextStep::PutLowCoupler;
    }
    if !can.open() {
        return NextStep::OpenTap;
    }
    let hose = node(shop.places.service_hose);
    let airy = hose.p_air > AIR_LEFT * hose.p;
    if h.purging {
        return if airy {
            NextStep::Purge
        } else {
            NextStep::StopPurge
        };
    }
    if airy && !open {
        return NextStep::Purge;
    }
    if !s.engine_on {
        return NextStep::StartEngine;
    }
    if s.blower < plant.cabin.blower_steps() {
        return NextStep::BlowerHigh;
    }
    if !s.ac_on {
        return NextStep::AcOn;
    }
    if !open {
        return NextStep::OpenLowValve;
    }
    if can.bath.is_none() && node(shop.places.can).t < plant.day().t - COLD {
        return NextStep::WarmCan;
    }
    NextStep::WatchCharging
}

/// What is left to do when the charge is in.
fn finish(bay: &Bay, open: bool) -> NextStep {
    let (h, s) = (&bay.shop().hands, &bay.plant().settings);
    if open {
        return NextStep::ChargedShut;
    }
    if h.purging {
        return NextStep::StopPurge;
    }
    let steps = bay.plant().cabin.blower_steps();
    let cold = bay.shop().instruments.vent.reading() <= readout::VENT_GOAL;
    let connected = h.low_coupled || h.high_coupled || h.attached.can().is_some_and(|c| c.open());
    if !cold && connected {
        if !s.engine_on {
            return NextStep::StartEngine;
        }
        if s.blower < 1.max(steps) {
            return NextStep::BlowerHigh;
        }
        if !s.ac_on {
            return NextStep::AcOn;
        }
        return NextStep::Settle;
    }
    if h.attached.can().is_some_and(|c| c.open()) {
        return NextStep::ShutTap;
    }
    if h.low_coupled && bay.shop().hands.cans_taken > 0 {
        return NextStep::TakeLowCoupler;
    }
    // The high coupler comes off at rest: its hose holds hot discharge gas while the engine runs.
    if h.high_coupled && bay.shop().hands.cans_taken > 0 && !s.engine_on {
        return NextStep::TakeHighCoupler;
    }
    if h.cans_taken == 0 {
        return NextStep::AllWell;
    }
    NextStep::Done
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::{Action, TICKS_PER_SECOND};
    use lowside_units::{Ratio, Temperature};

    fn pass(bay: &mut Bay, seconds: u64) {
        for _ in 0..seconds * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
    }

    /// The act that a step asks for, as an obedient learner does it.
    fn obey(step: NextStep) -> Option<Action> {
        let (shut, full) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
        Some(match step {
            NextStep::TakeCan | NextStep::CanEmptySwap => Action::TakeCan,
            NextStep::OpenTap => Action::Tap { on: true },
            NextStep::ShutTap => Action::Tap { on: false },
            NextStep::Purge => Action::Purge { on: true },
            NextStep::StopPurge => Action::Purge { on: false },
            NextStep::StartEngine => Action::Engine { on: true },
            NextStep::AcOn => Action::AirConditioning { on: true },
            NextStep::BlowerHigh => Action::Blower { step: 4 },
            NextStep::OpenLowValve => Action::LowValve { open: full },
            NextStep::CanEmptyShut
            | NextStep::ChargedShut
            | NextStep::Overcharged
            | NextStep::ShutOpenHose => Action::LowValve { open: shut },
            NextStep::WarmCan => Action::Bath {
                temperature: Some(Temperature::from_deg_c(45.0)),
            },
            NextStep::TakeLowCoupler => Action::LowCoupler { on: false },
            NextStep::TakeHighCoupler => Action::HighCoupler { on: false },
            NextStep::PutLowCoupler => Action::LowCoupler { on: true },
            _ => return None,
        })
    }

    #[test]
    fn who_obeys_every_step_finishes_the_job() {
        let mut bay = bay("charge-from-cans");
        let mut seen = Vec::new();
        let mut last = None;
        while bay.seconds() < 3600.0 {
            let step = next_step(&bay);
            if last != Some(step) {
                seen.push(step);
                if let Some(act) = obey(step) {
                    bay.apply(act).expect("the act is possible");
                }
                last = Some(step);
            }
            if step == NextStep::Done {
                break;
            }
            pass(&mut bay, 2);
            last = last.filter(|s| *s == next_step(&bay));
        }
        assert_eq!(
            seen.last(),
            Some(&NextStep::Done),
            "{seen:?} at {} s",
            bay.seconds()
        );
        assert_eq!(seen.first(), Some(&NextStep::TakeCan));
        assert_eq!(bay.shop().hands.cans_taken, 3, "{seen:?}");
        let label = bay.plant().vehicle.label_charge.si();
        assert!(
            (bay.charge() - label).abs() < 0.09,
            "charge {} (hoses, cans and purges keep some)",
            bay.charge()
        );
        assert!(seen.len() < 60, "no flapping: {seen:?}");
    }

    #[test]
    fn an_open_card_leads_unless_there_is_danger() {
        let mut job = Job::open("1-first-charge").expect("shipped");
        let mut bay = job.bay();
        assert_eq!(advice(&bay, None), Advice::Step(NextStep::TakeCan));
        assert_eq!(advice(&bay, Some(&job)), Advice::Card(0));
        let full = Ratio::from_si(1.0);
        bay.apply(Action::LowValve { open: full }).unwrap();
        let shut = Advice::Step(NextStep::ShutOpenHose);
        assert_eq!(advice(&bay, Some(&job)), shut);
        bay.apply(Action::TakeCan).unwrap();
        bay.apply(Action::Tap { on: true }).unwrap();
        for _ in 0..60 * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
            job.look(&bay);
        }
        assert!(matches!(advice(&bay, Some(&job)), Advice::Card(n) if n > 0));
    }

    #[test]
    fn a_can_too_many_is_told() {
        let mut bay = bay("healthy");
        for act in [
            Action::TakeCan,
            Action::Tap { on: true },
            Action::LowValve {
                open: Ratio::from_si(1.0),
            },
        ] {
            bay.apply(act).unwrap();
        }
        bay.apply(Action::Bath {
            temperature: Some(Temperature::from_deg_c(50.0)),
        })
        .unwrap();
        pass(&mut bay, 400);
        assert_eq!(next_step(&bay), NextStep::Overcharged);
        bay.apply(Action::LowValve {
            open: Ratio::from_si(0.0),
        })
        .unwrap();
        assert_eq!(next_step(&bay), NextStep::TooMuch);
    }

    #[test]
    fn wrong_turns_are_answered() {
        let mut bay = bay("charge-from-cans");
        bay.apply(Action::LowValve {
            open: Ratio::from_si(1.0),
        })
        .unwrap();
        assert_eq!(next_step(&bay), NextStep::ShutOpenHose);
        bay.apply(Action::LowValve {
            open: Ratio::from_si(0.0),
        })
        .unwrap();
        bay.apply(Action::TakeCan).unwrap();
        bay.apply(Action::LowCoupler { on: false }).unwrap();
        assert_eq!(next_step(&bay), NextStep::PutLowCoupler);
        bay.apply(Action::Engine { on: true }).unwrap();
        bay.apply(Action::HighValve {
            open: Ratio::from_si(1.0),
        })
        .unwrap();
        assert_eq!(next_step(&bay), NextStep::ShutHighValve);
        bay.apply(Action::HighValve {
            open: Ratio::from_si(0.0),
        })
        .unwrap();
        bay.apply(Action::Bath {
            temperature: Some(Temperature::from_deg_c(80.0)),
        })
        .unwrap();
        assert_eq!(next_step(&bay), NextStep::CoolBath);
    }
}
