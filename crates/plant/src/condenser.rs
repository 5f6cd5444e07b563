//! Condenser: what its walls take from the refrigerant and give to the air.

use crate::{
    exchange::{between, effectiveness},
    inside::Inside,
    louver::AirSide,
    network::Node,
    oil::coil_factor,
    state::CP_AIR,
    steam,
    stream::drift,
    vehicle::CondenserSpec,
};
use lowside_fluids::Gas;
use lowside_units::Quantity;

/// Number of cells along the refrigerant's way.
pub const CELLS: usize = 6;
/// Air temperature for which the air side is tabled, K; 20 K more or less change it by 1 %.
const AIR_AT: f64 = 318.15;

/// How air at the film hinders condensing: UA falls to 1 / (1 + this times its share of the pressure) (own closure; tuned, 4-8 by
/// our own judgement: what the first grams do to the head).
const AIR_HINDERS: f64 = 5.2;

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
    air: AirSide,
    inside: Inside,
    flow_area: f64,
    surface: f64,
}

impl Condenser {
    /// From now on there is another gas in its tubes.
    pub fn change_gas(&mut self, gas: Gas, spec: &CondenserSpec) {
        self.inside = Inside::new(gas, spec.tubes.bore.si());
    }

    /// A condenser for `gas` at temperature `t` (K).
    pub fn new(spec: &CondenserSpec, gas: Gas, t: f64) -> Self {
        let n = CELLS as f64;
        Self {
            wall: [t; CELLS],
            duty: 0.0,
            oil: 0.0,
            metal: spec.metal.si() / n,
            air: AirSide::new(&spec.fins.fins(), spec.tubes.metres(), AIR_AT),
            inside: Inside::new(gas, spec.tubes.bore.si()),
            flow_area: spec.tubes.flow_area(),
            surface: spec.tubes.surface() / n,
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
        let flux = flow.abs() / self.flow_area;
        let powers = self.inside.flux(flux);
        let air_c = air_flow * CP_AIR;
        let per_kelvin = effectiveness(self.air.at(air_flow), air_c) * air_c / CELLS as f64;
        let oiled = coil_factor(self.oil);
        let mut to_air = 0.0;
        for ((node, wall), q) in cells.iter().zip(&mut self.wall).zip(heat) {
            let s = &node.state;
            let void = s.void_fraction();
            let x = 1.0 - drift(void, 1.0 / s.rho_liq, 1.0 / s.rho_gas, flux);
            let h = self
                .inside
                .condenser_cell(&powers, s.t, s.quality(), x, void);
            // Air gathers at the film and hinders the vapour on its way there.
            let ua = oiled * h * self.surface / (1.0 + AIR_HINDERS * s.p_air / s.p.max(1.0))
                + steam::touching(s, &node.content);
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
