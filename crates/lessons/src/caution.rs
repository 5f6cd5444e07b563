//! Cautions of the trade, shown at the act.

use lowside_plant::plant::Plant;
use lowside_session::{Action, Bay, BenchAct, HoseAct, MachineAct, VehicleAct, VesselAct};
use lowside_shop::{Attached, Shop, can, fault::Device, flush::Flush, joints::Side, shop::HURTS};
use lowside_units::{Quantity, Ratio};
use serde::{Deserialize, Serialize};

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
}

/// Hottest bath anyone may use, K: 52 degC (125 degF), the limit printed on small cans (common practice).
pub const BATH_LIMIT: f64 = 325.15;

fn vehicle(act: VehicleAct, plant: &Plant, shop: &Shop) -> Option<Caution> {
    match act {
        VehicleAct::Engine { on: true } if shop.hands.high_valve > 0.0 => {
            Some(Caution::HighValveRunning)
        }
        VehicleAct::Engine { on: true } => Some(Caution::BeltAndFan),
        VehicleAct::Mend {
            device: Device::Radiator,
        } if plant.settings.engine_on => Some(Caution::BeltAndFan),
        VehicleAct::Engine { on: false }
        | VehicleAct::EngineSpeed { .. }
        | VehicleAct::AirConditioning { .. }
        | VehicleAct::Blower { .. }
        | VehicleAct::Recirculation { .. }
        | VehicleAct::RoadSpeed { .. }
        | VehicleAct::Windows { .. }
        | VehicleAct::HeaterHose { .. }
        | VehicleAct::Mend { .. }
        | VehicleAct::Ambient { .. }
        | VehicleAct::Humidity { .. }
        | VehicleAct::AirPressure { .. } => None,
    }
}

fn hose(act: HoseAct, plant: &Plant, shop: &Shop) -> Option<Caution> {
    let opens = |open: Ratio, hose| {
        let p = plant.network.node(hose).state.p;
        if open.si() <= 0.0 {
            None
        } else if shop.hands.attached == Attached::Nothing {
            Some(Caution::OpenHose)
        } else {
            opens_to_pump(p, plant, shop)
        }
    };
    match act {
        HoseAct::HighValve { open } if open.si() > 0.0 && plant.settings.engine_on => {
            Some(Caution::HighValveRunning)
        }
        HoseAct::LowValve { open } => opens(open, shop.manifold.low_hose),
        HoseAct::HighValve { open } => opens(open, shop.manifold.high_hose),
        HoseAct::Disconnect => opens_can(shop),
        HoseAct::GaugeSet { .. }
        | HoseAct::LowCoupler { .. }
        | HoseAct::LowPort { .. }
        | HoseAct::HighCoupler { .. }
        | HoseAct::Purge { .. } => None,
    }
}

fn vessel(act: VesselAct, plant: &Plant, shop: &Shop) -> Option<Caution> {
    match act {
        VesselAct::Bath {
            temperature: Some(t),
        } if t.k() > BATH_LIMIT => Some(Caution::BathTooHot),
        VesselAct::Invert { on: true } if plant.settings.engine_on => {
            Some(Caution::LiquidToSuction)
        }
        VesselAct::TakeCanOf { gas } if gas != shop.hands.hoses => Some(Caution::OtherGas),
        VesselAct::TakeCan
        | VesselAct::TakeCanOf { .. }
        | VesselAct::TakeSelfSealingCan
        | VesselAct::TakeCylinder { .. }
        | VesselAct::TapScrew { .. }
        | VesselAct::Dose { .. }
        | VesselAct::Tap { on: true } => Some(Caution::EyesAndHands),
        VesselAct::RemoveCan => opens_can(shop),
        VesselAct::TakeNitrogen | VesselAct::Regulator { .. } => Some(Caution::Nitrogen),
        VesselAct::Bath { .. } | VesselAct::Invert { .. } | VesselAct::Tap { on: false } => None,
    }
}

fn machine(act: MachineAct, plant: &Plant, shop: &Shop) -> Option<Caution> {
    let pump = shop.hands.attached.pump();
    let pump_open = pump.is_some_and(|p| p.valve_open);
    match act {
        MachineAct::RecoveryMachine { on: true } | MachineAct::ChangeCylinder { .. } => {
            Some(Caution::RecoveryCylinder)
        }
        MachineAct::Isolation { on: true } if pressure_to_pump(plant, shop) => {
            Some(Caution::PressureToPump)
        }
        MachineAct::Pump { on: true } if pump_open && pressure_to_pump(plant, shop) => {
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

fn bench(act: BenchAct, plant: &Plant, shop: &Shop) -> Option<Caution> {
    let hurts = |side| shop.openings.behind_port(plant, side) > HURTS;
    match act {
        BenchAct::OpenJoint { joint } => {
            let (pressure, liquid) = shop.openings.behind(plant, joint);
            Some(if pressure > HURTS || liquid {
                Caution::OpensUnderPressure
            } else {
                Caution::CapAtOnce
            })
        }
        BenchAct::ValveCore {
            side,
            fitted: false,
        }
        | BenchAct::ConvertPort { side, .. }
            if hurts(side) =>
        {
            Some(Caution::OpensUnderPressure)
        }
        BenchAct::FitCutOut { .. } if hurts(Side::High) => Some(Caution::OpensUnderPressure),
        BenchAct::RenewSeals => Some(if [Side::Low, Side::High].into_iter().any(hurts) {
            Caution::OpensUnderPressure
        } else {
            Caution::CapAtOnce
        }),
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

/// Venting, where a can that stands open is taken off.
fn opens_can(shop: &Shop) -> Option<Caution> {
    let open = shop.hands.attached.can().is_some_and(|c| c.open());
    open.then_some(Caution::Venting)
}

impl Caution {
    /// Returns the caution to show at an act, given how the bay stands before it.
    pub fn at(action: Action, bay: &Bay) -> Option<Self> {
        let (plant, shop) = (bay.plant(), bay.shop());
        match action {
            Action::Vehicle(act) => vehicle(act, plant, shop),
            Action::Hose(act) => hose(act, plant, shop),
            Action::Vessel(act) => vessel(act, plant, shop),
            Action::Machine(act) => machine(act, plant, shop),
            Action::Bench(act) => bench(act, plant, shop),
            // Nothing is opened, started or set free with these.
            Action::Instrument(_) | Action::Record(_) | Action::Learner(_) => None,
        }
    }

    /// Is what it warns of still so? One of a moment's act has no cause that ends: it stays until it is put away.
    pub fn holds(self, bay: &Bay) -> bool {
        let (plant, shop) = (bay.plant(), bay.shop());
        let h = &shop.hands;
        let running = plant.settings.engine_on;
        let (can, pump) = (h.attached.can(), h.attached.pump());
        let cylinder = h.attached.cylinder();
        let on_bench = shop.bench.iter().any(Option::is_some);
        match self {
            Self::HighValveRunning => running && h.high_valve > 0.0,
            Self::BathTooHot => can.is_some_and(|c| c.bath.is_some_and(|t| t > BATH_LIMIT)),
            Self::LiquidToSuction => {
                let stance = can.map(|c| c.stance).or(cylinder.map(|c| c.stance));
                running && stance == Some(can::Stance::Inverted)
            }
            Self::BeltAndFan => running,
            Self::EyesAndHands => can.is_some() || cylinder.is_some(),
            Self::OtherGas => can.is_some(),
            Self::OpenHose => {
                h.attached == Attached::Nothing && (h.low_valve > 0.0 || h.high_valve > 0.0)
            }
            Self::PressureToPump => pump.is_some_and(|p| p.valve_open),
            Self::PumpStopsOpen => pump.is_some_and(|p| p.valve_open && !p.on),
            Self::OpensUnderPressure | Self::CapAtOnce => {
                shop.openings.left_open([h.low_coupled, h.high_coupled])
            }
            Self::Nitrogen => on_bench || matches!(h.attached, Attached::Nitrogen(_)),
            Self::Solvent => on_bench,
            Self::Venting | Self::RecoveryCylinder | Self::HotOil | Self::Oil => true,
        }
    }
}

/// Share of the atmosphere above which what comes to the pump counts as pressure.
const PRESSURE: f64 = 1.05;

/// Gas above atmospheric pressure could reach the pump once everything between is open.
fn pressure_to_pump(plant: &Plant, shop: &Shop) -> bool {
    let (h, p) = (&shop.hands, &shop.manifold);
    let over = |node| plant.network.node(node).state.p > PRESSURE * plant.day().p;
    over(p.service_hose)
        || h.low_valve > 0.0 && over(p.low_hose)
        || h.high_valve > 0.0 && over(p.high_hose)
}

fn opens_to_pump(p: f64, plant: &Plant, shop: &Shop) -> Option<Caution> {
    let open = shop
        .hands
        .attached
        .pump()
        .is_some_and(|pump| pump.valve_open);
    (open && p > PRESSURE * plant.day().p).then_some(Caution::PressureToPump)
}
