//! Acts at the vacuum pump and its gauge.

use lowside_plant::plant::Plant;
use lowside_shop::{
    Shop,
    vacuum::{self, PumpOil, VacuumPump},
};
use lowside_units::{Quantity, VolumeFlow, in_range};

use super::{Action, Caution, Refused};

/// Share of the atmosphere above which what comes to the pump counts as pressure.
const PRESSURE: f64 = 1.05;

fn pump(shop: &mut Shop) -> Result<&mut VacuumPump, Refused> {
    shop.hands.pump.as_mut().ok_or(Refused::NoPump)
}

impl Action {
    /// Does an act at the pump, or refuses and changes nothing; others are none of its business.
    pub(super) fn apply_vacuum(self, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
        match self {
            Self::TakePump { speed } => {
                let (least, most) = vacuum::SPEEDS;
                let (least, most) = (VolumeFlow::from_si(least), VolumeFlow::from_si(most));
                let speed = in_range("speed", speed, least, most)?.si();
                shop.take_pump(plant, speed);
            }
            Self::DropPump => {
                if pump(shop)?.on {
                    return Err(Refused::PumpRuns);
                }
                shop.drop_pump(plant);
            }
            Self::Pump { on } => pump(shop)?.on = on,
            Self::Isolation { on } => pump(shop)?.valve_open = on,
            Self::Ballast { on } => pump(shop)?.ballast = on,
            Self::PumpOil => {
                if pump(shop)?.on {
                    return Err(Refused::PumpRuns);
                }
                shop.pump_oil = PumpOil::default();
            }
            Self::VacuumGauge { at } => shop.hands.vacuum_gauge = at,
            _ => {}
        }
        Ok(())
    }

    /// The caution to show at an act that has to do with the pump.
    pub(super) fn caution_vacuum(self, plant: &Plant, shop: &Shop) -> Option<Caution> {
        let pump = shop.hands.pump.as_ref()?;
        let (hands, places) = (&shop.hands, &shop.places);
        let over = |node| plant.network.node(node).state.p > PRESSURE * plant.day().p;
        let pressure = || {
            over(places.service_hose)
                || hands.low_valve > 0.0 && over(places.low_hose)
                || hands.high_valve > 0.0 && over(places.high_hose)
        };
        let blown = match self {
            Self::LowValve { open } => pump.valve_open && open.si() > 0.0 && over(places.low_hose),
            Self::HighValve { open } => {
                pump.valve_open && open.si() > 0.0 && over(places.high_hose)
            }
            Self::Isolation { on: true } => pressure(),
            Self::Pump { on: true } => pump.valve_open && pressure(),
            _ => false,
        };
        match self {
            _ if blown => Some(Caution::PressureToPump),
            Self::Pump { on: false } if pump.on && pump.valve_open => Some(Caution::PumpStopsOpen),
            Self::PumpOil => Some(Caution::HotOil),
            _ => None,
        }
    }
}
