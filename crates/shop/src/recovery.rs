//! The recovery machine at hand: its switch, its cylinder, the oil it separates.

use lowside_fluids::Refrigerant;
use lowside_plant::{
    network::{Law, NodeId},
    plant::Plant,
    species::{Content, DISSOLVED, OIL, REFRIGERANT},
    transfer::Transfer,
};
use serde::{Deserialize, Serialize};

use crate::cylinder::{self, Stored};

/// Gauge pressure at which a machine stops itself unless set otherwise, Pa: 20 inHg below the atmosphere (common practice 10-20
/// inHg for machines of SAE J2788, 4 inHg for those before).
pub const STOPS_AT: f64 = -67_728.0;
/// Swept volume a second of a running machine, m3/s (tuned so that a machine which stops at 4 inHg leaves behind what the summary
/// of SAE J2762 says; plausible 0.7e-4 to 2.1e-4: 0.1 to 0.3 kg/min of vapour at room temperature).
const SWEEP: f64 = 2.1e-4;
/// Condenser outlet above the room, K (own figure, plausible 5-15).
const APPROACH: f64 = 8.0;
/// Time for which the inlet has to stay down before the machine stops, s (own figure).
const HELD_DOWN: f64 = 3.0;
/// Most refrigerant the cylinder may have at the start, kg: just under its limit for any gas here.
pub const MOST_BEFORE: f64 = 10.0;

/// The machine on the service hose.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct RecoveryMachine {
    /// It runs.
    pub running: bool,
    /// It stops itself when its inlet comes down to this, Pa gauge.
    pub stops_at: f64,
    /// How long the inlet has been down at that, s.
    pub down: f64,
}

/// What stays with the machine whether it hangs on the hose or not.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Station {
    /// The gas it is kept for.
    pub gas: Refrigerant,
    /// The cylinder while the machine is put aside.
    pub away: Stored,
    /// What the cylinder held when it came, kg.
    pub at_start: f64,
    /// Oil in the separator, kg.
    pub separator: f64,
}

impl Station {
    /// A machine for `gas` with an empty cylinder at temperature `t` (K).
    pub fn new(gas: Refrigerant, t: f64) -> Self {
        Self {
            gas,
            away: Stored {
                content: Content::default(),
                r12: 0.0,
                t,
            },
            at_start: 0.0,
            separator: 0.0,
        }
    }
}

/// Why a running machine stopped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stop {
    /// Its inlet is down to the set vacuum.
    Vacuum,
    /// Its cylinder is at the filling limit.
    Full,
}

/// Law of the machine's link.
pub fn law(running: bool, room_t: f64) -> Law {
    if running {
        Law::Transfer(Transfer {
            sweep: SWEEP,
            t_out: room_t + APPROACH,
        })
    } else {
        Law::Passage(0.0)
    }
}

/// The separator keeps the oil that came with the gas (all of it: a simplification, recycled gas may keep 500 mg/kg by SAE J2099).
pub fn separate(plant: &mut Plant, cylinder: NodeId, station: &mut Station) {
    let held = plant.network.node(cylinder).content;
    if held[OIL] > 0.0 {
        // The warm separator boils out what was dissolved in it, in one go: so its R-12, if there is any, stays where it is.
        let mut change = Content::refrigerant(held[DISSOLVED]);
        change[OIL] = -held[OIL];
        change[DISSOLVED] = -held[DISSOLVED];
        plant.network.inject(cylinder, &change);
        station.separator += held[OIL];
    }
}

/// Does a running machine have to stop now?
pub fn stop(
    plant: &Plant,
    machine: &mut RecoveryMachine,
    hose: NodeId,
    vessel: NodeId,
    dt: f64,
) -> Option<Stop> {
    let low = plant.network.node(hose).state.p - plant.day().p <= machine.stops_at;
    machine.down = if low { machine.down + dt } else { 0.0 };
    if plant.network.node(vessel).content.whole()[REFRIGERANT]
        >= cylinder::limit(plant.network.table())
    {
        Some(Stop::Full)
    } else if machine.down >= HELD_DOWN {
        Some(Stop::Vacuum)
    } else {
        None
    }
}
