//! An equation of state: a fluid's coefficients and the properties that follow from them.

pub mod r12;
pub mod r1234yf;
pub mod r134a;

use crate::helmholtz::{
    GaussianTerm, IdealPart, IdealTerms, PowerTerm, ReducedResidual, reduced_residual,
};
use crate::saturation;

/// `value = reducing * f(sum n theta^t)`: a starting value for the saturation solver, never a result.
#[derive(Debug, Clone, Copy)]
pub struct StartingCurve {
    /// Pairs `(n, t)`, with `theta = 1 - T/Tc`.
    pub terms: &'static [(f64, f64)],
    /// Whether the exponent of the exponential form is multiplied by `Tc/T`.
    pub over_t: bool,
    /// `exp` of the sum (true) or 1 plus the sum (false).
    pub exponential: bool,
}

impl StartingCurve {
    /// The curve's value over its reducing value at `t_k`.
    pub fn ratio(&self, t_k: f64, t_crit: f64) -> f64 {
        let theta = (1.0 - t_k / t_crit).max(0.0);
        let sum: f64 = self
            .terms
            .iter()
            .map(|&(n, t)| n * libm::pow(theta, t))
            .sum();
        if self.exponential {
            libm::exp(if self.over_t { sum * t_crit / t_k } else { sum })
        } else {
            1.0 + sum
        }
    }
}

/// A fluid's published constants and terms.
#[derive(Debug, Clone, Copy)]
pub struct Coefficients {
    /// kg/mol.
    pub molar_mass: f64,
    /// Molar gas constant that the equation was fitted with, J/(mol K).
    pub gas_constant: f64,
    /// Reducing temperature, K.
    pub t_red: f64,
    /// Reducing density, mol/m3.
    pub rho_red: f64,
    /// Critical temperature, K.
    pub t_crit: f64,
    /// Critical pressure, Pa.
    pub p_crit: f64,
    /// Critical density, mol/m3.
    pub rho_crit: f64,
    /// Triple-point temperature, K.
    pub t_triple: f64,
    /// Highest temperature the authors state, K.
    pub t_max: f64,
    /// Highest pressure the authors state, Pa.
    pub p_max: f64,
    /// Ideal-gas part.
    pub ideal: IdealTerms,
    /// Residual polynomial and exponential terms.
    pub power: &'static [PowerTerm],
    /// Residual Gaussian terms.
    pub gaussian: &'static [GaussianTerm],
    /// Start of saturation pressure (over `p_crit`).
    pub start_p: StartingCurve,
    /// Start of the density of the saturated liquid (over `rho_crit`).
    pub start_rho_l: StartingCurve,
    /// Start of the density of the saturated vapour (over `rho_crit`).
    pub start_rho_g: StartingCurve,
}

/// A fluid's equation of state on the IIR reference state (h = 200 kJ/kg and s = 1 kJ/(kg K) for the
/// saturated liquid at 0 degC). All arguments and results in SI, per kilogram.
#[derive(Debug, Clone)]
pub struct Helmholtz {
    c: &'static Coefficients,
    ideal: IdealTerms,
    /// Specific gas constant, J/(kg K).
    r: f64,
    /// Reducing density, kg/m3.
    rho_red: f64,
}

/// Everything the equation says at one density and temperature. SI, per kilogram.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Properties {
    /// Temperature, K.
    pub t: f64,
    /// Density, kg/m3.
    pub rho: f64,
    /// Pressure, Pa.
    pub p: f64,
    /// Internal energy, J/kg.
    pub u: f64,
    /// Enthalpy, J/kg.
    pub h: f64,
    /// Entropy, J/(kg K).
    pub s: f64,
    /// Heat capacity at constant volume, J/(kg K).
    pub cv: f64,
    /// Heat capacity at constant pressure, J/(kg K); meaningless where `dp_drho` is not positive.
    pub cp: f64,
    /// Speed of sound, m/s; 0 where the state is unstable.
    pub w: f64,
    /// dp/dT at constant density, Pa/K.
    pub dp_dt: f64,
    /// dp/drho at constant temperature, Pa m3/kg.
    pub dp_drho: f64,
    /// du/drho at constant temperature, J m3/kg2.
    pub du_drho: f64,
}

impl Helmholtz {
    /// Builds the equation and shifts the zeros of energy and entropy to the IIR reference state.
    pub fn new(c: &'static Coefficients) -> Self {
        let mut eq = Self {
            c,
            ideal: c.ideal,
            r: c.gas_constant / c.molar_mass,
            rho_red: c.rho_red * c.molar_mass,
        };
        let t0 = 273.15;
        let sat = saturation::at_temperature_unchecked(&eq, t0);
        let liquid = eq.properties(sat.rho_l, t0);
        eq.ideal.a1 += (liquid.s - 1000.0) / eq.r;
        eq.ideal.a2 += (200e3 - liquid.h) / (eq.r * c.t_red);
        eq
    }

    /// The published constants and terms.
    pub fn coefficients(&self) -> &'static Coefficients {
        self.c
    }

    /// kg/mol.
    pub fn molar_mass(&self) -> f64 {
        self.c.molar_mass
    }

    /// Specific gas constant, J/(kg K).
    pub fn gas_constant(&self) -> f64 {
        self.r
    }

    /// Reducing density, kg/m3.
    pub fn rho_red(&self) -> f64 {
        self.rho_red
    }

    /// Reducing temperature, K.
    pub fn t_red(&self) -> f64 {
        self.c.t_red
    }

    /// Critical temperature as published, K.
    pub fn t_crit(&self) -> f64 {
        self.c.t_crit
    }

    /// Critical pressure as published, Pa.
    pub fn p_crit(&self) -> f64 {
        self.c.p_crit
    }

    /// Critical density as published, kg/m3.
    pub fn rho_crit(&self) -> f64 {
        self.c.rho_crit * self.c.molar_mass
    }

    /// Residual part over `delta`, at density `rho` and temperature `t`.
    pub fn reduced(&self, rho: f64, t: f64) -> ReducedResidual {
        reduced_residual(
            self.c.power,
            self.c.gaussian,
            rho / self.rho_red,
            self.c.t_red / t,
        )
    }

    /// Ideal-gas part without `ln delta`, at temperature `t`.
    pub fn ideal(&self, t: f64) -> IdealPart {
        self.ideal.evaluate(self.c.t_red / t)
    }

    /// Pressure in Pa and its derivative by density.
    pub fn pressure(&self, rho: f64, t: f64) -> (f64, f64) {
        let delta = rho / self.rho_red;
        let a = self.reduced(rho, t).expand(delta);
        let rt = self.r * t;
        (
            rho * rt * (1.0 + delta * a.a_d),
            rt * (1.0 + delta * (2.0 * a.a_d + delta * a.a_dd)),
        )
    }

    /// All properties at density `rho > 0` and temperature `t > 0`.
    ///
    /// Relations: Span (2000), table 3.9. The state is taken as one phase whatever its stability.
    pub fn properties(&self, rho: f64, t: f64) -> Properties {
        let (delta, tau) = (rho / self.rho_red, self.c.t_red / t);
        let (r, rt) = (self.r, self.r * t);
        let id = self.ideal.evaluate(tau);
        let a = self.reduced(rho, t).expand(delta);
        let z = 1.0 + delta * a.a_d;
        let p = rho * rt * z;
        let u = rt * tau * (id.a_t + a.a_t);
        let cv = -r * tau * tau * (id.a_tt + a.a_tt);
        let dp_dt = rho * r * (z - delta * tau * a.a_dt);
        let dp_drho = rt * (1.0 + delta * (2.0 * a.a_d + delta * a.a_dd));
        let cp = cv + t * (dp_dt / rho) * (dp_dt / rho) / dp_drho;
        Properties {
            t,
            rho,
            p,
            u,
            h: u + rt * z,
            s: r * (tau * (id.a_t + a.a_t) - id.a - libm::log(delta) - a.a),
            cv,
            cp,
            w: (dp_drho * cp / cv).max(0.0).sqrt(),
            dp_dt,
            dp_drho,
            du_drho: r * self.c.t_red * a.a_dt / self.rho_red,
        }
    }
}
