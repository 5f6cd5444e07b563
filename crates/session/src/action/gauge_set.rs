//! Acts on couplers and hand valves.

use lowside_shop::Shop;
use lowside_units::{Quantity, Ratio};

use super::{Action, Refused};
use crate::limits::within;

/// Does an act on the gauge set, or refuses and changes nothing.
pub(super) fn apply(act: Action, shop: &mut Shop) -> Result<(), Refused> {
    let hands = &mut shop.hands;
    match act {
        Action::LowCoupler { on } => hands.low_coupled = on,
        Action::HighCoupler { on } => hands.high_coupled = on,
        Action::LowValve { open } => hands.low_valve = share("open", open)?,
        Action::HighValve { open } => hands.high_valve = share("open", open)?,
        Action::Purge { on } => hands.purging = on,
        _ => {}
    }
    Ok(())
}

/// A share from 0 to 1.
pub(super) fn share(field: &str, value: Ratio) -> Result<f64, Refused> {
    let (none, all) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
    Ok(within("%", field, value, none, all)?.si())
}
