//! Evaporator: a wet coil between the cabin air and the boiling refrigerant.
//!
//! Air-side heat and moisture by the enthalpy potential with a Lewis number of one: the same effectiveness carries
//! temperature to that of the wall and humidity to saturation there. The air divides over the cells, as in a plate coil.

use crate::{
    exchange::{between, effectiveness},
    network::Node,
    oil::coil_factor,
    state::CP_AIR,
    stream::smooth,
    vehicle::{EvaporatorSpec, RATED_FLOW},
};
use lowside_fluids::moist_air;
use lowside_units::Quantity;

/// Number of cells along the refrigerant's way.
pub const CELLS: usize = 5;
/// Latent heat of water condensing near the coil's temperature, J/kg (IAPWS, 5 degC).
pub const LATENT: f64 = 2.489e6;
/// Conductance of vapour over that of boiling refrigerant: dry-out (Gungor & Winterton 1986 against Gnielinski, 5 degC, 6 mm).
const VAPOUR_SHARE: f64 = 0.10;
/// Least flow factor: pool boiling at rest.
const STILL: f64 = 0.3;

/// Air entering or leaving a coil.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Air {
    /// Temperature, K.
    pub t: f64,
    /// Humidity ratio, kg/kg.
    pub w: f64,
}

/// Walls, held water and sizes of an evaporator.
#[derive(Debug, Clone)]
pub struct Evaporator {
    /// Temperature of each cell's wall, K.
    pub wall: [f64; CELLS],
    /// Water clinging to the fins, kg.
    pub held: f64,
    /// Water that has dripped off, kg.
    pub drained: f64,
    /// Heat taken from the air in the last tick, W, sensible and latent.
    pub duty: f64,
    /// Oil share of the flow through it.
    pub oil: f64,
    metal: f64,
    air_ua: f64,
    air_rated: f64,
    refrigerant_ua: f64,
    most_held: f64,
}

impl Evaporator {
    /// An evaporator at temperature `t` (K), dry.
    pub fn new(spec: &EvaporatorSpec, t: f64) -> Self {
        let n = CELLS as f64;
        Self {
            wall: [t; CELLS],
            held: 0.0,
            drained: 0.0,
            duty: 0.0,
            oil: 0.0,
            metal: spec.metal.si() / n,
            air_ua: spec.air_conductance.si() / n,
            air_rated: spec.air_flow.si(),
            refrigerant_ua: spec.refrigerant_conductance.si() / n,
            most_held: spec.held_water.si(),
        }
    }

    /// Energy stored in the walls above 0 K, J.
    pub fn energy(&self) -> f64 {
        self.wall.iter().map(|t| t * self.metal).sum()
    }

    /// Passes heat for `dt` seconds from air (flow kg/s, state, pressure Pa) to the walls and on to the refrigerant, into
    /// `heat` (J per cell); `flow` is the refrigerant flow. Returns the air that leaves and the heat taken from it, J.
    #[expect(clippy::too_many_arguments, reason = "two streams, one wall, one time")]
    pub fn pass(
        &mut self,
        cells: &[Node],
        flow: f64,
        air_flow: f64,
        air: Air,
        p: f64,
        dt: f64,
        heat: &mut [f64],
    ) -> (Air, f64) {
        let drive =
            libm::pow((flow.abs() / RATED_FLOW).max(1e-6), 0.6).max(STILL) * coil_factor(self.oil);
        let share = air_flow / CELLS as f64;
        let ua = self.air_ua * (air_flow / self.air_rated).max(0.0).sqrt();
        let eps = effectiveness(ua, share * CP_AIR);
        let mut out = Air::default();
        let mut from_air = 0.0;
        let mut water = 0.0;
        for ((node, wall), q) in cells.iter().zip(&mut self.wall).zip(heat) {
            let w_wall = moist_air::w_sat(*wall, p);
            // A dry fin takes water only from air moister than itself; a wet one also gives it back.
            let fall = air.w - w_wall;
            let dw = if fall > 0.0 {
                eps * fall
            } else {
                let wet = smooth(self.held / (0.1 * self.most_held));
                (eps * fall * wet).max(-0.5 * self.held / (air_flow * dt).max(1e-9))
            };
            let dt_air = eps * (air.t - *wall);
            let q_air = share * (CP_AIR * dt_air + dw * LATENT) * dt;
            let s = &node.state;
            let wet = smooth((1.0 - s.quality()) / 0.08);
            let inside = self.refrigerant_ua * drive * (VAPOUR_SHARE + (1.0 - VAPOUR_SHARE) * wet);
            let given = between(inside, *wall, s.t, self.metal, s.heat_capacity, dt);
            *wall += (q_air - given) / self.metal;
            *q += given;
            from_air += q_air;
            water += share * dw * dt;
            out.t += (air.t - dt_air) / CELLS as f64;
            out.w += (air.w - dw) / CELLS as f64;
        }
        self.held += water;
        if self.held > self.most_held {
            self.drained += self.held - self.most_held;
            self.held = self.most_held;
        }
        self.held = self.held.max(0.0);
        self.duty = from_air / dt;
        (out, from_air)
    }
}
