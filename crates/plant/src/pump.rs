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
    /// pump whose losses leak back at one rate (common practice in vacuum engineering; from memory).
    pub fn rate(&self, p: f64, rho: f64) -> Rate {
        if p <= self.ultimate {
            return Rate::default();
        }
        // The density falls with the pressure, so that the flow is a straight line in it.
        let by_from = self.speed * rho / p;
        Rate {
            flow: by_from * (p - self.ultimate),
            by_from,
            by_to: 0.0,
        }
    }
}
