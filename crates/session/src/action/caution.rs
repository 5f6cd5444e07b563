//! Cautions of the trade, shown at the act.

use lowside_plant::plant::Plant;
use lowside_shop::{Attached, Shop, can, flush::Flush, joints::Side, shop::HURTS};
use lowside_units::Quantity;
use serde::{Deserialize, Serialize};

use super::Action;

impl Action {
    /// The caution to show at the act, given how the bay stands before it.
    pub fn caution(self, plant: &Plant, shop: &Shop) -> Option<Caution> {
        let running = plant.settings.engine_on;
        let open_can = shop.hands.attached.can().is_some_and(|c| c.open());
        let pump = shop.hands.attached.pump();
        let pump_open = pump.is_some_and(|p| p.valve_open);
        match self {
            Self::HighValve { open } if open.si() > 0.0 && running => {
                Some(Caution::HighValveRunning)
            }
            Self::Engine { on: true } if shop.hands.high_valve > 0.0 => {
                Some(Caution::HighValveRunning)
            }
            Self::Bath {
                temperature: Some(t),
            } if t.k() > can::BATH_LIMIT => Some(Caution::BathTooHot),
            Self::Invert { on: true } if running => Some(Caution::LiquidToSuction),
            Self::Engine { on: true } => Some(Caution::BeltAndFan),
            Self::TakeCanOf { gas } if gas != shop.hands.hoses => Some(Caution::OtherGas),
            Self::TakeCan
            | Self::TakeCanOf { .. }
            | Self::TakeSelfSealingCan
            | Self::TakeCylinder { .. }
            | Self::TapScrew { .. }
            | Self::Dose { .. }
            | Self::Tap { on: true } => Some(Caution::EyesAndHands),
            Self::DropCan | Self::Disconnect if open_can => Some(Caution::Venting),
            Self::Machine { on: true } | Self::ChangeCylinder { .. } => {
                Some(Caution::RecoveryCylinder)
            }
            Self::OpenJoint { joint } => {
                let (pressure, liquid) = shop.openings.behind(plant, joint);
                Some(if pressure > HURTS || liquid {
                    Caution::OpensUnderPressure
                } else {
                    Caution::CapAtOnce
                })
            }
            Self::Core {
                side,
                fitted: false,
            }
            | Self::ConvertPort { side, .. }
                if shop.openings.behind_port(plant, side) > HURTS =>
            {
                Some(Caution::OpensUnderPressure)
            }
            Self::FitCutOut { .. } if shop.openings.behind_port(plant, Side::High) > HURTS => {
                Some(Caution::OpensUnderPressure)
            }
            Self::RenewSeals => Some(
                if [Side::Low, Side::High]
                    .iter()
                    .any(|s| shop.openings.behind_port(plant, *s) > HURTS)
                {
                    Caution::OpensUnderPressure
                } else {
                    Caution::CapAtOnce
                },
            ),
            Self::TakeNitrogen
            | Self::Regulator { .. }
            | Self::FlushPart {
                with: Flush::Nitrogen,
                ..
            } => Some(Caution::Nitrogen),
            Self::FlushPart {
                with: Flush::Solvent,
                ..
            } => Some(Caution::Solvent),
            Self::DrainPart { .. } | Self::PourOil { .. } | Self::InjectOil { .. } => {
                Some(Caution::Oil)
            }
            Self::LowValve { open } | Self::HighValve { open }
                if open.si() > 0.0 && shop.hands.attached == Attached::Nothing =>
            {
                Some(Caution::OpenHose)
            }
            Self::LowValve { open } if open.si() > 0.0 => {
                let p = plant.network.node(shop.places.low_hose).state.p;
                opens_to_pump(p, plant, shop)
            }
            Self::HighValve { open } if open.si() > 0.0 => {
                let p = plant.network.node(shop.places.high_hose).state.p;
                opens_to_pump(p, plant, shop)
            }
            Self::Isolation { on: true } if pressure_to_pump(plant, shop) => {
                Some(Caution::PressureToPump)
            }
            Self::Pump { on: true } if pump_open && pressure_to_pump(plant, shop) => {
                Some(Caution::PressureToPump)
            }
            Self::Pump { on: false } if pump_open && pump.is_some_and(|p| p.on) => {
                Some(Caution::PumpStopsOpen)
            }
            Self::PumpOil => Some(Caution::HotOil),
            _ => None,
        }
    }
}

impl Caution {
    /// Is what it warns of still so? One of a moment's act has no cause that ends: it stays until it is put away.
    pub fn holds(self, plant: &Plant, shop: &Shop) -> bool {
        let h = &shop.hands;
        let running = plant.settings.engine_on;
        let (can, pump) = (h.attached.can(), h.attached.pump());
        let cylinder = h.attached.cylinder();
        let on_bench = shop.bench.iter().any(Option::is_some);
        match self {
            Self::HighValveRunning => running && h.high_valve > 0.0,
            Self::BathTooHot => can.is_some_and(|c| c.bath.is_some_and(|t| t > can::BATH_LIMIT)),
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
    let (h, p) = (&shop.hands, &shop.places);
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
    /// Nitrogen only with regulator and relief, never oxygen or shop air; open slowly, do not pass the low side's limit.
    Nitrogen,
    /// An open end takes up moisture at once: cap it.
    CapAtOnce,
    /// Solvent burns and its vapour is harmful: flush in a closed circuit, as its data sheet says; what comes out is hazardous waste.
    Solvent,
    /// Used oil is waste, and new oil takes up water from the air.
    Oil,
}
