//! The law of a vacuum pump.

use serde::{Deserialize, Serialize};

use crate::flow::Rate;

/// A vacuum pump that turns. SI units.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Pump {
    /// Volume it sweeps, m3/s ("free air displacement").
    pub speed: f64,
    /// Pressure at which it draws no more, Pa.
    pub ultimate: f64,
}

impl Pump {
    /// Flow at an inlet pressure `p` (Pa) with gas of density `rho` (kg/m3): speed S0 (1 - p_ultimate/p), as for any rotary
    /// pump whose losses leak back at one rate (common practice in vacuum engineering; from memory). Below that pressure they are more than
    /// it draws, and air comes back, whose density per pascal is `air` (s2/m2): nothing at its inlet pulls the loop deeper for long.
    pub fn rate(&self, p: f64, rho: f64, air: f64) -> Rate {
        let per_pascal = if self.draws(p) { rho / p } else { air };
        // The density falls with the pressure, so that the flow is a straight line in it.
        let by_from = self.speed * per_pascal;
        Rate {
            flow: by_from * (p - self.ultimate),
            by_from,
            by_to: 0.0,
        }
    }

    /// More is drawn than leaks back at an inlet pressure `p` (Pa).
    pub fn draws(&self, p: f64) -> bool {
        p > self.ultimate
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// At its ultimate pressure of 4 Pa 3 cfm draw nothing; at half of that as much comes back as they sweep at 2 Pa: 1.416 L/s of air of
    /// 2 Pa and 20 degC, 33.6 ug/s (ideal gas, by hand).
    #[test]
    fn below_its_ultimate_pressure_air_comes_back() {
        let pump = Pump {
            speed: 1.416e-3,
            ultimate: 4.0,
        };
        let air = 1.0 / (287.055 * 293.15);
        let flow = |p: f64| pump.rate(p, p * air, air).flow;
        assert!(flow(4.0).abs() < 1e-15 && flow(8.0) > 0.0);
        assert!(
            (flow(2.0) / -33.6e-9 - 1.0).abs() < 0.01,
            "{} kg/s",
            flow(2.0)
        );
        // Whatever is at the inlet, it is air that comes back.
        assert!((pump.rate(2.0, 0.1, air).flow - flow(2.0)).abs() < 1e-15);
    }
}
