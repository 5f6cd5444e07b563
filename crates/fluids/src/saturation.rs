//! Liquid and vapour in equilibrium, from the equation of state itself.
//!
//! At given temperature the two densities follow from equal pressure and equal Gibbs energy, solved by
//! Newton's method in both reduced densities: Akasaka, *A reliable and useful method to determine the
//! saturation state from Helmholtz energy equations of state*, J. Thermal Sci. Technol. 3 (2008) 442. The
//! published correlation of the line starts it; near the critical point, where that start is poor, the line
//! is followed from a colder temperature instead.

use crate::eos::{Helmholtz, Properties};
use thiserror::Error;

/// How near to the critical temperature the solver goes, K.
pub const CRITICAL_MARGIN: f64 = 0.05;

/// Why there is no saturation state.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum SaturationError {
    /// The temperature is outside the saturation line.
    #[error("saturation temperature {value} K is outside {low} to {high} K")]
    Temperature {
        /// What was asked for, K.
        value: f64,
        /// Triple point, K.
        low: f64,
        /// Just below the critical point, K.
        high: f64,
    },
    /// The pressure is outside the saturation line.
    #[error("saturation pressure {value} Pa is outside {low} to {high} Pa")]
    Pressure {
        /// What was asked for, Pa.
        value: f64,
        /// At the triple point, Pa.
        low: f64,
        /// Just below the critical point, Pa.
        high: f64,
    },
}

/// A point of the saturation line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Equilibrium {
    /// Temperature, K.
    pub t: f64,
    /// Pressure, Pa.
    pub p: f64,
    /// Density of the saturated liquid, kg/m3.
    pub rho_l: f64,
    /// Density of the saturated vapour, kg/m3.
    pub rho_g: f64,
}

impl Equilibrium {
    /// Properties of the saturated liquid and of the saturated vapour.
    pub fn phases(&self, eq: &Helmholtz) -> (Properties, Properties) {
        (
            eq.properties(self.rho_l, self.t),
            eq.properties(self.rho_g, self.t),
        )
    }
}

/// Lowest and highest temperature of the saturation solver, K.
pub fn temperature_range(eq: &Helmholtz) -> (f64, f64) {
    let c = eq.coefficients();
    (c.t_triple, c.t_crit - CRITICAL_MARGIN)
}

/// The equilibrium at temperature `t`, K.
///
/// # Errors
/// When `t` is not between the triple point and [`CRITICAL_MARGIN`] below the critical point.
pub fn at_temperature(eq: &Helmholtz, t: f64) -> Result<Equilibrium, SaturationError> {
    let (low, high) = temperature_range(eq);
    if t >= low && t <= high {
        Ok(at_temperature_unchecked(eq, t))
    } else {
        Err(SaturationError::Temperature {
            value: t,
            low,
            high,
        })
    }
}

/// The equilibrium at pressure `p`, Pa: Newton in ln p over 1/T with the Clausius-Clapeyron slope.
///
/// # Errors
/// When `p` is not between the pressures at the ends of [`temperature_range`].
pub fn at_pressure(eq: &Helmholtz, p: f64) -> Result<Equilibrium, SaturationError> {
    let (t_low, t_high) = temperature_range(eq);
    let low = at_temperature_unchecked(eq, t_low).p;
    let high = at_temperature_unchecked(eq, t_high).p;
    if !(p >= low && p <= high) {
        return Err(SaturationError::Pressure {
            value: p,
            low,
            high,
        });
    }
    let (mut below, mut above) = (t_low, t_high);
    let mut t = starting_temperature(eq, p, t_low, t_high);
    let mut sat = at_temperature_unchecked(eq, t);
    for _ in 0..60 {
        if sat.p > p {
            above = t;
        } else {
            below = t;
        }
        let (l, g) = sat.phases(eq);
        let slope = (g.s - l.s) / (1.0 / g.rho - 1.0 / l.rho);
        // d ln p / d(1/T) = -T^2 p' / p is nearly constant along the line.
        let inverse = 1.0 / t - libm::log(p / sat.p) * sat.p / (slope * t * t);
        let next = 1.0 / inverse;
        let next = if next > below && next < above {
            next
        } else {
            0.5 * (below + above)
        };
        let step = (next - t).abs();
        t = next;
        sat = at_temperature_unchecked(eq, t);
        if step < 1e-11 * t {
            break;
        }
    }
    Ok(sat)
}

fn starting_temperature(eq: &Helmholtz, p: f64, low: f64, high: f64) -> f64 {
    let c = eq.coefficients();
    let (mut a, mut b) = (low, high);
    for _ in 0..12 {
        let m = 0.5 * (a + b);
        if c.start_p.ratio(m, c.t_crit) * c.p_crit > p {
            b = m;
        } else {
            a = m;
        }
    }
    0.5 * (a + b)
}

/// As [`at_temperature`], for a temperature known to be in range.
pub(crate) fn at_temperature_unchecked(eq: &Helmholtz, t: f64) -> Equilibrium {
    let c = eq.coefficients();
    // Below this the published starting curves are good enough for Newton's method.
    let safe = 0.98 * c.t_crit;
    if t <= safe {
        let (l, g) = eq.start_densities(t);
        return newton(eq, t, l, g).unwrap_or(Equilibrium {
            t,
            p: f64::NAN,
            rho_l: l,
            rho_g: g,
        });
    }
    let (l, g) = eq.start_densities(safe);
    follow(eq, safe, l, g, t)
}

/// Follows the line from `from` to `to`, taking densities as linear in `sqrt(Tc - T)`, the classical
/// critical exponent that every analytic equation of state has.
fn follow(eq: &Helmholtz, from: f64, rho_l: f64, rho_g: f64, to: f64) -> Equilibrium {
    let bad = |t| Equilibrium {
        t,
        p: f64::NAN,
        rho_l,
        rho_g,
    };
    let Some(mut here) = newton(eq, from, rho_l, rho_g) else {
        return bad(to);
    };
    let t_crit = eq.t_crit();
    let mut previous: Option<Equilibrium> = None;
    let mut shrink = 0.5;
    for _ in 0..200 {
        if here.t >= to {
            break;
        }
        let t = (t_crit - (t_crit - here.t) * shrink).min(to);
        let x = |t: f64| (t_crit - t).max(0.0).sqrt();
        let (l, g) = if let Some(q) = previous {
            let f = (x(t) - x(here.t)) / (x(here.t) - x(q.t));
            (
                here.rho_l + f * (here.rho_l - q.rho_l),
                here.rho_g + f * (here.rho_g - q.rho_g),
            )
        } else {
            let f = x(t) / x(here.t);
            let mid = 0.5 * (here.rho_l + here.rho_g);
            (mid + f * (here.rho_l - mid), mid + f * (here.rho_g - mid))
        };
        match newton(eq, t, l, g) {
            Some(found) => {
                previous = Some(here);
                here = found;
            }
            None if shrink < 0.99 => shrink = 0.5 + 0.5 * shrink,
            None => return bad(to),
        }
    }
    here
}

/// Newton's method of Akasaka (2008), eqs. 14 to 17, with steps held to where both phases stay apart.
pub(crate) fn newton(eq: &Helmholtz, t: f64, rho_l: f64, rho_g: f64) -> Option<Equilibrium> {
    let red = eq.rho_red();
    let (mut dl, mut dg) = (rho_l / red, rho_g / red);
    for iteration in 0..100 {
        let l = eq.reduced(dl * red, t).expand(dl);
        let g = eq.reduced(dg * red, t).expand(dg);
        // Pressure over rho_red R T, and Gibbs energy over R T up to a function of T.
        let (jl, jg) = (dl * (1.0 + dl * l.a_d), dg * (1.0 + dg * g.a_d));
        let dj = jl - jg;
        let dk = (dl * l.a_d + l.a) - (dg * g.a_d + g.a) + libm::log(dl / dg);
        let jdl = 1.0 + dl * (2.0 * l.a_d + dl * l.a_dd);
        let jdg = 1.0 + dg * (2.0 * g.a_d + dg * g.a_dd);
        let (kdl, kdg) = (jdl / dl, jdg / dg);
        // Solve [jdl -jdg; kdl -kdg] step = -[dj; dk].
        let det = -jdl * kdg + jdg * kdl;
        let (step_l, step_g) = ((dj * kdg - dk * jdg) / det, (dj * kdl - dk * jdl) / det);
        if !(step_l.is_finite() && step_g.is_finite()) {
            return None;
        }
        let mut f: f64 = 1.0;
        let gap = dl - dg;
        let closing = step_g - step_l;
        if closing > 0.5 * gap {
            f = f.min(0.5 * gap / closing);
        }
        if step_g < -0.6 * dg {
            f = f.min(-0.6 * dg / step_g);
        }
        if step_l.abs() > 0.2 * dl {
            f = f.min(0.2 * dl / step_l.abs());
        }
        dl += f * step_l;
        dg += f * step_g;
        let done = step_l.abs() < 1e-13 * dl && step_g.abs() < 1e-13 * dg;
        let close = step_l.abs() < 1e-10 * dl && step_g.abs() < 1e-10 * dg && iteration > 12;
        if done || close {
            let ok = dl > dg * (1.0 + 1e-6) && jdl > 0.0 && jdg > 0.0;
            // The vapour's pressure carries no cancellation.
            let p = eq.pressure(dg * red, t).0;
            return ok.then_some(Equilibrium {
                t,
                p,
                rho_l: dl * red,
                rho_g: dg * red,
            });
        }
    }
    None
}
