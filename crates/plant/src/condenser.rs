//! Condenser: what its walls take from the refrigerant and give to the air.

use crate::{
    exchange::{between, effectiveness},
    network::Node,
    oil::coil_factor,
    state::CP_AIR,
    stream::smooth,
    vehicle::{CondenserSpec, RATED_FLOW},
};
use lowside_units::Quantity;

/// Number of cells along the refrigerant's way.
pub const CELLS: usize = 6;
/// Conductance of superheated vapour over that of condensing refrigerant (Shah 1979 against Gnielinski, 55 degC, 2 mm tube).
const VAPOUR_SHARE: f64 = 0.22;
/// Conductance of subcooled liquid over that of condensing refrigerant (as above).
const LIQUID_SHARE: f64 = 0.25;
/// Least flow factor: free convection and drainage at rest.
const STILL: f64 = 0.25;

/// Wall temperatures and sizes of a condenser.
#[derive(Debug, Clone)]
pub struct Condenser {
    /// Temperature of each cell's wall, K.
    pub wall: [f64; CELLS],
    /// Heat given to the air in the last tick, W.
    pub duty: f64,
    /// Oil share of the flow through it.
    pub oil: f64,
    metal: f64,
    air_ua: f64,
    air_rated: f64,
    refrigerant_ua: f64,
}

impl Condenser {
    /// A condenser at temperature `t` (K).
    pub fn new(spec: &CondenserSpec, t: f64) -> Self {
        let n = CELLS as f64;
        Self {
            wall: [t; CELLS],
            duty: 0.0,
            oil: 0.0,
            metal: spec.metal.si() / n,
            air_ua: spec.air_conductance.si() / n,
            air_rated: spec.air_flow.si(),
            refrigerant_ua: spec.refrigerant_conductance.si() / n,
        }
    }

    /// Energy stored in the walls above 0 K, J.
    pub fn energy(&self) -> f64 {
        self.wall.iter().map(|t| t * self.metal).sum()
    }

    /// Passes heat for `dt` seconds: refrigerant to wall into `heat` (J per cell), wall to air at `air_t` (K) flowing at
    /// `air_flow` (kg/s). `flow` is the refrigerant flow (kg/s). Returns the heat given to the air, J.
    pub fn pass(
        &mut self,
        cells: &[Node],
        flow: f64,
        air_flow: f64,
        air_t: f64,
        dt: f64,
        heat: &mut [f64],
    ) -> f64 {
        let drive =
            libm::pow((flow.abs() / RATED_FLOW).max(1e-6), 0.8).max(STILL) * coil_factor(self.oil);
        let air_ua = self.air_ua * (air_flow / self.air_rated).max(0.0).sqrt();
        let air_c = air_flow / CELLS as f64 * CP_AIR;
        let per_kelvin = effectiveness(air_ua, air_c) * air_c;
        let mut to_air = 0.0;
        for ((node, wall), q) in cells.iter().zip(&mut self.wall).zip(heat) {
            let s = &node.state;
            let ua = self.refrigerant_ua * drive * phase_share(node)
                / (1.0 + 6.0 * s.p_air / s.p.max(1.0));
            let taken = between(ua, s.t, *wall, s.heat_capacity, self.metal, dt);
            let given = per_kelvin * (*wall - air_t) * dt;
            *wall += (taken - given) / self.metal;
            *q -= taken;
            to_air += given;
        }
        self.duty = to_air / dt;
        to_air
    }
}

/// Conductance of a cell's refrigerant over that of condensing refrigerant, by the phases it holds.
fn phase_share(node: &Node) -> f64 {
    let s = &node.state;
    let wet = smooth((1.0 - s.quality()) / 0.05);
    let open = smooth(s.void_fraction() / 0.05);
    (VAPOUR_SHARE + (1.0 - VAPOUR_SHARE) * wet) * (LIQUID_SHARE + (1.0 - LIQUID_SHARE) * open)
}
