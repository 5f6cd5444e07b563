//! Fast tables of a refrigerant: what the plant asks thousands of times a tick.
//!
//! Built in memory from the equation of state at first use, so nothing is shipped and nothing can be stale.
//! Four pieces, each in its own file:
//!
//! * [`sat`](Table::sat): the saturation line, cubic Hermite in temperature with the equation's own slopes;
//! * [`vapour`](Table::vapour): virial-like forms `p = rho R T (1 + rho B)`, `u = u0(T) + rho C`, so that the
//!   ideal gas is the exact limit in a vacuum; `B` and `C` are bicubic Hermite in (T, rho);
//! * [`liquid`](Table::liquid): a short series in `rho/rho_l - 1` about the saturated liquid;
//! * [`state`](Table::state): temperature, pressure and quality from density and internal energy.
//!
//! **Accuracy**, largest deviation from the equations over -60 to 150 degC, 0 to 4.5 MPa, checked in
//! `crates/fluids/tests/it/tables.rs`: saturation pressure 1e-7, saturated densities 2e-6, enthalpies 0.1 J/kg;
//! vapour pressure 1e-7 and energy 0.01 J/kg; compressed liquid density 5e-4 and enthalpy 40 J/kg, both within
//! some kelvins of the warm end and ten times better elsewhere; temperature from (rho, u) 0.5 mK, and 5 mK for
//! liquid at the warm end.
//!
//! **Range.** 173 K (-100 degC) to 0.985 Tc on the saturation line, vapour to 453 K (180 degC), liquid to
//! about 8 MPa. **Outside** everything stays finite and rises with temperature and density, but is no longer
//! the fluid's: see each function. Above 0.985 Tc and between the two saturation densities there
//! (the neighbourhood of the critical point) pressure and energy are blended along straight lines, and
//! [`Phase::Dense`] says so.

mod below;
mod grid;
mod liquid;
mod saturation;
mod state;
mod vapour;

pub use liquid::Compressed;
pub use saturation::SatPoint;
pub use state::{Phase, State};

use crate::eos::Helmholtz;

/// The coldest temperature of the tables, K.
pub const T_MIN: f64 = 173.15;
/// The warm end of the saturation line in the tables, over the critical temperature.
pub const T_MAX_RATIO: f64 = 0.985;
/// The hottest vapour in the tables, K.
pub const T_HOT: f64 = 453.15;

/// A single phase at given density and temperature. SI, per kilogram.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Eval {
    /// Pressure, Pa.
    pub p: f64,
    /// Internal energy, J/kg.
    pub u: f64,
    /// Heat capacity at constant volume, J/(kg K).
    pub cv: f64,
    /// dp/dT at constant density, Pa/K.
    pub dp_dt: f64,
    /// dp/drho at constant temperature, Pa m3/kg.
    pub dp_drho: f64,
    /// du/drho at constant temperature, J m3/kg2.
    pub du_drho: f64,
}

/// The tables of one refrigerant.
#[derive(Debug, Clone)]
pub struct Table {
    line: saturation::Line,
    gas: vapour::Vapour,
    liq: liquid::Liquid,
    borders: state::Borders,
    molar_mass: f64,
    gas_constant: f64,
    p_crit: f64,
    t_crit: f64,
}

impl Table {
    /// Builds the tables of a fluid from its equation.
    pub fn build(eq: &Helmholtz) -> Self {
        let line = saturation::Line::build(eq, T_MIN, T_MAX_RATIO * eq.t_crit());
        let gas = vapour::Vapour::build(eq, &line);
        let liq = liquid::Liquid::build(eq, &line);
        let borders = state::Borders::build(&line);
        Self {
            line,
            gas,
            liq,
            borders,
            molar_mass: eq.molar_mass(),
            gas_constant: eq.gas_constant(),
            p_crit: eq.p_crit(),
            t_crit: eq.t_crit(),
        }
    }

    /// Saturated liquid and vapour at temperature `t_k`, K.
    ///
    /// Below [`t_min`](Self::t_min) the line goes on with the heat of vaporisation of its cold end, a vapour of
    /// constant heat capacity and a linear liquid; above [`t_max`](Self::t_max) the densities stand still and the rest goes on linearly.
    #[inline]
    pub fn sat(&self, t_k: f64) -> SatPoint {
        self.line.at(t_k)
    }

    /// Saturation pressure at `t_k`, Pa.
    #[inline]
    pub fn p_sat(&self, t_k: f64) -> f64 {
        self.line.pressure(t_k).0
    }

    /// Saturation temperature at `p_pa`, K: the inverse of [`p_sat`](Self::p_sat), to 1e-9. Pressures of zero
    /// and below give the coldest temperature the line knows, 60 K.
    #[inline]
    pub fn t_sat(&self, p_pa: f64) -> f64 {
        self.line.temperature(p_pa)
    }

    /// Vapour at density `rho` (kg/m3, from 0) and temperature `t` (K).
    ///
    /// Denser than the saturated vapour, pressure and energy go on linearly in density at the slope of the
    /// saturated vapour. Hotter than 453 K the virial parts stand still and the heat capacity is constant.
    #[inline]
    pub fn vapour(&self, rho: f64, t: f64) -> Eval {
        self.gas.at(rho, t, &self.line)
    }

    /// Entropy of vapour, J/(kg K), at density `rho > 0` and temperature `t`. The density is held to the
    /// saturated vapour's, the temperature to the table.
    #[inline]
    pub fn vapour_entropy(&self, rho: f64, t: f64) -> f64 {
        self.gas.entropy(rho, t, &self.line)
    }

    /// [`vapour`](Self::vapour) and [`vapour_entropy`](Self::vapour_entropy) of one state, for less time than both apart.
    #[inline]
    pub fn vapour_with_entropy(&self, rho: f64, t: f64) -> (Eval, f64) {
        self.gas.with_entropy(rho, t, &self.line)
    }

    /// Compressed liquid at density `rho` and temperature `t`; `sat` is `self.sat(t)`.
    ///
    /// Thinner than the saturated liquid, pressure and energy go on linearly in density. Pressure rises with
    /// density without limit, and with temperature up to 30 MPa at least; beyond that it may turn round.
    #[inline]
    pub fn liquid(&self, rho: f64, t: f64, sat: &SatPoint) -> Eval {
        self.compressed(t, sat).at(rho)
    }

    /// Compressed liquid at temperature `t`, for several densities: as [`liquid`](Self::liquid).
    #[inline]
    pub fn compressed(&self, t: f64, sat: &SatPoint) -> Compressed {
        self.liq.series(t, sat)
    }

    /// Temperature, pressure and quality from density (kg/m3) and internal energy (J/kg).
    ///
    /// `t_guess` only saves time: below 30 MPa the answer depends on it by some 1e-8 K at most. Never fails: see
    /// the module about what lies outside. A guess within a millikelvin takes half the time of one half a kelvin
    /// away.
    #[inline]
    pub fn state(&self, rho: f64, u: f64, t_guess: f64) -> State {
        state::solve(self, rho, u, t_guess)
    }

    /// The coldest tabulated temperature, K.
    pub fn t_min(&self) -> f64 {
        self.line.t_min()
    }

    /// The warm end of the tabulated saturation line, K (0.985 Tc).
    pub fn t_max(&self) -> f64 {
        self.line.t_max()
    }

    /// kg/mol.
    pub fn molar_mass(&self) -> f64 {
        self.molar_mass
    }

    /// Specific gas constant, J/(kg K).
    pub fn gas_constant(&self) -> f64 {
        self.gas_constant
    }

    /// Critical pressure, Pa.
    pub fn p_crit(&self) -> f64 {
        self.p_crit
    }

    /// Critical temperature, K.
    pub fn t_crit(&self) -> f64 {
        self.t_crit
    }
}
