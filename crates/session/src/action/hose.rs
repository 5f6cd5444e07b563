//! Acts on the gauge set: its hoses, couplers and hand valves.

use lowside_fluids::{Blend, Refrigerant};
use lowside_plant::plant::Plant;
use lowside_shop::{
    Attached, Shop,
    joints::{LowPort, Side},
};
use lowside_units::{Quantity, Ratio};
use serde::{Deserialize, Serialize};

use super::{Refused, machine::at_rest};
use crate::limits::within;

/// An act on the gauge set and its hoses.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum HoseAct {
    /// Hang the gauge set on the wall and take down the one for a gas; couplers off and nothing on the service hose.
    GaugeSet {
        /// The gas whose fittings its hoses have.
        gas: Refrigerant,
    },
    /// Put the low-side coupler on its port, or take it off.
    LowCoupler {
        /// True to put it on.
        on: bool,
    },
    /// Go to the other low-side port, where the vehicle has two; the coupler has to be off.
    #[serde(rename = "low-tap")]
    LowPort {
        /// Where that port sits.
        at: LowPort,
    },
    /// Put the high-side coupler on its port, or take it off.
    HighCoupler {
        /// True to put it on.
        on: bool,
    },
    /// Turn the low hand valve.
    LowValve {
        /// 0 (shut) to 1 (open).
        open: Ratio,
    },
    /// Turn the high hand valve.
    HighValve {
        /// 0 (shut) to 1 (open).
        open: Ratio,
    },
    /// Crack the service hose at the manifold to purge it, or tighten it.
    Purge {
        /// True to crack it.
        on: bool,
    },
    /// Take off whatever hangs on the service hose.
    Disconnect,
}

impl HoseAct {
    /// Does the act, or refuses and changes nothing.
    pub(super) fn apply(self, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
        let hands = &mut shop.hands;
        match self {
            Self::GaugeSet { gas } => {
                takes(plant, shop, gas)?;
                shop.take_gauge_set(plant, gas);
            }
            Self::LowCoupler { on } => couple(plant, shop, Side::Low, on)?,
            Self::LowPort { at } => {
                if shop.openings.other_low_port().is_none() {
                    return Err(Refused::OnePort);
                }
                if shop.hands.low_coupled {
                    return Err(Refused::Coupled);
                }
                shop.openings.go_to(at);
            }
            Self::HighCoupler { on } => couple(plant, shop, Side::High, on)?,
            Self::LowValve { open } => hands.low_valve = share("open", open)?,
            Self::HighValve { open } => hands.high_valve = share("open", open)?,
            Self::Purge { on } => hands.purging = on,
            Self::Disconnect => {
                at_rest(shop)?;
                if shop.hands.attached == Attached::Nothing {
                    return Err(Refused::NothingAttached);
                }
                shop.put_aside(plant);
            }
        }
        Ok(())
    }
}

/// Puts a coupler on or takes it off. It goes on no port that has its cap on, or another gas's fitting.
fn couple(plant: &Plant, shop: &mut Shop, side: Side, on: bool) -> Result<(), Refused> {
    let port = shop.openings.ports[side as usize];
    let hose = shop.hands.hoses;
    if on && port.cap {
        return Err(Refused::CapOn);
    }
    if on && port.fitting != hose {
        return Err(Refused::WrongPort {
            hose,
            port: port.fitting,
        });
    }
    match side {
        _ if !on => shop.uncouple(plant, side),
        Side::Low => shop.hands.low_coupled = true,
        Side::High => shop.hands.high_coupled = true,
    }
    Ok(())
}

/// Another gauge set is taken with both couplers off and nothing on the service hose.
fn takes(plant: &Plant, shop: &Shop, gas: Refrigerant) -> Result<(), Refused> {
    Blend::mixes(plant.network.gas(), gas)?;
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
