//! An equation of state: a fluid's coefficients and the properties that follow from them.
//!
//! A mixture of one composition ([`crate::blend`]) is an equation too: the sum of its components' parts.

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
    /// Constants of the whole; for a mixture the term lists are its first component's, and `parts` is what counts.
    c: Coefficients,
    parts: Vec<Part>,
    /// Specific gas constant, J/(kg K).
    r: f64,
    /// Reducing density, kg/m3.
    rho_red: f64,
}

/// A component's contribution to the reduced Helmholtz energy.
#[derive(Debug, Clone, Copy)]
struct Part {
    c: &'static Coefficients,
    /// Ideal-gas terms, shifted to the IIR reference state.
    ideal: IdealTerms,
    /// Mole share.
    share: f64,
    /// Its own `tau` over the whole's.
    tau: f64,
    /// What `alpha0` gains over the pure component's: ln of its `delta` over the whole's, and ln of its share.
    mixing: f64,
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
            c: *c,
            parts: vec![Part {
                c,
                ideal: c.ideal,
                share: 1.0,
                tau: 1.0,
                mixing: 0.0,
            }],
            r: c.gas_constant / c.molar_mass,
            rho_red: c.rho_red * c.molar_mass,
        };
        let t0 = 273.15;
        let sat = saturation::at_temperature_unchecked(&eq, t0);
        let liquid = eq.properties(sat.rho_l, t0);
        let ideal = &mut eq.parts[0].ideal;
        ideal.a1 += (liquid.s - 1000.0) / eq.r;
        ideal.a2 += (200e3 - liquid.h) / (eq.r * c.t_red);
        eq
    }

    /// Puts two pure equations together at the mole share `share` of the second, above 0 and below 1, with reducing
    /// temperature `t_red` (K) and reducing density `rho_red` (mol/m3) of the mixture: Kunz & Wagner (2012), equations 7 to 11,
    /// without a departure function. Energy and entropy count from the components' own zeros.
    pub(crate) fn mixture(
        first: &Self,
        second: &Self,
        share: f64,
        t_red: f64,
        rho_red: f64,
    ) -> Self {
        let (a, b) = (&first.c, &second.c);
        let mean = |x: f64, y: f64| (1.0 - share) * x + share * y;
        let part = |eq: &Self, share: f64| Part {
            share,
            tau: eq.c.t_red / t_red,
            mixing: libm::log(rho_red / eq.c.rho_red) + libm::log(share),
            ..eq.parts[0]
        };
        let molar_mass = mean(a.molar_mass, b.molar_mass);
        let gas_constant = mean(a.gas_constant, b.gas_constant);
        let mut eq = Self {
            c: Coefficients {
                molar_mass,
                gas_constant,
                t_red,
                rho_red,
                t_crit: t_red,
                rho_crit: rho_red,
                t_triple: a.t_triple.max(b.t_triple),
                t_max: a.t_max.min(b.t_max),
                p_max: a.p_max.min(b.p_max),
                ..*a
            },
            parts: vec![part(first, 1.0 - share), part(second, share)],
            r: gas_constant / molar_mass,
            rho_red: rho_red * molar_mass,
        };
        let (t, rho) = eq.inflection();
        eq.c.t_crit = t;
        eq.c.rho_crit = rho / molar_mass;
        eq.c.p_crit = eq.pressure(rho, t).0;
        eq
    }

    /// Where an isotherm has its horizontal inflection (temperature K, density kg/m3): a mixture held at one composition goes
    /// critical there.
    fn inflection(&self) -> (f64, f64) {
        // Least slope dp/drho of the isotherm, by Newton's method on difference quotients.
        let least = |t: f64, mut rho: f64| {
            let h = 2e-3 * rho;
            for _ in 0..12 {
                let g = |d: f64| self.pressure(rho + d, t).1;
                let (low, mid, high) = (g(-h), g(0.0), g(h));
                let step = 0.5 * h * (low - high) / (low - 2.0 * mid + high);
                rho += step.clamp(-0.1 * rho, 0.1 * rho);
                if step.abs() < 1e-7 * rho {
                    break;
                }
            }
            (rho, self.pressure(rho, t).1)
        };
        let mut t = self.c.t_red;
        let (mut rho, mut slope) = least(t, self.rho_red);
        let mut other = 1.001 * t;
        let (_, mut other_slope) = least(other, rho);
        for _ in 0..12 {
            let next = t - slope * (other - t) / (other_slope - slope);
            (other, other_slope) = (t, slope);
            t = next;
            (rho, slope) = least(t, rho);
            if (t - other).abs() < 1e-6 {
                break;
            }
        }
        (t, rho)
    }

    /// Densities of saturated liquid and vapour at `t` from which the saturation solver may start, kg/m3.
    pub(crate) fn start_densities(&self, t: f64) -> (f64, f64) {
        let c = &self.c;
        let sum = |of: fn(&Coefficients) -> &StartingCurve| -> f64 {
            let ratio = |p: &Part| p.share * of(p.c).ratio(t, c.t_crit);
            self.parts.iter().map(ratio).sum()
        };
        (
            sum(|c| &c.start_rho_l) * self.rho_crit(),
            sum(|c| &c.start_rho_g) * self.rho_crit(),
        )
    }

    /// The published constants and terms.
    pub fn coefficients(&self) -> &Coefficients {
        &self.c
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
        let (delta, tau) = (rho / self.rho_red, self.c.t_red / t);
        let mut sum = ReducedResidual::default();
        for part in &self.parts {
            let one = reduced_residual(part.c.power, part.c.gaussian, delta, tau);
            sum.add(&one, part.share);
        }
        sum
    }

    /// Ideal-gas part without `ln delta`, at temperature `t`.
    pub fn ideal(&self, t: f64) -> IdealPart {
        let tau = self.c.t_red / t;
        let mut sum = IdealPart {
            a: 0.0,
            a_t: 0.0,
            a_tt: 0.0,
        };
        for p in &self.parts {
            let one = p.ideal.evaluate(tau * p.tau);
            sum.a += p.share * (one.a + p.mixing);
            sum.a_t += p.share * p.tau * one.a_t;
            sum.a_tt += p.share * p.tau * p.tau * one.a_tt;
        }
        sum
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
        let id = self.ideal(t);
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
