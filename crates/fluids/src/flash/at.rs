//! The state at given density and temperature, quality and temperature, or pressure and temperature.

use super::root::bracketed;
use super::{FlashPhase, FullState, Quantity};
use crate::eos::{Helmholtz, Properties};
use crate::saturation::{self, Equilibrium};

/// Thinnest density considered, kg/m3: some micropascals.
pub(super) const RHO_LOW: f64 = 1e-9;

pub(super) struct Solver {
    pub(super) eq: &'static Helmholtz,
    pub(super) t_low: f64,
    pub(super) t_high: f64,
    pub(super) p_high: f64,
    /// Warm end of the saturation solver.
    pub(super) t_line: f64,
    /// Saturation at the two ends.
    pub(super) cold: Equilibrium,
    pub(super) warm: Equilibrium,
}

pub(super) fn of(f: &Properties, quantity: Quantity) -> f64 {
    match quantity {
        Quantity::Temperature => f.t,
        Quantity::Pressure => f.p,
        Quantity::Enthalpy => f.h,
        Quantity::Entropy => f.s,
        Quantity::Density => f.rho,
        Quantity::Quality => f64::NAN,
    }
}

/// A quantity of a mixture of share `q` of vapour.
pub(super) fn mixed(l: &Properties, g: &Properties, quantity: Quantity, q: f64) -> f64 {
    if quantity == Quantity::Density {
        1.0 / ((1.0 - q) / l.rho + q / g.rho)
    } else {
        (1.0 - q) * of(l, quantity) + q * of(g, quantity)
    }
}

impl Solver {
    pub(super) fn new(eq: &'static Helmholtz) -> Self {
        let c = eq.coefficients();
        let (t_low, t_line) = saturation::temperature_range(eq);
        Self {
            eq,
            t_low,
            t_high: c.t_max,
            p_high: c.p_max,
            t_line,
            cold: saturation::at_temperature_unchecked(eq, t_low),
            warm: saturation::at_temperature_unchecked(eq, t_line),
        }
    }

    pub(super) fn single(&self, rho: f64, t: f64, q: Option<f64>) -> FullState {
        let f = self.eq.properties(rho, t);
        let (t_crit, p_crit) = (self.eq.t_crit(), self.eq.p_crit());
        let phase = if t >= t_crit {
            if f.p >= p_crit {
                FlashPhase::Supercritical
            } else {
                FlashPhase::Vapour
            }
        } else if rho > self.eq.rho_crit() {
            FlashPhase::Liquid
        } else {
            FlashPhase::Vapour
        };
        FullState {
            t,
            p: f.p,
            rho,
            h: f.h,
            s: f.s,
            u: f.u,
            q,
            cp: Some(f.cp),
            cv: Some(f.cv),
            w: Some(f.w),
            phase,
        }
    }

    pub(super) fn mixture(&self, sat: &Equilibrium, q: f64) -> FullState {
        if q <= 0.0 {
            return FullState {
                p: sat.p,
                ..self.single(sat.rho_l, sat.t, Some(0.0))
            };
        }
        if q >= 1.0 {
            return FullState {
                p: sat.p,
                ..self.single(sat.rho_g, sat.t, Some(1.0))
            };
        }
        let (l, g) = sat.phases(self.eq);
        FullState {
            t: sat.t,
            p: sat.p,
            rho: mixed(&l, &g, Quantity::Density, q),
            h: mixed(&l, &g, Quantity::Enthalpy, q),
            s: mixed(&l, &g, Quantity::Entropy, q),
            u: (1.0 - q) * l.u + q * g.u,
            q: Some(q),
            cp: None,
            cv: None,
            w: None,
            phase: FlashPhase::TwoPhase,
        }
    }

    pub(super) fn line(&self, t: f64) -> Option<Equilibrium> {
        (t <= self.t_line).then(|| saturation::at_temperature_unchecked(self.eq, t))
    }

    /// At density and temperature, one or two phases.
    pub(super) fn at(&self, rho: f64, t: f64) -> FullState {
        match self.line(t) {
            Some(sat) if rho >= sat.rho_g && rho <= sat.rho_l => {
                let q = (1.0 / rho - 1.0 / sat.rho_l) / (1.0 / sat.rho_g - 1.0 / sat.rho_l);
                self.mixture(&sat, q)
            }
            _ => self.single(rho, t, None),
        }
    }

    /// Density of one phase at `t` and `p`; between `low` and `high` when the pressure lies between theirs.
    pub(super) fn density(&self, t: f64, p: f64, low: f64, high: f64) -> f64 {
        // In the logarithm, so that a vacuum and a liquid are equally well resolved.
        let f = |x: f64| self.eq.pressure(libm::exp(x), t).0 / p - 1.0;
        let (a, b) = (libm::log(low), libm::log(high));
        let near = bracketed(f, a, b).map_or(if f(a) > 0.0 { low } else { high }, libm::exp);
        // Newton polishes away the rounding of the logarithm.
        let (q, slope) = self.eq.pressure(near, t);
        let step = (p - q) / slope;
        if step.abs() < 1e-6 * near {
            near + step
        } else {
            near
        }
    }

    pub(super) fn densest(&self) -> f64 {
        self.cold.rho_l * 1.15
    }

    /// One phase at `t` and `p`: the liquid or vapour asked for, whatever there is beyond the line.
    pub(super) fn single_at(
        &self,
        t: f64,
        p: f64,
        liquid: impl Fn(&Equilibrium) -> bool,
    ) -> FullState {
        let rho = match self.line(t) {
            Some(sat) if liquid(&sat) => self.density(t, p, sat.rho_l, self.densest()),
            Some(sat) => self.density(t, p, RHO_LOW, sat.rho_g),
            None => self.density(t, p, RHO_LOW, self.densest()),
        };
        self.single(rho, t, None)
    }
}
