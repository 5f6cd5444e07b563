//! Acts on the vacuum pump and the recovery machine.

use lowside_fluids::Refrigerant;
use lowside_plant::{plant::Plant, species::REFRIGERANT};
use lowside_shop::{
    Attached, Shop, cylinder,
    recovery::{MOST_BEFORE, RecoveryMachine},
    vacuum::{self, PumpOil, VacuumPump},
};
use lowside_units::{GaugePressure, Mass, Quantity, VolumeFlow};
use serde::{Deserialize, Serialize};

use super::{Refused, vessel::mates};
use crate::limits::within;

/// An act on the vacuum pump or the recovery machine.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum MachineAct {
    /// Screw the vacuum pump onto the service hose at rest, its isolation valve shut; what hangs there is put aside.
    TakePump {
        /// Free-air displacement, 1.5 to 8 cfm.
        speed: VolumeFlow,
    },
    /// Start or stop the vacuum pump.
    Pump {
        /// True to start it.
        on: bool,
    },
    /// Open or shut the isolation valve at the pump.
    Isolation {
        /// True to open it.
        on: bool,
    },
    /// Open or shut the gas ballast of the pump.
    Ballast {
        /// True to open it.
        on: bool,
    },
    /// Change the pump's oil.
    PumpOil,
    /// Connect the recovery machine with its cylinder, switched off; what hangs on the hose is put aside.
    #[serde(rename = "take-machine")]
    TakeRecoveryMachine {
        /// The gas it is kept for; its fitting mates with no other gas's hose.
        gas: Refrigerant,
    },
    /// Start or stop the recovery machine.
    #[serde(rename = "machine")]
    RecoveryMachine {
        /// True to start it.
        on: bool,
    },
    /// Set the vacuum at which the recovery machine stops itself.
    #[serde(rename = "machine-stop")]
    RecoveryStop {
        /// -90 to -5 kPa gauge.
        pressure: GaugePressure,
    },
    /// Give the recovery machine another cylinder; the one before is put on the shelf.
    ChangeCylinder {
        /// What it holds already, 0 to 10 kg.
        holds: Mass,
    },
}

impl MachineAct {
    /// Does the act, or refuses and changes nothing.
    pub(super) fn apply(self, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
        match self {
            Self::TakePump { speed } => {
                let (least, most) = vacuum::SPEEDS;
                let (least, most) = (VolumeFlow::from_si(least), VolumeFlow::from_si(most));
                let speed = within("cfm", "speed", speed, least, most)?.si();
                at_rest(shop)?;
                shop.take_pump(plant, speed);
            }
            Self::Pump { on } => pump(shop)?.on = on,
            Self::Isolation { on } => pump(shop)?.valve_open = on,
            Self::Ballast { on } => pump(shop)?.ballast = on,
            Self::PumpOil => {
                pump(shop)?;
                at_rest(shop)?;
                shop.pump_oil = PumpOil::default();
            }
            Self::TakeRecoveryMachine { gas } => {
                at_rest(shop)?;
                mates(shop, gas)?;
                shop.take_machine(plant, gas)?;
            }
            Self::RecoveryMachine { on } => {
                let held = plant.network.node(shop.manifold.can).content.whole()[REFRIGERANT];
                let machine = recovery(shop)?;
                if on && held >= cylinder::limit(plant.network.table()) {
                    return Err(Refused::CylinderFull);
                }
                machine.running = on;
                machine.down = 0.0;
            }
            Self::RecoveryStop { pressure } => {
                let (least, most) = (
                    GaugePressure::from_kpa(-90.0),
                    GaugePressure::from_kpa(-5.0),
                );
                let stops_at = within("kPag", "pressure", pressure, least, most)?.si();
                recovery(shop)?.stops_at = stops_at;
            }
            Self::ChangeCylinder { holds } => {
                let (least, most) = (Mass::from_g(0.0), Mass::from_kg(MOST_BEFORE));
                let holds = within("kg", "holds", holds, least, most)?.si();
                shop.change_cylinder(plant, holds)?;
            }
        }
        Ok(())
    }
}

fn pump(shop: &mut Shop) -> Result<&mut VacuumPump, Refused> {
    match &mut shop.hands.attached {
        Attached::Pump(p) => Ok(p),
        _ => Err(Refused::NoPump),
    }
}

fn recovery(shop: &mut Shop) -> Result<&mut RecoveryMachine, Refused> {
    match &mut shop.hands.attached {
        Attached::Machine(m) => Ok(m),
        _ => Err(Refused::NoMachine),
    }
}

/// A pump that turns is not taken off, nor its oil changed.
pub(super) fn at_rest(shop: &Shop) -> Result<(), Refused> {
    match shop.hands.attached {
        Attached::Pump(p) if p.on => Err(Refused::PumpRuns),
        _ => Ok(()),
    }
}
