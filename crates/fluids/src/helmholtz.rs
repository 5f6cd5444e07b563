//! The Helmholtz energy as a sum of terms, and its derivatives.
//!
//! A multiparameter equation of state gives the reduced Helmholtz energy
//! `alpha = a/(R T) = alpha0(delta, tau) + alphar(delta, tau)` with `delta = rho/rho_red` and
//! `tau = T_red/T` (Span, *Multiparameter Equations of State*, 2000, ch. 3). Every other property follows
//! from derivatives.
//!
//! The residual part is summed as `A = alphar/delta`. All published terms carry at least one factor of
//! `delta`, so `A` and its derivatives stay finite at zero density: the virial limit needs no special case
//! and nothing cancels in a deep vacuum.

/// `n delta^d tau^t exp(-delta^l)`; without the exponential when `l` is 0.
#[derive(Debug, Clone, Copy)]
pub struct PowerTerm {
    /// Coefficient.
    pub n: f64,
    /// Exponent of `tau`.
    pub t: f64,
    /// Exponent of `delta`, 1 to 16.
    pub d: u8,
    /// Exponent inside the exponential, 0 to 4.
    pub l: u8,
}

/// `n delta^d tau^t exp(-eta (delta - epsilon)^2 - beta (tau - gamma)^2)`.
#[derive(Debug, Clone, Copy)]
pub struct GaussianTerm {
    /// Coefficient.
    pub n: f64,
    /// Exponent of `tau`.
    pub t: f64,
    /// Exponent of `delta`, at least 1.
    pub d: u8,
    /// Width in `delta`.
    pub eta: f64,
    /// Centre in `delta`.
    pub epsilon: f64,
    /// Width in `tau`.
    pub beta: f64,
    /// Centre in `tau`.
    pub gamma: f64,
}

/// The ideal-gas part without its `ln delta`:
/// `a1 + a2 tau + a_log ln tau + sum n tau^t + sum n ln(1 - exp(-t tau))`.
#[derive(Debug, Clone, Copy)]
pub struct IdealTerms {
    /// Constant; fixes the zero of entropy.
    pub a1: f64,
    /// Factor of `tau`; fixes the zero of energy.
    pub a2: f64,
    /// Factor of `ln tau`.
    pub log_tau: f64,
    /// Pairs `(n, t)` of `n tau^t`.
    pub powers: &'static [(f64, f64)],
    /// Pairs `(n, t)` of `n ln(1 - exp(-t tau))`, the Planck-Einstein terms.
    pub planck_einstein: &'static [(f64, f64)],
}

/// `alpha0 - ln delta` and its derivatives by `tau`.
#[derive(Debug, Clone, Copy)]
pub struct IdealPart {
    /// `alpha0 - ln delta`.
    pub a: f64,
    /// First derivative by `tau`.
    pub a_t: f64,
    /// Second derivative by `tau`.
    pub a_tt: f64,
}

/// `A = alphar/delta` and its derivatives by `delta` (d) and `tau` (t).
#[derive(Debug, Clone, Copy, Default)]
pub struct ReducedResidual {
    /// `A`.
    pub a: f64,
    /// `dA/d delta`.
    pub a_d: f64,
    /// `d2A/d delta2`.
    pub a_dd: f64,
    /// `dA/d tau`.
    pub a_t: f64,
    /// `d2A/d tau2`.
    pub a_tt: f64,
    /// `d2A/d delta d tau`.
    pub a_dt: f64,
}

/// The residual part itself and its derivatives.
#[derive(Debug, Clone, Copy)]
pub struct Residual {
    /// `alphar`.
    pub a: f64,
    /// By `delta`.
    pub a_d: f64,
    /// Twice by `delta`.
    pub a_dd: f64,
    /// By `tau`.
    pub a_t: f64,
    /// Twice by `tau`.
    pub a_tt: f64,
    /// By both.
    pub a_dt: f64,
}

impl ReducedResidual {
    /// Adds a share of another sum.
    pub(crate) fn add(&mut self, other: &Self, share: f64) {
        self.a += share * other.a;
        self.a_d += share * other.a_d;
        self.a_dd += share * other.a_dd;
        self.a_t += share * other.a_t;
        self.a_tt += share * other.a_tt;
        self.a_dt += share * other.a_dt;
    }

    /// `alphar = delta A` and its derivatives.
    pub fn expand(&self, delta: f64) -> Residual {
        Residual {
            a: delta * self.a,
            a_d: self.a + delta * self.a_d,
            a_dd: 2.0 * self.a_d + delta * self.a_dd,
            a_t: delta * self.a_t,
            a_tt: delta * self.a_tt,
            a_dt: self.a_t + delta * self.a_dt,
        }
    }
}

impl IdealTerms {
    /// Value and derivatives at `tau > 0`.
    pub fn evaluate(&self, tau: f64) -> IdealPart {
        let ln_tau = libm::log(tau);
        let mut out = IdealPart {
            a: self.a1 + self.a2 * tau + self.log_tau * ln_tau,
            a_t: self.a2 + self.log_tau / tau,
            a_tt: -self.log_tau / (tau * tau),
        };
        for &(n, t) in self.powers {
            let v = n * libm::exp(t * ln_tau);
            out.a += v;
            out.a_t += v * t / tau;
            out.a_tt += v * t * (t - 1.0) / (tau * tau);
        }
        for &(n, t) in self.planck_einstein {
            let e = libm::exp(-t * tau);
            let q = e / (1.0 - e);
            out.a += n * libm::log(1.0 - e);
            out.a_t += n * t * q;
            out.a_tt -= n * t * t * q * (1.0 + q);
        }
        out
    }
}

/// Highest power of `delta` that a term and its derivatives can ask for: d + 2 l.
const POWERS: usize = 25;

/// `A = alphar/delta` of a term set at `delta >= 0`, `tau > 0`, in one pass and without allocation.
pub fn reduced_residual(
    power: &[PowerTerm],
    gaussian: &[GaussianTerm],
    delta: f64,
    tau: f64,
) -> ReducedResidual {
    let ln_tau = libm::log(tau);
    let mut pw = [1.0; POWERS];
    for k in 1..POWERS {
        pw[k] = pw[k - 1] * delta;
    }
    let damping = [
        1.0,
        libm::exp(-pw[1]),
        libm::exp(-pw[2]),
        libm::exp(-pw[3]),
        libm::exp(-pw[4]),
    ];
    // Sums with the factors 1/tau and 1/tau^2 taken out.
    let mut s = ReducedResidual::default();
    for term in power {
        let (g, g_d, g_dd) = density_factor(&pw, &damping, term.d - 1, term.l);
        let v = term.n * libm::exp(term.t * ln_tau);
        s.a += v * g;
        s.a_d += v * g_d;
        s.a_dd += v * g_dd;
        s.a_t += term.t * v * g;
        s.a_tt += term.t * (term.t - 1.0) * v * g;
        s.a_dt += term.t * v * g_d;
    }
    let (by_tau, by_tau2) = (1.0 / tau, 1.0 / (tau * tau));
    s.a_t *= by_tau;
    s.a_dt *= by_tau;
    s.a_tt *= by_tau2;
    for term in gaussian {
        add_gaussian(&mut s, term, &pw, delta, tau, ln_tau);
    }
    s
}

/// `delta^d exp(-delta^l)` and its first two derivatives.
fn density_factor(pw: &[f64; POWERS], damping: &[f64; 5], d: u8, l: u8) -> (f64, f64, f64) {
    let (du, lu) = (usize::from(d), usize::from(l));
    let (df, lf) = (f64::from(d), f64::from(l));
    let e = damping[lu];
    // A zero factor stands where the power would be negative.
    let below = |k: usize, n: usize| if k >= n { pw[k - n] } else { 0.0 };
    let mut g_d = df * below(du, 1);
    let mut g_dd = df * (df - 1.0) * below(du, 2);
    if l > 0 {
        g_d -= lf * pw[du + lu - 1];
        g_dd += lf * lf * below(du + 2 * lu, 2) - lf * (2.0 * df + lf - 1.0) * below(du + lu, 2);
    }
    (e * pw[du], e * g_d, e * g_dd)
}

fn add_gaussian(
    s: &mut ReducedResidual,
    term: &GaussianTerm,
    pw: &[f64; POWERS],
    delta: f64,
    tau: f64,
    ln_tau: f64,
) {
    let (x, y) = (delta - term.epsilon, tau - term.gamma);
    let v = term.n * libm::exp(term.t * ln_tau - term.eta * x * x - term.beta * y * y);
    let d = usize::from(term.d - 1);
    let df = f64::from(term.d - 1);
    let p0 = pw[d];
    let p1 = if d >= 1 { df * pw[d - 1] } else { 0.0 };
    let p2 = if d >= 2 {
        df * (df - 1.0) * pw[d - 2]
    } else {
        0.0
    };
    let e1 = -2.0 * term.eta * x;
    let e2 = e1 * e1 - 2.0 * term.eta;
    let g_d = p1 + p0 * e1;
    let g_dd = p2 + 2.0 * p1 * e1 + p0 * e2;
    let t1 = term.t / tau - 2.0 * term.beta * y;
    let t2 = t1 * t1 - term.t / (tau * tau) - 2.0 * term.beta;
    s.a += v * p0;
    s.a_d += v * g_d;
    s.a_dd += v * g_dd;
    s.a_t += v * p0 * t1;
    s.a_tt += v * p0 * t2;
    s.a_dt += v * g_d * t1;
}
