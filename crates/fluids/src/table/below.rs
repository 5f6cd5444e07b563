//! The saturation line colder than the table, where a system under a vacuum pump can boil its last liquid.

use super::saturation::SatPoint;
use crate::eos::{Helmholtz, Properties};

/// What continues the line below its cold end: heat of vaporisation as in the Clausius-Clapeyron equation of
/// an ideal gas, vapour with the virial coefficients and the heat capacity of the cold end, as the vapour
/// table has it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Below {
    /// The cold end, K.
    t: f64,
    /// `-d ln p/d(1/T)`, K.
    rate: f64,
    r: f64,
    /// Second virial coefficient, m3/kg, and that of energy, J m3/kg2.
    b: f64,
    c: f64,
    /// Ideal-gas heat capacity at constant volume, J/(kg K).
    cv0: f64,
}

impl Below {
    /// From the saturated vapour at the cold end and the slope of the line there.
    pub(super) fn new(eq: &Helmholtz, g: &Properties, dp_dt: f64) -> Self {
        let r = eq.gas_constant();
        let tau = eq.t_red() / g.t;
        let ideal = eq.ideal(g.t);
        Self {
            t: g.t,
            rate: dp_dt / g.p * g.t * g.t,
            r,
            b: (g.p / (g.rho * r * g.t) - 1.0) / g.rho,
            c: (g.u - r * g.t * tau * ideal.a_t) / g.rho,
            cv0: -r * tau * tau * ideal.a_tt,
        }
    }

    /// Moves pressure and vapour of `point`, which is the cold end, down to temperature `t`.
    pub(super) fn vapour(&self, t: f64, point: &mut SatPoint) {
        let rho_cold = point.rho_g;
        point.p *= libm::exp(-self.rate * (1.0 / t - 1.0 / self.t));
        point.dp_dt = point.p * self.rate / (t * t);
        // The thin root of p = rho R T (1 + rho b).
        let rt = self.r * t;
        let ideal = point.p / rt;
        point.rho_g = 2.0 * ideal / (1.0 + (1.0 + 4.0 * self.b * ideal).max(0.0).sqrt());
        let rb = point.rho_g * self.b;
        point.drho_g = (point.dp_dt - point.rho_g * self.r * (1.0 + rb)) / (rt * (1.0 + 2.0 * rb));
        point.u_g += self.cv0 * (t - self.t) + self.c * (point.rho_g - rho_cold);
        point.du_g = self.cv0 + self.c * point.drho_g;
    }

    /// Temperature at which the pressure is `ratio` of that at the cold end.
    pub(super) fn temperature(&self, ratio: f64) -> f64 {
        1.0 / (1.0 / self.t - libm::log(ratio) / self.rate)
    }
}
