//! What hands have taken off and not put back, and what lies in the compressor that hands could push out: both are plain to see.

use lowside_plant::loose::{Lead, Plug};
use lowside_session::{Action, FixingAct, HoseAct, VehicleAct, VesselAct};
use lowside_shop::parts::Part;
use lowside_units::Quantity;

use crate::shown::Shown;

/// Something that is off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loosened {
    /// The battery's lead.
    Battery,
    /// A part's bolts.
    Bolts(Part),
    /// The belt.
    Belt,
    /// A plug.
    Plug(Lead),
    /// A wire lies across the low-pressure switch's plug.
    Bridge,
}

impl Loosened {
    /// Returns what is to go back first of all that is off parts that are in.
    pub fn first(shown: &Shown<'_>) -> Option<Self> {
        let loose = shown.settings.loose;
        let hangs = |part: &Part| {
            let look = shown.part(*part);
            look.unbolted && !look.out
        };
        if let Some(part) = Part::ALL.into_iter().find(hangs) {
            return Some(Self::Bolts(part));
        }
        if loose.belt {
            return Some(Self::Belt);
        }
        let pulled = |lead: &Lead| loose.plug(*lead) != Plug::On;
        if let Some(lead) = Lead::ALL.into_iter().find(pulled) {
            return Some(match loose.plug(lead) {
                Plug::Bridged => Self::Bridge,
                Plug::On | Plug::Off => Self::Plug(lead),
            });
        }
        loose.battery.then_some(Self::Battery)
    }
}

/// Returns whether liquid was let into a loop at rest since its compressor last turned: some of it lies in the cylinders.
pub fn liquid_at_rest(shown: &Shown<'_>) -> bool {
    if shown.settings.engine_on {
        return false;
    }
    let turned = |act: &Action| {
        matches!(
            act,
            Action::Fixing(FixingAct::TurnHub) | Action::Vehicle(VehicleAct::Engine { .. })
        )
    };
    let since = shown.log.iter().rposition(|(_, act)| turned(act));
    let (mut inverted, mut tap, mut valves) = (false, false, [false; 2]);
    let mut liquid = false;
    for (at, (_, act)) in shown.log.iter().enumerate() {
        match act {
            act if act.changes_hose() => (inverted, tap) = (false, false),
            Action::Vessel(VesselAct::Invert { on }) => inverted = *on,
            Action::Vessel(VesselAct::Tap { on }) => tap = *on,
            Action::Vessel(VesselAct::Dose { .. }) => tap = true,
            Action::Hose(HoseAct::LowValve { open }) => valves[0] = open.si() > 0.0,
            Action::Hose(HoseAct::HighValve { open }) => valves[1] = open.si() > 0.0,
            // Nothing else lets liquid in, or keeps it out.
            _ => {}
        }
        let rests = since.is_none_or(|turned| at > turned);
        liquid |= rests && inverted && tap && valves.contains(&true);
    }
    liquid
}
