//! Which acts need a second, deliberate press: those that can hurt, by what is shown.
//!
//! A loop counts as empty only if that was seen: both gauges connected and down, or stayed down before they came off, or something open
//! that does not blow. Acts that the bay would refuse are not told apart here; whoever asks leaves them out.

use lowside_session::{Action, BenchAct, HoseAct, VehicleAct, VesselAct};
use lowside_shop::{Attached, can::Can, parts::Part, weighed::NO_PRESSURE};
use lowside_units::{Quantity, Ratio};

use crate::{
    caution::{BATH_LIMIT, Caution},
    shown::Shown,
};

/// Returns the caution of an act that is to be asked about: it gives a can heat or pressure that it had not, lets gas out or air in by the
/// service hose, or opens the loop to the room.
pub fn caution(now: &Shown<'_>, action: Action) -> Option<Caution> {
    if action.changes_hose() {
        return frees(now, action);
    }
    match action {
        Action::Vehicle(act) => {
            let starts = act == VehicleAct::Engine { on: true };
            feeds(now, starts, now.hands.high_valve, now.can())
        }
        Action::Hose(act) => match act {
            HoseAct::HighValve { open } => feeds(now, now.settings.engine_on, open.si(), now.can())
                .or_else(|| lets_out(now, now.hands.high_valve, open.si(), now.dials[1])),
            HoseAct::LowValve { open } => {
                lets_out(now, now.hands.low_valve, open.si(), now.dials[0])
            }
            HoseAct::GaugeSet { .. }
            | HoseAct::LowCoupler { .. }
            | HoseAct::LowPort { .. }
            | HoseAct::HighCoupler { .. }
            | HoseAct::Purge { .. }
            | HoseAct::Disconnect => None,
        },
        Action::Vessel(act) => vessel(now, act),
        Action::Bench(act) => {
            (opens(now, act) && !shown_empty(now)).then_some(Caution::OpensUnderPressure)
        }
        // They neither heat a can nor open anything to the room.
        Action::Fixing(_)
        | Action::Machine(_)
        | Action::Instrument(_)
        | Action::Record(_)
        | Action::Learner(_)
        | Action::Instructor(_) => None,
    }
}

fn vessel(now: &Shown<'_>, act: VesselAct) -> Option<Caution> {
    let opens = |turn: fn(&mut Can, Ratio), by| {
        let mut can = now.can()?;
        turn(&mut can, by);
        feeds(now, now.settings.engine_on, now.hands.high_valve, Some(can))
    };
    match act {
        VesselAct::Bath {
            temperature: Some(t),
        } => {
            let heats = now.can().is_some() && !now.bath_too_hot() && t.k() > BATH_LIMIT;
            heats.then_some(Caution::BathTooHot)
        }
        VesselAct::Tap { on: true } => opens(|can, _| can.tap(true), Ratio::default()),
        VesselAct::TapScrew { back } => opens(|can, back| can.screw(back.si()), back),
        VesselAct::TakeCan
        | VesselAct::TakeCanOf { .. }
        | VesselAct::TakeSelfSealingCan
        | VesselAct::RemoveCan
        | VesselAct::Tap { on: false }
        | VesselAct::Bath { temperature: None }
        | VesselAct::Invert { .. }
        | VesselAct::Rock { .. }
        | VesselAct::TakeCylinder { .. }
        | VesselAct::Dose { .. }
        | VesselAct::TakeNitrogen
        | VesselAct::Regulator { .. } => None,
    }
}

/// Returns the caution of an act that leaves engine, high hand valve and can so that the high side has its way into the can or, with nothing on
/// the service hose, into the room, if it had not.
fn feeds(now: &Shown<'_>, engine_on: bool, high_valve: f64, can: Option<Can>) -> Option<Caution> {
    let free = now.hands.attached == Attached::Nothing;
    let open = free || can.is_some_and(|c| c.open() && !c.burst);
    let did = now.feeds_can() || free && now.settings.engine_on && now.hands.high_valve > 0.0;
    (!did && engine_on && high_valve > 0.0 && open).then_some(Caution::HighValveRunning)
}

/// Returns what gets out, or in, as a hand valve behind which a gauge shows something opens a service hose on which nothing hangs.
fn lets_out(now: &Shown<'_>, was: f64, open: f64, dial: f64) -> Option<Caution> {
    if now.hands.attached != Attached::Nothing || was > 0.0 || open <= 0.0 {
        return None;
    }
    if dial > NO_PRESSURE {
        return Some(Caution::Venting);
    }
    (dial < -NO_PRESSURE).then_some(Caution::OpenHose)
}

/// Returns whether an act leaves the service hose open to the room.
fn leaves_open(action: Action) -> bool {
    matches!(
        action,
        Action::Vessel(VesselAct::RemoveCan) | Action::Hose(HoseAct::Disconnect)
    )
}

/// Returns what gets out, or in, as the service hose comes off.
fn frees(now: &Shown<'_>, action: Action) -> Option<Caution> {
    if now.hands.attached == Attached::Nothing {
        return None;
    }
    let pressure = now.behind_valves.is_some_and(|p| p > NO_PRESSURE);
    if pressure || open_can(now).is_some() {
        return Some(Caution::Venting);
    }
    // A vacuum behind an open hand valve draws the room's air in.
    let vacuum = now.behind_valves.is_some_and(|p| p < -NO_PRESSURE);
    (leaves_open(action) && vacuum).then_some(Caution::OpenHose)
}

/// Returns a pierced can without a valve of its own that its tap does not shut: it empties itself into the room as it comes off.
pub fn open_can(now: &Shown<'_>) -> Option<Can> {
    now.can()
        .filter(|c| c.open() && !c.self_sealing && !c.burst)
}

/// Returns whether an act opens the loop to the room.
pub(crate) fn opens(now: &Shown<'_>, act: BenchAct) -> bool {
    match act {
        BenchAct::OpenJoint { .. }
        | BenchAct::ValveCore { fitted: false, .. }
        | BenchAct::ConvertPort { .. }
        | BenchAct::FitCutOut { .. }
        | BenchAct::RenewSeals => true,
        // Caps come off with it.
        BenchAct::RemovePart { part } => Part::joints(part).iter().any(|j| now.is_capped(*j)),
        BenchAct::CapJoint { .. }
        | BenchAct::CloseJoint { .. }
        | BenchAct::RefitPart { .. }
        | BenchAct::NewPart { .. }
        | BenchAct::FitOrifice { .. }
        | BenchAct::DrainPart { .. }
        | BenchAct::FlushPart { .. }
        | BenchAct::PourOil { .. }
        | BenchAct::InjectOil { .. }
        | BenchAct::PortCap { .. }
        | BenchAct::ValveCore { fitted: true, .. }
        | BenchAct::SwitchScrew { .. } => false,
    }
}

/// Everybody can see that nothing is behind what is to be opened.
pub(crate) fn shown_empty(now: &Shown<'_>) -> bool {
    !shows_pressure(now) && (now.down || now.left_open && !now.blows && !now.hurt)
}

/// A gauge that is on shows pressure.
pub fn shows_pressure(now: &Shown<'_>) -> bool {
    [now.low, now.high]
        .iter()
        .flatten()
        .any(|p| *p > NO_PRESSURE)
}

#[cfg(test)]
mod tests;
