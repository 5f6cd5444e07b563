//! Condenser: what its walls take from the refrigerant and give to the air.
//!
//! A cell's content is the mean of its length, its middle: along it the flow's quality falls in a straight line, by what its wall
//! takes. What leaves is drier or wetter than the mean by half of that ([`crate::stream::Offtake::Condensing`]). Where the line
//! comes to zero ahead of the cell's end, the rest is flooded: liquid there is cooled on by its own stretch of the wall. It is on its
//! way out, and that cooling is taken from the next volume, the liquid line after the last cell, so that liquid leaves colder than
//! a cell that still holds vapour. So subcooling answers to the liquid in the last cell, and ends where vapour comes through.

use serde::{Deserialize, Serialize};

use crate::{
    built::Built,
    exchange::{effectiveness, hold},
    inside::Inside,
    louver::AirSide,
    network::{Heat, Node},
    puddles,
    state::CP_AIR,
    stream::{LEAST_FLUX, drift, half_length},
    vehicle::CondenserSpec,
};
use lowside_fluids::Refrigerant;
use lowside_units::Quantity;

/// Number of cells along the refrigerant's way.
pub const CELLS: usize = 6;
/// Air temperature for which the air side is tabled, K; 20 K more or less change it by 1 %.
const AIR_AT: f64 = 318.15;

/// How air at the film hinders condensing: UA falls to 1 / (1 + this times its share of the pressure) (own closure; tuned, 4-8 by
/// our own judgement: what the first grams do to the head).
const AIR_HINDERS: f64 = 5.2;

/// Wall temperatures and sizes of a condenser.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Condenser {
    /// Temperature of each cell's wall, K.
    pub wall: [f64; CELLS],
    /// Heat that each cell's wall would take were no part of the cell flooded, in the last step, W.
    pub condensing: [f64; CELLS],
    /// Share of each cell's length that is flooded.
    pub flooded: [f64; CELLS],
    /// Heat that each cell's flooded end took from the next volume in the last step, J.
    pub beyond: [f64; CELLS],
    /// Heat given to the air in the last tick, W.
    pub duty: f64,
    /// How each wall touches its cell and the volume after it in the step.
    #[serde(skip)]
    touches: [[Touch; 2]; CELLS],
    #[serde(skip)]
    sizes: Built<Sizes>,
}

/// A wall against a volume within a step.
#[derive(Debug, Clone, Copy, Default)]
struct Touch {
    /// What passes for each kelvin, J/K.
    hold: f64,
    /// Temperature of the wall there, K.
    t: f64,
}

impl Touch {
    /// Heat that the wall takes from a volume at `t` (K), J.
    fn takes(self, t: f64) -> f64 {
        self.hold * (t - self.t)
    }
}

/// What the data sheet and the gas make of a condenser.
#[derive(Debug, Clone)]
struct Sizes {
    /// Heat capacity of a cell's wall, J/K.
    metal: f64,
    air: AirSide,
    inside: Inside,
    flow_area: f64,
    /// Of a cell, m2.
    surface: f64,
}

impl Sizes {
    fn new(spec: &CondenserSpec, gas: Refrigerant) -> Self {
        let n = CELLS as f64;
        Self {
            metal: spec.metal.si() / n,
            air: AirSide::new(&spec.fins.fins(), spec.tubes.metres(), AIR_AT),
            inside: Inside::new(gas, spec.tubes.bore.si()),
            flow_area: spec.tubes.flow_area(),
            surface: spec.tubes.surface() / n,
        }
    }
}

impl Condenser {
    /// From now on there is another gas in its tubes.
    pub fn change_gas(&mut self, gas: Refrigerant, spec: &CondenserSpec) {
        self.sizes = Built::new(Sizes::new(spec, gas));
    }

    /// A condenser for `gas` at temperature `t` (K).
    pub fn new(spec: &CondenserSpec, gas: Refrigerant, t: f64) -> Self {
        Self {
            wall: [t; CELLS],
            condensing: [0.0; CELLS],
            flooded: [0.0; CELLS],
            beyond: [0.0; CELLS],
            duty: 0.0,
            touches: Default::default(),
            sizes: Built::new(Sizes::new(spec, gas)),
        }
    }

    /// Gives a state that was read the sizes of a condenser that was built.
    pub(crate) fn put_with(&mut self, built: &Self) {
        self.sizes = built.sizes.clone();
    }

    /// Energy stored in the walls above 0 K, J.
    pub fn energy(&self) -> f64 {
        self.wall.iter().map(|t| t * self.sizes.metal).sum()
    }

    /// Passes heat for `dt` seconds from the walls to air at `air_t` (K) flowing at `air_flow` (kg/s), and adds to `heat` what the walls
    /// will give the refrigerant: of the cells and of `next`, the volume after them. `flow` is the refrigerant flow (kg/s). Returns the
    /// heat given to the air, J; [`settle`](Self::settle) the walls once the refrigerant has taken its heat.
    #[expect(clippy::too_many_arguments, reason = "two streams, one wall, one time")]
    pub fn pass(
        &mut self,
        cells: [&Node; CELLS],
        next: &Node,
        flow: f64,
        air_flow: f64,
        air_t: f64,
        dt: f64,
        heat: &mut [Heat; CELLS + 1],
    ) -> f64 {
        let flux = flow.abs() / self.sizes.flow_area;
        let moving = flux.max(LEAST_FLUX) * self.sizes.flow_area;
        let powers = self.sizes.inside.flux(flux);
        let air_c = air_flow * CP_AIR;
        let per_kelvin = effectiveness(self.sizes.air.at(air_flow), air_c) * air_c / CELLS as f64;
        let mut to_air = 0.0;
        for (k, node) in cells.iter().enumerate() {
            let next = &cells.get(k + 1).unwrap_or(&next).state;
            let s = &node.state;
            let void = s.void_fraction();
            let x = 1.0 - drift(void, 1.0 / s.rho_liq, 1.0 / s.rho_gas, flux);
            let h =
                self.sizes
                    .inside
                    .condenser_cell(&powers, s.t, s.quality(), x, void, node.oil.oily);
            // Air gathers at the film and hinders the vapour on its way there.
            let ua = h * self.sizes.surface / (1.0 + AIR_HINDERS * s.p_air / s.p.max(1.0));
            let ua = puddles::touching(node, ua);
            // Conductance to liquid, were there nothing else in the cell. Liquid heats its stretch of the wall less than vapour does its
            // own: they settle so far apart, about the mean.
            let inside = &self.sizes.inside;
            let flooded_end = || {
                let ua_liquid = node.oil.oily * inside.liquid(&powers, next.t) * self.sizes.surface;
                let settled = |ua: f64, t: f64| (ua * t + per_kelvin * air_t) / (ua + per_kelvin);
                let apart = settled(ua, s.t) - settled(ua_liquid, next.t);
                (ua_liquid, apart)
            };
            let wall = self.wall[k];
            let before = self.flooded[k];
            let was = (before > 0.0).then(&flooded_end);
            let condensing = ua * (s.t - wall - before * was.map_or(0.0, |(_, apart)| apart));
            let flooded = if s.m_liq > 0.0 {
                flooded(x, half_length(condensing, s.h_gas - s.h_liq, moving))
            } else {
                0.0
            };
            let (ua_liquid, apart) = if flooded > 0.0 {
                was.unwrap_or_else(flooded_end)
            } else {
                (0.0, 0.0)
            };
            let metal = self.sizes.metal;
            let own = Touch {
                hold: hold((1.0 - flooded) * ua, s.capacity_towards(wall), metal, dt),
                t: wall + flooded * apart,
            };
            let beyond = Touch {
                hold: hold(flooded * ua_liquid, next.heat_capacity, metal, dt),
                t: wall - (1.0 - flooded) * apart,
            };
            heat[k].touch(own.hold, own.t);
            heat[k + 1].touch(beyond.hold, beyond.t);
            self.touches[k] = [own, beyond];
            let given = per_kelvin * (wall - air_t) * dt;
            self.wall[k] -= given / metal;
            (self.condensing[k], self.flooded[k]) = (condensing, flooded);
            to_air += given;
        }
        self.duty = to_air / dt;
        to_air
    }

    /// Gives the walls what the refrigerant gave them in the step, `t` being the temperatures at which it did: of each cell and of the
    /// volume after them, K.
    pub fn settle(&mut self, t: [f64; CELLS + 1]) {
        for (k, [own, beyond]) in self.touches.iter().enumerate() {
            self.beyond[k] = beyond.takes(t[k + 1]);
            self.wall[k] += (own.takes(t[k]) + self.beyond[k]) / self.sizes.metal;
        }
    }
}

/// Quality that counts as none: it rounds off where neither vapour is left nor the wall cools (own figure, 0.0005-0.003).
const NONE: f64 = 1e-3;

/// Share of a cell's length that is flooded, where its mean content flows at quality `x` and `half` would condense over half its
/// length. Quality falls to zero over the share `1 - f`, and its mean over all is half times (1 - f)^2.
fn flooded(x: f64, half: f64) -> f64 {
    if half <= x {
        return 0.0;
    }
    1.0 - ((x + NONE) / (half + NONE)).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A straight line from 2 half (1 - f) to zero over the share 1 - f has the mean half (1 - f)^2 over the whole.
    #[test]
    fn the_flooded_share_has_the_mean_it_came_from() {
        let half = 0.08;
        for f in [0.1, 0.4, 0.8] {
            let x = half * (1.0_f64 - f).powi(2);
            assert!(
                (flooded(x, half) - f).abs() < 0.03,
                "{f}: {}",
                flooded(x, half)
            );
        }
        assert!(flooded(half, half).abs() < 1e-12 && flooded(0.5, half).abs() < 1e-12);
        assert!(
            flooded(0.1, -0.2).abs() < 1e-12,
            "a hot wall floods nothing"
        );
    }
}
