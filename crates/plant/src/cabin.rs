//! Cabin: its air and interior, blower, ducts, recirculation, sun, and outside air that leaks in.

use serde::{Deserialize, Serialize};

use crate::{
    built::Built, evaporator::Air, exchange::effectiveness, state::CP_AIR, vehicle::CabinSpec,
};
use lowside_units::Quantity;

/// Air that drifts through the coil with the blower off, kg/s: about 10 W/K with what the box conducts (own figure).
const DRAUGHT: f64 = 0.012;
/// How much better the ducts' air passes heat at the highest step than their outside does: 26 W/(m2 K) by Dittus & Boelter (1930)
/// for 0.08 kg/s in a channel 0.1 m wide, against some 7 of still air, radiation and 2.5 mm of plastic (own estimate).
const DUCT_INSIDE: f64 = 3.6;

/// Conductance of the heater core, W/K (own figure: it heats a cabin with 6-8 kW in winter).
const HEATER: f64 = 150.0;

/// The heater core behind the coil, and the door in front of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heater {
    /// Coolant in it, K.
    pub coolant: f64,
    /// Share of the coil's air that gets by its shut door, 0 to 1.
    pub share: f64,
}

/// The day outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outside {
    /// Temperature, K.
    pub t: f64,
    /// Humidity ratio, kg/kg.
    pub w: f64,
    /// Pressure, Pa.
    pub p: f64,
    /// Sun, 0 (shade) to 1 (full).
    pub sun: f64,
}

/// Air and interior of the cabin.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Cabin {
    /// Cabin air.
    pub air: Air,
    /// Temperature of seats, trim and inner skin, K.
    pub interior: f64,
    /// Air at the centre vent, K and kg/kg.
    pub vent: Air,
    /// Air flow through the blower, kg/s.
    pub flow: f64,
    #[serde(skip)]
    spec: Built<CabinSpec>,
}

impl Cabin {
    /// A cabin with air and interior at `t` (K) and humidity ratio `w`.
    pub fn new(spec: &CabinSpec, t: f64, w: f64) -> Self {
        let air = Air { t, w };
        Self {
            air,
            interior: t,
            vent: air,
            flow: 0.0,
            spec: Built::new(spec.clone()),
        }
    }

    /// Gives a state that was read the sizes of a cabin that was built.
    pub(crate) fn put_with(&mut self, built: &Self) {
        self.spec = built.spec.clone();
    }

    /// Number of blower steps.
    pub fn blower_steps(&self) -> usize {
        self.spec.blower.len()
    }

    /// Sets the blower to a step (0 = off).
    pub fn set_blower(&mut self, step: usize) {
        self.flow = if step == 0 {
            DRAUGHT
        } else {
            self.spec.blower[step.min(self.spec.blower.len()) - 1].si()
        };
    }

    /// Outside air exchanged through leaks, and through windows and doors if they stand open, kg/s.
    fn exchange(&self, windows_open: bool) -> f64 {
        self.spec.leakage.si()
            + if windows_open {
                self.spec.window_exchange.si()
            } else {
                0.0
            }
    }

    /// Share of outside air in what the blower draws.
    fn fresh_share(&self, recirculate: bool) -> f64 {
        if recirculate {
            self.spec.recirculation_leak.si()
        } else {
            1.0
        }
    }

    /// Blower's flow as a share of its highest step's.
    fn of_top_flow(&self) -> f64 {
        self.flow / self.spec.blower.last().map_or(1.0, |s| s.si())
    }

    /// How far the ducts warm the coil's air on its way to the vents, as a share of the way to the outside temperature (0 to 1).
    ///
    /// Air inside passes heat with flow to the 0.8 (turbulent), in series with the ducts' outside, which knows no flow: on a low
    /// step less heat comes in, but into much less air.
    pub fn duct_share(&self) -> f64 {
        if self.flow <= DRAUGHT {
            return 0.0;
        }
        let inside = DUCT_INSIDE * libm::pow(self.of_top_flow(), 0.8);
        let of_top = inside / (1.0 + inside) * (1.0 + DUCT_INSIDE) / DUCT_INSIDE;
        effectiveness(self.spec.duct_conductance.si() * of_top, self.flow * CP_AIR)
    }

    /// Air that reaches the evaporator: the mix of cabin and outside, warmed by the blower.
    pub fn inlet(&self, outside: &Outside, recirculate: bool) -> Air {
        let f = self.fresh_share(recirculate);
        let t = self.air.t + f * (outside.t - self.air.t);
        let w = self.air.w + f * (outside.w - self.air.w);
        // Blower power goes with the cube of flow; all of it ends as heat in the air.
        let power = self.spec.blower_power.si() * self.of_top_flow().powi(3);
        let rise = if self.flow > 0.0 {
            power / (self.flow * CP_AIR)
        } else {
            0.0
        };
        Air { t: t + rise, w }
    }

    /// How far the heater core warms the coil's air in the mean, as a share of the way to the coolant (0 to 1).
    pub fn heater_share(&self, heater: &Heater) -> f64 {
        heater.share * effectiveness(HEATER, heater.share * self.flow * CP_AIR)
    }

    /// Advances the cabin by `dt` seconds with air from the coil, some of it by way of the heater core; returns the heat that core gave, W.
    pub fn advance(
        &mut self,
        coil: Air,
        heater: &Heater,
        outside: &Outside,
        windows_open: bool,
        dt: f64,
    ) -> f64 {
        let leak = self.exchange(windows_open);
        let mut heat = 0.0;
        let s = &self.spec;
        if self.flow <= DRAUGHT {
            self.vent = self.air;
        } else {
            let heated = self.heater_share(heater) * (heater.coolant - coil.t);
            heat = heated * self.flow * CP_AIR;
            let t = coil.t + heated;
            self.vent = Air {
                t: t + self.duct_share() * (outside.t - t),
                w: coil.w,
            };
        }
        let mass = 1.2 * s.volume.si();
        let c = mass * CP_AIR;
        // Fresh air drawn in by the blower pushes as much cabin air out; leakage exchanges on top.
        let supply = self.flow;
        let inside = s.interior_conductance.si();
        let body = s.body_conductance.si();
        let to_air = supply * CP_AIR * (self.vent.t - self.air.t)
            + leak * CP_AIR * (outside.t - self.air.t)
            + inside * (self.interior - self.air.t);
        let to_interior = inside * (self.air.t - self.interior)
            + body * (outside.t - self.interior)
            + outside.sun * s.full_sun.si();
        self.air.t += to_air * dt / c;
        self.interior += to_interior * dt / s.interior.si();
        self.air.w +=
            (supply * (self.vent.w - self.air.w) + leak * (outside.w - self.air.w)) * dt / mass;
        heat
    }
}
