//! Dry nitrogen behind a pressure regulator. In the books it counts as dry air: it behaves the same.

use lowside_plant::{
    network::NodeId,
    plant::Plant,
    species::{AIR, Content},
    state::R_AIR,
};
use serde::{Deserialize, Serialize};

/// Space behind the regulator that feeds the hose, m3 (own figure: enough to give without the pressure sinking within a tick).
pub const VOLUME: f64 = 2e-3;
/// Highest pressure the regulator's relief lets through, Pa gauge: 150 psi, the trade's limit for the low side (from memory).
pub const MOST: f64 = 1.0342e6;
/// Heat capacity of the regulator's body, J/K (brass, about 1.3 kg).
pub const METAL: f64 = 500.0;

/// The nitrogen bottle with its regulator on the service hose.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Nitrogen {
    /// What the regulator is set to, Pa gauge.
    pub set: f64,
    /// Its outlet valve is open.
    pub open: bool,
}

/// What the space behind the regulator holds at its setting, at temperature `t` (K).
pub fn full(set: f64, p_room: f64, t: f64) -> Content {
    let mut c = Content::default();
    c[AIR] = (set + p_room) * VOLUME / (R_AIR * t);
    c
}

/// Lets the bottle make up what has left the space behind the regulator; returns what it gave, kg.
pub fn make_up(plant: &mut Plant, vessel: NodeId, set: f64) -> Content {
    let node = plant.network.node(vessel);
    let wanted = full(set, plant.day().p, node.state.t);
    let mut gives = Content::default();
    gives[AIR] = (wanted[AIR] - node.content[AIR]).max(0.0);
    if gives[AIR] > 0.0 {
        plant.network.inject(vessel, &gives);
    }
    gives
}
