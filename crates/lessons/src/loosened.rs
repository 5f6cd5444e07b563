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
    /// Returns everything that is off on parts that are in, in the order in which it goes back.
    pub fn all(shown: &Shown<'_>) -> impl Iterator<Item = Self> {
        let loose = shown.settings.loose;
        let bolts = Part::ALL.map(|part| {
            let look = shown.part(part);
            (look.unbolted && !look.out).then_some(Self::Bolts(part))
        });
        let belt = loose.belt.then_some(Self::Belt);
        let plugs = Lead::ALL.map(|lead| match loose.plug(lead) {
            Plug::On => None,
            Plug::Off => Some(Self::Plug(lead)),
            Plug::Bridged => Some(Self::Bridge),
        });
        let battery = loose.battery.then_some(Self::Battery);
        let off = bolts.into_iter().chain([belt]).chain(plugs);
        off.chain([battery]).flatten()
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
