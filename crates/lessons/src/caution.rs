//! Cautions of the trade, shown at the act.

use lowside_plant::loose::{Lead, Plug};
use lowside_session::{Action, BenchAct, FixingAct, HoseAct, MachineAct, VehicleAct, VesselAct};
use lowside_shop::{
    Attached, can, fault::Device, flush::Flush, protection::Worn, weighed::NO_PRESSURE,
};
use lowside_units::{Quantity, Ratio};
use serde::{Deserialize, Serialize};

use crate::{
    confirm::{opens, shown_empty},
    loosened::liquid_at_rest,
    shown::Shown,
};

/// A caution of the trade, shown at the act. The words are the page's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Caution {
    /// High valve open with the engine running drives discharge gas into the can.
    HighValveRunning,
    /// Water hotter than 52 degC can burst a can.
    BathTooHot,
    /// Liquid into a running suction can break the compressor.
    LiquidToSuction,
    /// Rotating belt and fan.
    BeltAndFan,
    /// Frost burns: eye and hand protection.
    EyesAndHands,
    /// A can of another gas goes on by an adapter alone: what the fittings are there to prevent.
    OtherGas,
    /// Refrigerant goes into the room: forbidden and harmful.
    Venting,
    /// The service hose is open to the room.
    OpenHose,
    /// A recovery cylinder takes one gas, and liquid to 80 % of it at most.
    RecoveryCylinder,
    /// Pressure at the pump's inlet blows its oil out and the refrigerant into the room: recover first.
    PressureToPump,
    /// A pump that stops with its valve open lets air back into what it has emptied.
    PumpStopsOpen,
    /// The oil of a pump that has run is hot, and used oil is waste.
    HotOil,
    /// The loop is under pressure: recover first. Opening it vents, freezes and blinds.
    OpensUnderPressure,
    /// Nitrogen only with regulator and relief, never oxygen or shop air; open slowly, do not pass the low side's
    /// limit.
    Nitrogen,
    /// An open end takes up moisture at once: cap it.
    CapAtOnce,
    /// Solvent burns and its vapour is harmful: flush in a closed circuit, as its data sheet says; what comes out is
    /// hazardous waste.
    Solvent,
    /// Used oil is waste, and new oil takes up water from the air.
    Oil,
    /// A wire across the low-pressure switch's plug takes away what stops the compressor when the charge is gone: for seconds, to test.
    SwitchBridged,
    /// Hands at belt and hub: nobody may start the engine meanwhile.
    HandsAtBelt,
    /// Liquid was let in at rest, and the first strokes of the compressor meet it: turn the hub by hand first.
    LiquidInCompressor,
}

/// Hottest bath anyone may use, K: 52 degC (125 degF), the limit printed on small cans (common practice).
pub const BATH_LIMIT: f64 = 325.15;

fn vehicle(act: VehicleAct, now: &Shown<'_>) -> Option<Caution> {
    match act {
        VehicleAct::Engine { on: true } if now.hands.high_valve > 0.0 => {
            Some(Caution::HighValveRunning)
        }
        VehicleAct::Engine { on: true } if liquid_at_rest(now) => Some(Caution::LiquidInCompressor),
        VehicleAct::Engine { on: true } => Some(Caution::BeltAndFan),
        VehicleAct::Mend {
            device: Device::Radiator,
        }
        | VehicleAct::MistCondenser
        | VehicleAct::CoverCondenser { on: true }
            if now.settings.engine_on =>
        {
            Some(Caution::BeltAndFan)
        }
        VehicleAct::Engine { on: false }
        | VehicleAct::EngineSpeed { .. }
        | VehicleAct::AirConditioning { .. }
        | VehicleAct::Blower { .. }
        | VehicleAct::Recirculation { .. }
        | VehicleAct::RoadSpeed { .. }
        | VehicleAct::Windows { .. }
        | VehicleAct::HeaterHose { .. }
        | VehicleAct::CoverCondenser { .. }
        | VehicleAct::MistCondenser
        | VehicleAct::WarmOrifice
        | VehicleAct::Mend { .. }
        | VehicleAct::Ambient { .. }
        | VehicleAct::Humidity { .. }
        | VehicleAct::AirPressure { .. } => None,
    }
}

fn hose(act: HoseAct, now: &Shown<'_>) -> Option<Caution> {
    let opens = |open: Ratio, dial: f64| {
        if open.si() <= 0.0 {
            None
        } else if now.hands.attached == Attached::Nothing {
            Some(Caution::OpenHose)
        } else {
            let pump = now.hands.attached.pump();
            let blown = pump.is_some_and(|p| p.valve_open) && dial > NO_PRESSURE;
            blown.then_some(Caution::PressureToPump)
        }
    };
    match act {
        HoseAct::HighValve { open } if open.si() > 0.0 && now.settings.engine_on => {
            Some(Caution::HighValveRunning)
        }
        HoseAct::LowValve { open } => opens(open, now.dials[0]),
        HoseAct::HighValve { open } => opens(open, now.dials[1]),
        HoseAct::Disconnect => opens_can(now),
        HoseAct::GaugeSet { .. }
        | HoseAct::LowCoupler { .. }
        | HoseAct::LowPort { .. }
        | HoseAct::HighCoupler { .. }
        | HoseAct::Purge { .. } => None,
    }
}

fn vessel(act: VesselAct, now: &Shown<'_>) -> Option<Caution> {
    match act {
        VesselAct::Bath {
            temperature: Some(t),
        } if t.k() > BATH_LIMIT => Some(Caution::BathTooHot),
        VesselAct::Invert { on: true } if now.settings.engine_on => Some(Caution::LiquidToSuction),
        VesselAct::TakeCanOf { gas } if gas != now.hands.hoses => Some(Caution::OtherGas),
        VesselAct::TakeCan
        | VesselAct::TakeCanOf { .. }
        | VesselAct::TakeSelfSealingCan
        | VesselAct::TakeCylinder { .. }
        | VesselAct::TapScrew { .. }
        | VesselAct::Dose { .. }
        | VesselAct::Rock { on: true }
        | VesselAct::Tap { on: true } => Some(Caution::EyesAndHands),
        VesselAct::RemoveCan => opens_can(now),
        VesselAct::TakeNitrogen | VesselAct::Regulator { .. } => Some(Caution::Nitrogen),
        VesselAct::Bath { .. }
        | VesselAct::Rock { on: false }
        | VesselAct::Invert { .. }
        | VesselAct::Tap { on: false } => None,
    }
}

fn machine(act: MachineAct, now: &Shown<'_>) -> Option<Caution> {
    let pump = now.hands.attached.pump();
    let pump_open = pump.is_some_and(|p| p.valve_open);
    match act {
        MachineAct::RecoveryMachine { on: true } | MachineAct::ChangeCylinder { .. } => {
            Some(Caution::RecoveryCylinder)
        }
        MachineAct::Isolation { on: true } if pressure_to_pump(now) => {
            Some(Caution::PressureToPump)
        }
        MachineAct::Pump { on: true } if pump_open && pressure_to_pump(now) => {
            Some(Caution::PressureToPump)
        }
        MachineAct::Pump { on: false } if pump_open && pump.is_some_and(|p| p.on) => {
            Some(Caution::PumpStopsOpen)
        }
        MachineAct::PumpOil => Some(Caution::HotOil),
        MachineAct::TakePump { .. }
        | MachineAct::Pump { .. }
        | MachineAct::Isolation { .. }
        | MachineAct::Ballast { .. }
        | MachineAct::TakeRecoveryMachine { .. }
        | MachineAct::RecoveryMachine { on: false }
        | MachineAct::RecoveryStop { .. } => None,
    }
}

fn bench(act: BenchAct, now: &Shown<'_>) -> Option<Caution> {
    if opens(now, act) && !shown_empty(now) {
        return Some(Caution::OpensUnderPressure);
    }
    match act {
        BenchAct::OpenJoint { .. } | BenchAct::RenewSeals => Some(Caution::CapAtOnce),
        BenchAct::FlushPart { with, .. } => match with {
            Flush::Nitrogen => Some(Caution::Nitrogen),
            Flush::Solvent => Some(Caution::Solvent),
        },
        BenchAct::DrainPart { .. } | BenchAct::PourOil { .. } | BenchAct::InjectOil { .. } => {
            Some(Caution::Oil)
        }
        BenchAct::CapJoint { .. }
        | BenchAct::CloseJoint { .. }
        | BenchAct::RemovePart { .. }
        | BenchAct::RefitPart { .. }
        | BenchAct::NewPart { .. }
        | BenchAct::FitOrifice { .. }
        | BenchAct::PortCap { .. }
        | BenchAct::ValveCore { .. }
        | BenchAct::ConvertPort { .. }
        | BenchAct::FitCutOut { .. }
        | BenchAct::SwitchScrew { .. } => None,
    }
}

fn fixing(act: FixingAct, now: &Shown<'_>) -> Option<Caution> {
    match act {
        FixingAct::Plug {
            state: Plug::Bridged,
            ..
        } => Some(Caution::SwitchBridged),
        FixingAct::Belt { .. } | FixingAct::TurnHub if !now.settings.loose.battery => {
            Some(Caution::HandsAtBelt)
        }
        FixingAct::PartCaps { on: false, .. } => Some(Caution::CapAtOnce),
        FixingAct::Battery { .. }
        | FixingAct::Plug { .. }
        | FixingAct::Belt { .. }
        | FixingAct::Bolts { .. }
        | FixingAct::PartCaps { .. }
        | FixingAct::JointTool { .. }
        | FixingAct::TurnHub => None,
    }
}

/// Venting, where a can that stands open is taken off.
fn opens_can(now: &Shown<'_>) -> Option<Caution> {
    let open = now.can().is_some_and(|c| c.open());
    open.then_some(Caution::Venting)
}

impl Caution {
    /// Returns the caution to show at an act by what is shown before it: a gauge that is off its port tells nothing, in an open bay as in a
    /// closed one.
    pub fn at(action: Action, now: &Shown<'_>) -> Option<Self> {
        match action {
            Action::Vehicle(act) => vehicle(act, now),
            Action::Hose(act) => hose(act, now),
            Action::Vessel(act) => vessel(act, now),
            Action::Machine(act) => machine(act, now),
            Action::Bench(act) => bench(act, now),
            Action::Fixing(act) => fixing(act, now),
            // Nothing is opened, started or set free with these.
            Action::Instrument(_)
            | Action::Record(_)
            | Action::Learner(_)
            | Action::Instructor(_) => None,
        }
    }

    /// Is what it warns of still so? One of a moment's act has no cause that ends: it stays until it is put away.
    pub fn holds(self, now: &Shown<'_>) -> bool {
        let h = &now.hands;
        let running = now.settings.engine_on;
        let (can, pump) = (h.attached.can(), h.attached.pump());
        let cylinder = h.attached.cylinder();
        let on_bench = now.parts.iter().any(|part| part.out);
        match self {
            Self::HighValveRunning => running && h.high_valve > 0.0,
            Self::BathTooHot => now.bath_too_hot(),
            Self::LiquidToSuction => {
                let stance = can.map(|c| c.stance).or(cylinder.map(|c| c.stance));
                running && stance == Some(can::Stance::Inverted)
            }
            Self::BeltAndFan | Self::LiquidInCompressor => running,
            Self::EyesAndHands => can.is_some() || cylinder.is_some(),
            Self::OtherGas => can.is_some(),
            Self::OpenHose => {
                h.attached == Attached::Nothing && (h.low_valve > 0.0 || h.high_valve > 0.0)
            }
            Self::PressureToPump => pump.is_some_and(|p| p.valve_open),
            Self::PumpStopsOpen => pump.is_some_and(|p| p.valve_open && !p.on),
            Self::OpensUnderPressure => now.left_open,
            Self::CapAtOnce => now.left_open || now.parts.iter().any(|part| part.bare),
            Self::SwitchBridged => now.settings.loose.plug(Lead::LowSwitch) == Plug::Bridged,
            Self::HandsAtBelt => !running && !now.settings.loose.battery,
            Self::Nitrogen => on_bench || matches!(h.attached, Attached::Nitrogen(_)),
            Self::Solvent => on_bench,
            Self::Venting | Self::RecoveryCylinder | Self::HotOil | Self::Oil => true,
        }
    }

    /// Returns what has to be worn for it.
    pub fn wants(self) -> Worn {
        let (goggles, gloves) = match self {
            Self::HighValveRunning
            | Self::BathTooHot
            | Self::EyesAndHands
            | Self::OtherGas
            | Self::Venting
            | Self::OpenHose
            | Self::PressureToPump
            | Self::OpensUnderPressure
            | Self::RecoveryCylinder
            | Self::Nitrogen
            | Self::Solvent => (true, true),
            Self::HotOil | Self::Oil => (false, true),
            Self::LiquidToSuction
            | Self::BeltAndFan
            | Self::PumpStopsOpen
            | Self::CapAtOnce
            | Self::SwitchBridged
            | Self::HandsAtBelt
            | Self::LiquidInCompressor => (false, false),
        };
        Worn { goggles, gloves }
    }
}

/// A gauge shows pressure on a hose that leads to the pump once everything between is open.
fn pressure_to_pump(now: &Shown<'_>) -> bool {
    now.behind_valves.is_some_and(|p| p > NO_PRESSURE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::bay;
    use lowside_session::{Bay, TICKS_PER_SECOND, acts};
    use lowside_shop::joints::{Joint, Side};

    fn pass(bay: &mut Bay, seconds: u64) {
        for _ in 0..seconds * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
    }

    /// A full loop and one that has blown off since its gauges came off: what is cautioned about is the same.
    #[test]
    fn a_caution_tells_no_pressure_that_no_gauge_shows() {
        let mut full = bay("healthy");
        for act in acts![
            VehicleAct::Engine { on: false },
            HoseAct::LowCoupler { on: false },
            HoseAct::HighCoupler { on: false },
            MachineAct::TakePump {
                speed: lowside_units::VolumeFlow::from_cfm(6.0),
            },
        ] {
            full.apply(act).expect("possible");
        }
        let mut empty = full.clone();
        let core = |fitted| BenchAct::ValveCore {
            side: Side::Low,
            fitted,
        };
        empty.apply(core(false)).expect("possible");
        pass(&mut empty, 1200);
        empty.apply(core(true)).expect("possible");
        assert!(empty.charge() < 0.05 && full.charge() > 0.9);
        let open = Ratio::from_fraction(1.0);
        let all = acts![
            BenchAct::OpenJoint {
                joint: Joint::EvaporatorOut
            },
            core(false),
            BenchAct::RenewSeals,
            HoseAct::LowValve { open },
            HoseAct::HighValve { open },
            MachineAct::Isolation { on: true },
        ];
        for act in all {
            let at = |bay| Caution::at(act, &Shown::of(bay));
            assert_eq!(at(&full), at(&empty), "{act:?}");
        }
        // What no gauge has shown to be empty counts as full.
        let at = |bay| Caution::at(all[0], &Shown::of(bay));
        assert_eq!(at(&empty), Some(Caution::OpensUnderPressure));
        let mut seen = bay("charge-from-cans");
        pass(&mut seen, 5);
        assert_eq!(at(&seen), Some(Caution::CapAtOnce), "both gauges are down");
    }
}
