//! Metal around a volume: lines, accumulator, compressor body, hoses, cans.

use crate::{exchange::between, network::NodeId};

/// What a shell stands in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Around {
    /// Air under the hood, warmed by the engine.
    Hood,
    /// Air of the room.
    Room,
    /// A bath held at a temperature, K.
    Bath(f64),
}

/// A metal shell between a node and its surroundings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shell {
    /// The node inside.
    pub node: NodeId,
    /// Temperature, K.
    pub t: f64,
    /// Heat capacity, J/K.
    pub metal: f64,
    /// Conductance to the inside, W/K.
    pub inside: f64,
    /// Conductance to the surroundings, W/K.
    pub outside: f64,
    /// Surroundings.
    pub around: Around,
}

impl Shell {
    /// Passes heat for `dt` seconds to a node at `t` (K) with a heat capacity (J/K). Returns the heat into the node and the
    /// heat in from the surroundings at `t_around`, J.
    pub fn pass(&mut self, t: f64, capacity: f64, t_around: f64, dt: f64) -> (f64, f64) {
        let inward = between(self.inside, self.t, t, self.metal, capacity, dt);
        let from_out = between(
            self.outside,
            t_around,
            self.t,
            f64::MAX.sqrt(),
            self.metal,
            dt,
        );
        self.t += (from_out - inward) / self.metal;
        (inward, from_out)
    }
}
