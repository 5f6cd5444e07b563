//! Acts on couplers and hand valves.

use lowside_fluids::Gas;
use lowside_plant::plant::Plant;
use lowside_shop::{Attached, Shop, joints::Side};
use lowside_units::{Quantity, Ratio};

use super::{Action, Refused, vessel::mixes};
use crate::limits::within;

/// Does an act on the gauge set, or refuses and changes nothing.
pub(super) fn apply(act: Action, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
    let hands = &mut shop.hands;
    match act {
        Action::GaugeSet { gas } => {
            takes(plant, shop, gas)?;
            shop.take_gauge_set(plant, gas);
        }
        Action::LowCoupler { on } => {
            couple(shop, Side::Low, on)?;
            shop.hands.low_coupled = on;
        }
        Action::LowTap { at } => {
            if shop.openings.other_low_port().is_none() {
                return Err(Refused::OnePort);
            }
            if shop.hands.low_coupled {
                return Err(Refused::Coupled);
            }
            shop.openings.go_to(at);
        }
        Action::HighCoupler { on } => {
            couple(shop, Side::High, on)?;
            shop.hands.high_coupled = on;
        }
        Action::LowValve { open } => hands.low_valve = share("open", open)?,
        Action::HighValve { open } => hands.high_valve = share("open", open)?,
        Action::Purge { on } => hands.purging = on,
        _ => {}
    }
    Ok(())
}

/// A coupler goes on no port that has its cap on, or another gas's fitting.
fn couple(shop: &Shop, side: Side, on: bool) -> Result<(), Refused> {
    let port = shop.openings.ports[side as usize];
    let hose = shop.hands.hoses;
    if on && port.cap {
        Err(Refused::CapOn)
    } else if on && port.fitting != hose {
        Err(Refused::WrongPort {
            hose,
            port: port.fitting,
        })
    } else {
        Ok(())
    }
}

/// Another gauge set is taken with both couplers off and nothing on the service hose.
fn takes(plant: &Plant, shop: &Shop, gas: Gas) -> Result<(), Refused> {
    mixes(plant, gas)?;
    let hands = &shop.hands;
    if gas == hands.hoses {
        Err(Refused::SetInHand(gas))
    } else if hands.low_coupled || hands.high_coupled {
        Err(Refused::Coupled)
    } else if hands.attached != Attached::Nothing {
        Err(Refused::HoseTaken)
    } else {
        Ok(())
    }
}

/// A share from 0 to 1.
pub(super) fn share(field: &str, value: Ratio) -> Result<f64, Refused> {
    let (none, all) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
    Ok(within("%", field, value, none, all)?.si())
}
