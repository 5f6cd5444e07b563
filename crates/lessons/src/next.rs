//! The one obvious next thing to do, from what a person in the bay is shown, never from a click order and never from what is hidden.

use lowside_session::{Action, Entered, Event, LearnerAct, Tick};
use lowside_shop::{Attached, protection::Worn};

use crate::{
    control::Control,
    job::Job,
    loosened::{Loosened, liquid_at_rest},
    progress::Standing,
    shown::Shown,
};

#[cfg(test)]
mod tests;

/// What is worth doing next. The words are the page's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NextStep {
    /// Something blows, stands open or somebody is hurt, and the engine runs: get away and shut it off.
    StopEngine,
    /// The can has burst: shut what is open, then take it off; the control that comes first.
    BurstCan(Control),
    /// Something blows or somebody is hurt: keep away, help.
    KeepAway,
    /// The high valve is open with the engine running: shut it.
    ShutHighValve,
    /// A valve stands open to the room: shut it.
    ShutOpenHose,
    /// Air runs into the evacuated loop through what stands open: close it, evacuate again.
    AirDrawnIn,
    /// The gauges have risen from a vacuum with nothing let in: find the opening, close it, evacuate again.
    VacuumLost,
    /// A joint or port stands open: cap it.
    CapEnds,
    /// Something is off that was not put back: a plug, the belt, bolts, the battery's lead.
    PutBack(Loosened),
    /// Liquid was let in at rest: turn the hub by hand before the engine does.
    TurnHub,
    /// The low coupler is off and is needed.
    PutLowCoupler,
    /// Pump, machine, cylinder or nitrogen hangs on the hose: work with it.
    WorkTool,
    /// What is in the loop is not known by weight: recover it and weigh it in.
    UnknownCharge,
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
    /// The can is empty and the low valve shut: shut its tap.
    CanEmptyTap,
    /// The can is empty and shut off: take a fresh one.
    CanEmptySwap,
    /// The charge is in: shut the low valve.
    ChargedShut,
    /// More than the label says was given.
    Overcharged,
    /// More than the label says was given and the valve is shut.
    TooMuch,
    /// Charged and shut: let it settle.
    Settle,
    /// Vent cold: shut the tap.
    ShutTap,
    /// Vent cold, tap shut: take the low coupler off.
    TakeLowCoupler,
    /// Shut the engine off, so that the high coupler can come off.
    EngineOff,
    /// Take the high coupler off.
    TakeHighCoupler,
    /// Done.
    Done,
    /// Nothing is asked and nothing was done yet: make the day hotter, for a try.
    TryHotter,
    /// Nothing is asked: whatever one likes, or a job card.
    Free,
}

/// Charge within so much of the label counts as in, kg (1.5 oz: what a small can keeps back and a purge costs; common practice).
const NEAR: f64 = 0.0425;
/// Charge above the label that counts as too much, kg (2.5 oz; common practice, no source).
const OVER: f64 = 0.071;
/// High side up to which a hotter day is a harmless thing to try, Pa gauge (250 psi; own figure).
const CALM: f64 = 1.72e6;

impl NextStep {
    /// The control it refers to.
    pub fn control(self) -> Option<Control> {
        Some(match self {
            Self::BurstCan(first) => first,
            Self::ShutHighValve => Control::HighValve,
            Self::ShutOpenHose
            | Self::OpenLowValve
            | Self::CanEmptyShut
            | Self::ChargedShut
            | Self::Overcharged => Control::LowValve,
            Self::PutLowCoupler | Self::TakeLowCoupler => Control::LowCoupler,
            Self::TakeHighCoupler => Control::HighCoupler,
            Self::TakeCan | Self::CanEmptySwap => Control::TakeCan,
            Self::OpenTap | Self::ShutTap | Self::CanEmptyTap => Control::Tap,
            Self::Purge | Self::StopPurge => Control::Purge,
            Self::StopEngine | Self::StartEngine | Self::EngineOff => Control::Engine,
            Self::AcOn => Control::Ac,
            Self::BlowerHigh => Control::Blower,
            Self::WarmCan | Self::CoolBath => Control::Bath,
            Self::TurnUpright => Control::Invert,
            Self::TryHotter => Control::Ambient,
            Self::KeepAway
            | Self::PutBack(_)
            | Self::TurnHub
            | Self::AirDrawnIn
            | Self::VacuumLost
            | Self::CapEnds
            | Self::WorkTool
            | Self::UnknownCharge
            | Self::WatchCharging
            | Self::Settle
            | Self::TooMuch
            | Self::Done
            | Self::Free => return None,
        })
    }

    /// Somebody is in danger now.
    pub fn emergency(self) -> bool {
        matches!(self, Self::StopEngine | Self::BurstCan(_) | Self::KeepAway)
    }

    /// It goes before the steps of an open job card.
    fn urgent(self) -> bool {
        self.emergency()
            || matches!(
                self,
                Self::ShutHighValve
                    | Self::ShutOpenHose
                    | Self::PutBack(_)
                    | Self::AirDrawnIn
                    | Self::CoolBath
                    | Self::TurnUpright
                    | Self::Overcharged
            )
    }
}

/// What is advised.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Advice {
    /// A step that follows from what is shown.
    Step(NextStep),
    /// A step of the open job card, by its place.
    Card(usize),
    /// Every step of the card is done: sign off.
    SignOff,
    /// Every step is done, and a harm on the way keeps the card from being passed.
    Spoilt,
}

impl Advice {
    /// The control it refers to; a card's step leaves the way to the learner.
    pub fn control(self) -> Option<Control> {
        match self {
            Self::Step(step) => step.control(),
            Self::Card(_) | Self::SignOff | Self::Spoilt => None,
        }
    }

    /// Somebody is in danger now.
    pub fn emergency(self) -> bool {
        matches!(self, Self::Step(step) if step.emergency())
    }
}

/// What is advised by what is shown, with the job that is open: its card's first step that is not done, unless something is dangerous now.
pub fn advice(shown: &Shown<'_>, job: Option<&Job>) -> Advice {
    let step = next_step(shown);
    let Some(job) = job.filter(|_| !step.urgent()) else {
        return Advice::Step(step);
    };
    let done = |s: &Standing| matches!(s, Standing::Done { .. });
    let first = job.steps().iter().position(|s| !done(s));
    match first {
        Some(step) => Advice::Card(step),
        None if job.passed() => Advice::SignOff,
        None => Advice::Spoilt,
    }
}

/// The same in a closed bay: the card's first step that is seen not to be done. Whether a step is done that nobody can see holds nothing up,
/// and whether the card is passed is not told.
pub fn closed_advice(shown: &Shown<'_>, job: Option<&Job>) -> Advice {
    let step = next_step(shown);
    let Some(job) = job.filter(|_| !step.urgent()) else {
        return Advice::Step(step);
    };
    let open = |s: &Option<Standing>| !matches!(s, None | Some(Standing::Done { .. }));
    let first = job.seen_steps().iter().position(open);
    first.map_or(Advice::SignOff, Advice::Card)
}

/// Harm to people, told large until somebody has read it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Harm {
    /// Refrigerant hit whoever opened something, who wore this.
    Injury(Worn),
    /// A can burst.
    Burst,
}

/// The last harm to people in a bay and when it happened.
pub fn harm(shown: &Shown<'_>) -> Option<(Tick, Harm)> {
    let last = |event| shown.noticed.last(event);
    let injury = last(Event::Injury).map(|tick| (tick, Harm::Injury(worn_at(shown, tick))));
    let burst = last(Event::CanBurst).map(|tick| (tick, Harm::Burst));
    injury
        .into_iter()
        .chain(burst)
        .max_by_key(|(tick, _)| *tick)
}

/// What was worn at the last work on the loop up to a tick: what is put on afterwards comes too late.
fn worn_at(shown: &Shown<'_>, tick: Tick) -> Worn {
    let work = |(at, act): &Entered| *at <= tick && matches!(act, Action::Bench(_));
    let until = shown.log.iter().rposition(work).unwrap_or(0);
    let mut worn = Worn::default();
    for (_, act) in &shown.log[..until] {
        if let Action::Learner(LearnerAct::Wear { what, on }) = act {
            worn.put(*what, *on);
        }
    }
    worn
}

/// The next step by what is shown.
pub fn next_step(s: &Shown<'_>) -> NextStep {
    let step = without_fixings(s);
    if step != NextStep::StartEngine {
        step
    } else if s.settings.loose.battery {
        NextStep::PutBack(Loosened::Battery)
    } else if liquid_at_rest(s) {
        NextStep::TurnHub
    } else {
        step
    }
}

/// The next step, as if nothing had to be seen to before the engine starts.
fn without_fixings(s: &Shown<'_>) -> NextStep {
    let left_off = || Loosened::first(s).filter(|_| s.settings.engine_on);
    danger(s)
        .or_else(|| left_off().map(NextStep::PutBack))
        .or_else(|| s.left_open.then_some(NextStep::CapEnds))
        .or_else(|| s.tool().then_some(NextStep::WorkTool))
        .or_else(|| s.vacuum_lost.then_some(NextStep::VacuumLost))
        .unwrap_or_else(|| match s.charge {
            Some(charge) => by_weight(s, charge),
            None if s.can().is_some() => NextStep::UnknownCharge,
            None => free(s),
        })
}

/// What harms somebody or something now.
fn danger(s: &Shown<'_>) -> Option<NextStep> {
    let h = &s.hands;
    let blows = s.blows || s.hurt;
    if s.draws && !blows {
        return Some(NextStep::AirDrawnIn);
    }
    if s.settings.engine_on && (blows || s.left_open || s.burst()) {
        return Some(NextStep::StopEngine);
    }
    if s.burst() {
        let first = if h.high_valve > 0.0 {
            Control::HighValve
        } else if s.low_open() {
            Control::LowValve
        } else {
            Control::RemoveCan
        };
        return Some(NextStep::BurstCan(first));
    }
    if blows {
        return Some(NextStep::KeepAway);
    }
    if h.high_valve > 0.0 && (s.settings.engine_on || h.attached == Attached::Nothing) {
        return Some(NextStep::ShutHighValve);
    }
    if s.low_open() && h.attached == Attached::Nothing {
        return Some(NextStep::ShutOpenHose);
    }
    let can = s.can()?;
    if s.bath_too_hot() {
        return Some(NextStep::CoolBath);
    }
    (s.inverted() && s.settings.engine_on && can.open() && s.low_open())
        .then_some(NextStep::TurnUpright)
}

/// What is worth doing where nothing is asked.
fn free(s: &Shown<'_>) -> NextStep {
    let calm = s.settings.engine_on && s.settings.ac_on && s.high.is_some_and(|p| p < CALM);
    if calm && s.untouched {
        NextStep::TryHotter
    } else {
        NextStep::Free
    }
}

/// What brings the charge, known by weight, to the label's.
fn by_weight(s: &Shown<'_>, charge: f64) -> NextStep {
    let open = s.low_open();
    if charge > s.target + OVER {
        return if open {
            NextStep::Overcharged
        } else {
            NextStep::TooMuch
        };
    }
    if charge >= s.target - NEAR {
        return finish(s);
    }
    let Some(can) = s.can() else {
        return NextStep::TakeCan;
    };
    if s.can_empty {
        return if open {
            NextStep::CanEmptyShut
        } else if can.open() && !can.self_sealing {
            NextStep::CanEmptyTap
        } else {
            NextStep::CanEmptySwap
        };
    }
    let Some(low) = s.low else {
        return NextStep::PutLowCoupler;
    };
    if !can.open() {
        return NextStep::OpenTap;
    }
    if s.hands.purging {
        return if s.purged {
            NextStep::StopPurge
        } else {
            NextStep::Purge
        };
    }
    if !s.purged && !open {
        return NextStep::Purge;
    }
    // A loop in a vacuum draws the first gas in by itself, and the clutch needs its pressure.
    if low < 0.0 && !s.settings.engine_on {
        return if open {
            NextStep::WatchCharging
        } else {
            NextStep::OpenLowValve
        };
    }
    if !s.settings.engine_on {
        return NextStep::StartEngine;
    }
    if !s.blower_high {
        return NextStep::BlowerHigh;
    }
    if !s.settings.ac_on {
        return NextStep::AcOn;
    }
    if !open {
        return NextStep::OpenLowValve;
    }
    if can.bath.is_none() && s.can_cold {
        return NextStep::WarmCan;
    }
    NextStep::WatchCharging
}

/// What is left to do when the charge is in.
fn finish(s: &Shown<'_>) -> NextStep {
    let h = &s.hands;
    if s.low_open() {
        return NextStep::ChargedShut;
    }
    if h.purging {
        return NextStep::StopPurge;
    }
    let tap = s.can().is_some_and(|c| c.open());
    if !s.vent_cold && (h.low_coupled || tap) {
        if !s.settings.engine_on {
            return NextStep::StartEngine;
        }
        if !s.blower_high {
            return NextStep::BlowerHigh;
        }
        if !s.settings.ac_on {
            return NextStep::AcOn;
        }
        return NextStep::Settle;
    }
    if tap {
        return NextStep::ShutTap;
    }
    if h.low_coupled {
        return NextStep::TakeLowCoupler;
    }
    // The high coupler comes off at rest: its hose holds hot discharge gas while the engine runs.
    if h.high_coupled {
        return if s.settings.engine_on {
            NextStep::EngineOff
        } else {
            NextStep::TakeHighCoupler
        };
    }
    NextStep::Done
}
