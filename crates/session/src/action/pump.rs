//! Acts on the vacuum pump and the electronic vacuum gauge.

use lowside_plant::plant::Plant;
use lowside_shop::{
    Attached, Shop,
    vacuum::{self, PumpOil, VacuumPump},
};
use lowside_units::{Quantity, VolumeFlow};

use super::{Action, Refused};
use crate::limits::within;

/// Does an act at the pump, or refuses and changes nothing.
pub(super) fn apply(act: Action, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
    match act {
        Action::TakePump { speed } => {
            let (least, most) = vacuum::SPEEDS;
            let (least, most) = (VolumeFlow::from_si(least), VolumeFlow::from_si(most));
            let speed = within("cfm", "speed", speed, least, most)?.si();
            at_rest(shop)?;
            shop.take_pump(plant, speed);
        }
        Action::Pump { on } => pump(shop)?.on = on,
        Action::Isolation { on } => pump(shop)?.valve_open = on,
        Action::Ballast { on } => pump(shop)?.ballast = on,
        Action::PumpOil => {
            pump(shop)?;
            at_rest(shop)?;
            shop.pump_oil = PumpOil::default();
        }
        Action::VacuumGauge { at } => shop.hands.vacuum_gauge = at,
        _ => {}
    }
    Ok(())
}

fn pump(shop: &mut Shop) -> Result<&mut VacuumPump, Refused> {
    match &mut shop.hands.attached {
        Attached::Pump(p) => Ok(p),
        _ => Err(Refused::NoPump),
    }
}

/// A pump that turns is not taken off, nor its oil changed.
pub(super) fn at_rest(shop: &Shop) -> Result<(), Refused> {
    match shop.hands.attached {
        Attached::Pump(p) if p.on => Err(Refused::PumpRuns),
        _ => Ok(()),
    }
}
