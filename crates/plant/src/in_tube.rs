//! Heat transfer inside a tube, by the published correlations; pure functions in SI.
//!
//! The coils do not call these in a tick but their tabled forms ([`crate::inside`]), which are held against them by test.
//! `flux` is the mass flux G, kg/(s m2); `bore` the hydraulic diameter, m; `x` the flowing quality, 0 to 1.

use lowside_fluids::{Refrigerant, transport::Transport};

/// Nusselt number of laminar flow in a round tube whose wall has one temperature (Graetz; Kays & London).
pub const LAMINAR: f64 = 3.66;
/// Reynolds number up to which flow in a tube is laminar.
pub const LAMINAR_TO: f64 = 2300.0;
/// Reynolds number from which it is turbulent throughout.
pub const TURBULENT_FROM: f64 = 4000.0;
/// Least heat flux counted in nucleate boiling, W/m2: below it bubbles have stopped (own figure).
pub const LEAST_HEAT: f64 = 200.0;

/// What the correlations need of a saturated refrigerant at one temperature. SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saturated {
    /// Density of the liquid, kg/m3.
    pub rho_l: f64,
    /// Density of the vapour, kg/m3.
    pub rho_g: f64,
    /// Heat of evaporation, J/kg.
    pub latent: f64,
    /// Pressure over critical pressure.
    pub reduced: f64,
    /// Molar mass, g/mol.
    pub molar: f64,
    /// Viscosities, conductivities, heat capacities.
    pub t: Transport,
}

impl Saturated {
    /// Properties of `gas` at `t_k`, which is held to where its transport properties go.
    pub fn of(gas: Refrigerant, t_k: f64) -> Self {
        let (table, (lo, hi)) = (gas.table(), Transport::range(gas));
        let t_k = t_k.clamp(lo, hi);
        let s = table.sat(t_k);
        Self {
            rho_l: s.rho_l,
            rho_g: s.rho_g,
            latent: s.h_g() - s.h_l(),
            reduced: s.p / table.p_crit(),
            molar: table.molar_mass() * 1e3,
            t: Transport::at(gas, t_k),
        }
    }

    /// Prandtl number of the liquid.
    pub fn prandtl_l(&self) -> f64 {
        self.t.mu_l * self.t.cp_l / self.t.k_l
    }

    /// Prandtl number of the vapour.
    pub fn prandtl_g(&self) -> f64 {
        self.t.mu_g * self.t.cp_g / self.t.k_g
    }
}

/// Turbulent flow in a tube: Nusselt number (Gnielinski, Int. Chem. Eng. 16 (1976) 359; friction of Filonenko).
///
/// Nu = (f/8)(Re-1000) Pr / (1 + 12.7 (f/8)^(1/2) (Pr^(2/3)-1)), f = (0.79 ln Re - 1.64)^-2. Good to 10 % for Re from 3000 to
/// 5 million and Pr from 0.5 to 2000.
pub fn gnielinski(re: f64, pr: f64) -> f64 {
    let root = 1.0 / (0.79 * libm::log(re) - 1.64);
    let f8 = root * root / 8.0;
    f8 * (re - 1000.0) * pr / (1.0 + 12.7 * f8.sqrt() * (libm::cbrt(pr * pr) - 1.0))
}

/// Flow of one phase in a tube, any Reynolds number: laminar to 2300, Gnielinski from 4000, a straight line in Re between
/// (as Gnielinski proposed in Int. J. Heat Mass Transfer 63 (2013) 134).
pub fn single_phase(re: f64, pr: f64) -> f64 {
    let g = ((re - LAMINAR_TO) / (TURBULENT_FROM - LAMINAR_TO)).clamp(0.0, 1.0);
    if g <= 0.0 {
        return LAMINAR;
    }
    (1.0 - g) * LAMINAR + g * gnielinski(re.max(TURBULENT_FROM), pr)
}

/// Film coefficient of one phase, W/(m2 K), from viscosity, Prandtl number and conductivity.
pub fn film(flux: f64, bore: f64, mu: f64, pr: f64, k: f64) -> f64 {
    single_phase(flux * bore / mu, pr) * k / bore
}

/// Liquid flowing alone with the whole mass flux: 0.023 Re^0.8 Pr^0.4 k/D (Dittus & Boelter 1930), W/(m2 K).
fn dittus_boelter(s: &Saturated, flux: f64, bore: f64) -> f64 {
    let re = flux * bore / s.t.mu_l;
    0.023 * libm::pow(re, 0.8) * libm::pow(s.prandtl_l(), 0.4) * s.t.k_l / bore
}

/// Condensing inside a tube, W/(m2 K) (Shah, Int. J. Heat Mass Transfer 22 (1979) 547).
///
/// h = h_lo ((1-x)^0.8 + 3.8 x^0.76 (1-x)^0.04 / pr^0.38). Mean deviation 15 % for reduced pressures from 0.002 to 0.44 and
/// fluxes from 11 to 1600 kg/(s m2).
pub fn shah(s: &Saturated, flux: f64, bore: f64, x: f64) -> f64 {
    let y = 1.0 - x;
    let two = 3.8 * libm::pow(x, 0.76) * libm::pow(y, 0.04) / libm::pow(s.reduced, 0.38);
    dittus_boelter(s, flux, bore) * (libm::pow(y, 0.8) + two)
}

/// Pool boiling, W/(m2 K), at heat flux `heat` (W/m2): 55 pr^0.12 (-log10 pr)^-0.55 M^-0.5 q^0.67 (Cooper 1984, smooth wall).
pub fn cooper(s: &Saturated, heat: f64) -> f64 {
    cooper_per(s) * libm::pow(heat.max(LEAST_HEAT), 0.67)
}

/// What stands before q^0.67 in [`cooper`].
pub(crate) fn cooper_per(s: &Saturated) -> f64 {
    55.0 * libm::pow(s.reduced, 0.12) * libm::pow(-libm::log10(s.reduced), -0.55) / s.molar.sqrt()
}

/// Boiling inside a tube, W/(m2 K) (Gungor & Winterton, Int. J. Heat Mass Transfer 29 (1986) 351), for x from 0 to 0.99.
///
/// h = E h_l + S h_pool, E = 1 + 24000 Bo^1.16 + 1.37 / Xtt^0.86, S = 1 / (1 + 1.15e-6 E^2 Re_l^1.17), with h_l of the liquid
/// flowing alone and Cooper's h_pool. Mean deviation 21 % over 4300 points. Its correction for stratified flow in horizontal
/// tubes (Froude number below 0.05) is left out: the coils' channels stand upright.
pub fn gungor_winterton(s: &Saturated, flux: f64, bore: f64, x: f64, heat: f64) -> f64 {
    let x = x.clamp(0.0, 0.99);
    let y = 1.0 - x;
    let heat = heat.max(LEAST_HEAT);
    let bo = heat / (flux * s.latent);
    let h_l = dittus_boelter(s, flux, bore) * libm::pow(y, 0.8);
    // 1 / Xtt, the turbulent Lockhart-Martinelli parameter upside down.
    let inverse =
        libm::pow(x / y, 0.9) * (s.rho_l / s.rho_g).sqrt() * libm::pow(s.t.mu_g / s.t.mu_l, 0.1);
    let e = 1.0 + 24_000.0 * libm::pow(bo, 1.16) + 1.37 * libm::pow(inverse, 0.86);
    let re = flux * y * bore / s.t.mu_l;
    let suppressed = 1.0 / (1.0 + 1.15e-6 * e * e * libm::pow(re, 1.17));
    e * h_l + suppressed * cooper(s, heat)
}
