//! Evaporator: a wet or frosted coil between the cabin air and the boiling refrigerant.
//!
//! Air-side heat and moisture by the enthalpy potential with a Lewis number of one: the same effectiveness carries
//! temperature to that of the surface and humidity to saturation there. The air divides over the cells, as in a plate coil.
//! Below 0 degC the water stays as frost, whose surface is warmer than the wall; it melts to condensate.

use serde::{Deserialize, Serialize};

use crate::{
    built::Built,
    exchange::{effectiveness, hold},
    frost::{Bed, T_FREEZE, air_left},
    inside::Inside,
    louver::AirSide,
    network::{Heat, Node},
    puddles,
    state::CP_AIR,
    stream::{drift, smooth},
    vehicle::EvaporatorSpec,
};
use lowside_fluids::{Refrigerant, moist_air, moisture::FUSION};
use lowside_units::Quantity;

/// Number of cells along the refrigerant's way.
pub const CELLS: usize = 5;
/// Latent heat of water condensing near the coil's temperature, J/kg (IAPWS, 5 degC).
pub const LATENT: f64 = 2.489e6;
/// Flowing quality from which the wall dries out (tuned, 0.8-0.95).
const DRY_FROM: f64 = 0.94;
/// Air temperature for which the air side is tabled, K.
const AIR_AT: f64 = 288.15;
/// Conductance between a cell's wall and the water on it while that freezes, or frost while it melts there, W/K (own figure).
const CHANGING: f64 = 60.0;
/// Specific gas constant of water vapour, J/(kg K).
const R_WATER: f64 = 461.5;

/// Air entering or leaving a coil.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
pub struct Air {
    /// Temperature, K.
    pub t: f64,
    /// Humidity ratio, kg/kg.
    pub w: f64,
}

/// Walls, held water, frost and sizes of an evaporator.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Evaporator {
    /// Temperature of each cell's wall, K.
    pub wall: [f64; CELLS],
    /// Frost on each cell, kg.
    pub frost: [f64; CELLS],
    /// Heat flux into the refrigerant of each cell in the last step, W/m2: bubbles go by it.
    pub boiling: [f64; CELLS],
    /// Water clinging to the fins, kg.
    pub held: f64,
    /// Water that has dripped off, kg.
    pub drained: f64,
    /// Heat taken from the air in the last tick, W, sensible and latent.
    pub duty: f64,
    /// How each wall touches its cell in the step: what passes for each kelvin, J/K, and the wall's temperature, K.
    #[serde(skip)]
    touches: [(f64, f64); CELLS],
    #[serde(skip)]
    sizes: Built<Sizes>,
}

/// What the data sheet and the gas make of an evaporator.
#[derive(Debug, Clone)]
struct Sizes {
    /// Heat capacity of a cell's wall, J/K.
    metal: f64,
    air: AirSide,
    inside: Inside,
    flow_area: f64,
    /// Of a cell, m2.
    surface: f64,
    bed: Bed,
    /// Most water that clings to the fins, kg.
    most_held: f64,
}

impl Sizes {
    fn new(spec: &EvaporatorSpec, gas: Refrigerant) -> Self {
        let n = CELLS as f64;
        let (fins, metres) = (spec.fins.fins(), spec.tubes.metres());
        let (finned, bare) = fins.area_per_tube();
        Self {
            metal: spec.metal.si() / n,
            air: AirSide::new(&fins, metres, AIR_AT),
            inside: Inside::new(gas, spec.tubes.bore.si()),
            flow_area: spec.tubes.flow_area(),
            surface: spec.tubes.surface() / n,
            bed: Bed {
                area: (finned + bare) * metres / n,
                gap: fins.pitch - fins.thickness,
            },
            most_held: spec.held_water.si(),
        }
    }
}

/// What the air brings to one cell in a step.
struct Taken {
    /// Temperature the air loses, K.
    dt: f64,
    /// Humidity it loses, kg/kg.
    dw: f64,
    /// Heat, J: sensible, and latent of condensing.
    heat: f64,
}

impl Evaporator {
    /// From now on there is another gas in its plates.
    pub fn change_gas(&mut self, gas: Refrigerant, spec: &EvaporatorSpec) {
        self.sizes = Built::new(Sizes::new(spec, gas));
    }

    /// An evaporator for `gas` at temperature `t` (K), dry.
    pub fn new(spec: &EvaporatorSpec, gas: Refrigerant, t: f64) -> Self {
        Self {
            wall: [t; CELLS],
            frost: [0.0; CELLS],
            boiling: [0.0; CELLS],
            held: 0.0,
            drained: 0.0,
            duty: 0.0,
            touches: Default::default(),
            sizes: Built::new(Sizes::new(spec, gas)),
        }
    }

    /// Gives a state that was read the sizes of an evaporator that was built.
    pub(crate) fn put_with(&mut self, built: &Self) {
        self.sizes = built.sizes.clone();
    }

    /// Energy stored in the walls above 0 K, J, less what the frost gave off in freezing.
    pub fn energy(&self) -> f64 {
        self.wall.iter().map(|t| t * self.sizes.metal).sum::<f64>() - self.iced() * FUSION
    }

    /// Heat capacity of one cell's wall, J/K.
    pub fn metal(&self) -> f64 {
        self.sizes.metal
    }

    /// Frost on the coil, kg.
    pub fn iced(&self) -> f64 {
        self.frost.iter().sum()
    }

    /// Heat that each cell's wall gave the refrigerant in the last step, W.
    pub fn given(&self) -> [f64; CELLS] {
        self.boiling.map(|flux| flux * self.sizes.surface)
    }

    /// Share of each cell's fin gap that frost leaves free, 0 to 1.
    pub fn gaps(&self) -> [f64; CELLS] {
        self.frost.map(|mass| self.sizes.bed.open(mass))
    }

    /// Share of a clean coil's air flow that passes the frost, 0 to 1.
    pub fn air_share(&self) -> f64 {
        if self.iced() <= 0.0 {
            return 1.0;
        }
        let open: f64 = self.frost.iter().map(|m| self.sizes.bed.open(*m)).sum();
        air_left(open / CELLS as f64)
    }

    /// Passes heat for `dt` seconds from air (flow kg/s, state, pressure Pa) to the walls, and adds to
    /// `heat` what they will give the refrigerant; `flow` is the refrigerant flow. Returns the air that leaves and the heat taken from it,
    /// J; [`settle`](Self::settle) the walls once the refrigerant has taken its heat.
    #[expect(clippy::too_many_arguments, reason = "two streams, one wall, one time")]
    pub fn pass(
        &mut self,
        cells: [&Node; CELLS],
        flow: f64,
        air_flow: f64,
        air: Air,
        p: f64,
        dt: f64,
        heat: &mut [Heat; CELLS],
    ) -> (Air, f64) {
        let flux = flow.abs() / self.sizes.flow_area;
        let powers = self.sizes.inside.boiling_flux(flux);
        let n = CELLS as f64;
        let bed = self.sizes.bed;
        let frosted = self.iced() > 0.0;
        let even = 1.0 / n;
        let eps_even = self.effectiveness(air_flow * even);
        let open: f64 = if frosted {
            self.frost.iter().map(|m| bed.open(*m)).sum()
        } else {
            n
        };
        let mut out = Air::default();
        let mut from_air = 0.0;
        for (i, (node, q)) in cells.iter().zip(heat).enumerate() {
            // Cells with more frost get less of the air.
            let (part, eps) = if frosted {
                let part = bed.open(self.frost[i]) / open;
                (part, self.effectiveness(air_flow * part))
            } else {
                (even, eps_even)
            };
            let share = air_flow * part;
            let (taken, ice) = self.take(i, share, eps, air, p, dt);
            let s = &node.state;
            // Without a molecule of refrigerant there is no drift to ask for.
            let x = if s.m_liq > 0.0 {
                1.0 - drift(s.void_fraction(), 1.0 / s.rho_liq, 1.0 / s.rho_gas, flux)
            } else {
                1.0
            };
            let h = self.sizes.inside.evaporator_cell(
                &powers,
                s.t,
                x,
                DRY_FROM,
                self.boiling[i],
                node.oil.oily,
            );
            let wall = &mut self.wall[i];
            let metal = self.sizes.metal;
            let ua = puddles::touching(node, h * self.sizes.surface);
            let k = hold(ua, s.capacity_towards(*wall), metal, dt);
            q.touch(k, *wall);
            self.touches[i] = (k, *wall);
            *wall += (taken.heat + ice * FUSION) / metal;
            from_air += taken.heat;
            out.t += (air.t - taken.dt) * part;
            out.w += (air.w - taken.dw) * part;
        }
        if self.held > self.sizes.most_held {
            self.drained += self.held - self.sizes.most_held;
            self.held = self.sizes.most_held;
        }
        self.held = self.held.max(0.0);
        self.duty = from_air / dt;
        (out, from_air)
    }

    /// Takes from the walls what they gave the refrigerant in a step of `dt` seconds, `t` being the temperatures at which it took it, K.
    pub fn settle(&mut self, t: [f64; CELLS], dt: f64) {
        for (i, (k, wall)) in self.touches.into_iter().enumerate() {
            let given = k * (wall - t[i]);
            self.wall[i] -= given / self.sizes.metal;
            self.boiling[i] = (given / (dt * self.sizes.surface)).max(0.0);
        }
    }

    /// Effectiveness of one cell to a flow of air (kg/s).
    fn effectiveness(&self, share: f64) -> f64 {
        let n = CELLS as f64;
        effectiveness(self.sizes.air.at(share * n) / n, share * CP_AIR)
    }

    /// What a flow of air leaves on cell `i`; moves its water and frost, and gives the kilograms that froze (melted: negative).
    fn take(&mut self, i: usize, share: f64, eps: f64, air: Air, p: f64, dt: f64) -> (Taken, f64) {
        let wall = self.wall[i];
        let before = self.frost[i];
        if before <= 0.0 && wall >= T_FREEZE {
            let taken = self.surface_takes(None, share, eps, air, wall, p, dt);
            self.held += share * taken.dw * dt;
            return (taken, 0.0);
        }
        let r = self.sizes.bed.resistance(before);
        let mut surface = wall;
        if before > 0.0 {
            // The frost's surface stands where what the air brings is what passes through: one step of Newton's from the wall.
            let w = moist_air::w_sat(wall, p);
            let q = share * eps * (CP_AIR * (air.t - wall) + LATENT * (air.w - w));
            let slope = share * eps * (CP_AIR + LATENT * w * LATENT / (R_WATER * wall * wall));
            surface = wall + r * q / (1.0 + r * slope);
        }
        let melting = before > 0.0 && (surface > T_FREEZE || wall > T_FREEZE);
        if melting {
            surface = T_FREEZE;
        }
        let cold = surface < T_FREEZE;
        let taken = self.surface_takes(cold.then_some(before), share, eps, air, surface, p, dt);
        let water = share * taken.dw * dt;
        if cold {
            self.frost[i] += water;
        } else {
            self.held += water;
        }
        if melting {
            let k = CHANGING.min(1.0 / r.max(1e-9));
            let from_wall = k * (wall - T_FREEZE) * dt / (1.0 + k * dt / self.sizes.metal);
            let melted = ((taken.heat + from_wall) / FUSION).clamp(0.0, self.frost[i]);
            self.frost[i] -= melted;
            self.held += melted;
        } else if wall < T_FREEZE {
            let ready = self.held / CELLS as f64;
            let by_cold =
                CHANGING * (T_FREEZE - wall) * dt / (1.0 + CHANGING * dt / self.sizes.metal);
            let frozen = (by_cold / FUSION).min(ready);
            self.frost[i] += frozen;
            self.held -= frozen;
        }
        (taken, self.frost[i] - before)
    }

    /// Air against a surface: `frost` kg of it, or with none the held water, is there to be given back to drier air.
    #[expect(clippy::too_many_arguments, reason = "air, surface, time")]
    fn surface_takes(
        &self,
        frost: Option<f64>,
        share: f64,
        eps: f64,
        air: Air,
        surface: f64,
        p: f64,
        dt: f64,
    ) -> Taken {
        // A dry fin takes water only from air moister than itself; a wet or frosted one also gives it back.
        let fall = air.w - moist_air::w_sat(surface, p);
        let dw = if fall > 0.0 {
            eps * fall
        } else {
            let n = CELLS as f64;
            let (there, full) = frost.map_or((self.held / n, self.sizes.most_held / n), |m| {
                (m, self.sizes.most_held / n)
            });
            let wet = smooth(there / (0.1 * full));
            (eps * fall * wet).max(-0.5 * there / (share * dt).max(1e-9))
        };
        let dt_air = eps * (air.t - surface);
        Taken {
            dt: dt_air,
            dw,
            heat: share * (CP_AIR * dt_air + dw * LATENT) * dt,
        }
    }
}
