//! Acts on couplers and hand valves.

use lowside_shop::{
    Shop,
    joints::{Openings, Side},
};
use lowside_units::{Quantity, Ratio};

use super::{Action, Refused};
use crate::limits::within;

/// Does an act on the gauge set, or refuses and changes nothing.
pub(super) fn apply(act: Action, shop: &mut Shop) -> Result<(), Refused> {
    let hands = &mut shop.hands;
    match act {
        Action::LowCoupler { on } => {
            couple(&shop.openings, Side::Low, on)?;
            shop.hands.low_coupled = on;
        }
        Action::HighCoupler { on } => {
            couple(&shop.openings, Side::High, on)?;
            shop.hands.high_coupled = on;
        }
        Action::LowValve { open } => hands.low_valve = share("open", open)?,
        Action::HighValve { open } => hands.high_valve = share("open", open)?,
        Action::Purge { on } => hands.purging = on,
        _ => {}
    }
    Ok(())
}

/// A coupler goes on no port that has its cap on.
fn couple(openings: &Openings, side: Side, on: bool) -> Result<(), Refused> {
    if on && openings.ports[side as usize].cap {
        Err(Refused::CapOn)
    } else {
        Ok(())
    }
}

/// A share from 0 to 1.
pub(super) fn share(field: &str, value: Ratio) -> Result<f64, Refused> {
    let (none, all) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
    Ok(within("%", field, value, none, all)?.si())
}
