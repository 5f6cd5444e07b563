//! Water in a volume with little or no refrigerant: vapour by its own saturation pressure, liquid or ice for the rest.
//!
//! Among dense refrigerant water rides along as it does in [`crate::moisture`]; there its vapour pressure, 3 kPa in a warm
//! room, is nothing beside hundreds. Where the refrigerant thins out, water answers for itself: by Dalton's law it adds the
//! saturation pressure over liquid or ice (IAPWS), or what it has if all of it is vapour. Evaporation is not limited by
//! kinetics (by Hertz and Knudsen some 76 g/(s m2) at 20 degC, far beyond any pump) but by the heat that reaches the water and by
//! the passages; freezing and melting take place within a tenth of a kelvin, so that energy rises with temperature all the way.

use lowside_fluids::water::{self, GAS_CONSTANT, LATENT_FUSION};

use crate::{
    state::{CP_WATER, T_ZERO},
    stream::smooth,
};

/// Refrigerant density above which water has no vapour pressure of its own, kg/m3 (own figure: 24 kPa of R-134a in a warm room).
pub(crate) const THIN_REFRIGERANT: f64 = 1.0;
/// Density below which it has all of it, kg/m3 (own figure: 7 kPa).
const HARDLY_ANY: f64 = 0.3;
/// Enthalpy of water vapour at 0 degC, J/kg, liquid being zero there (ASHRAE Fundamentals 2017 ch. 1: 2 501 kJ/kg).
pub(crate) const H_VAPOUR: f64 = 2.501e6;
/// Heat capacity of water vapour at constant pressure, J/(kg K) (ASHRAE Fundamentals 2017 ch. 1: 1.86 kJ/(kg K)).
const CP_VAPOUR: f64 = 1860.0;
/// Heat capacity of ice, J/(kg K) (IAPWS R10-06 at 0 degC: 2 097).
const CP_ICE: f64 = 2097.0;
/// Half the range of temperature over which water freezes, K.
const FREEZES_WITHIN: f64 = 0.05;

/// What water adds to a volume beyond lying there as liquid. SI units.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Steam {
    /// Pressure, Pa.
    pub(crate) p: f64,
    /// Water that is vapour, kg.
    pub(crate) m: f64,
    /// Water that is ice, kg.
    pub(crate) ice: f64,
    /// Energy over that of liquid at the same temperature, J, and its slope, J/K.
    pub(crate) u: f64,
    pub(crate) u_t: f64,
    /// Pressure gained per kelvin, Pa/K, and per kilogram of water, Pa/kg.
    pub(crate) p_t: f64,
    pub(crate) p_m: f64,
    /// Energy gained per kilogram of water over that of liquid, J/kg.
    pub(crate) u_m: f64,
}

/// How far water goes by its own vapour pressure where the refrigerant has density `rho`, 0 to 1.
pub(crate) fn own(rho: f64) -> f64 {
    if rho >= THIN_REFRIGERANT {
        0.0
    } else {
        smooth((THIN_REFRIGERANT - rho) / (THIN_REFRIGERANT - HARDLY_ANY))
    }
}

/// Enthalpy of water vapour at `t` (K) over liquid at 0 degC, J/kg.
pub(crate) fn enthalpy(t: f64) -> f64 {
    H_VAPOUR + CP_VAPOUR * (t - T_ZERO)
}

/// Most water that is vapour in a gas space `v` (m3) at `t` (K), kg.
pub(crate) fn most_vapour(v: f64, t: f64) -> f64 {
    water::p_sat(t) * v / (GAS_CONSTANT * t)
}

/// Share of condensed water that is ice at `t` (K), and its slope, 1/K.
fn frozen(t: f64) -> (f64, f64) {
    let x = (T_ZERO + FREEZES_WITHIN - t) / (2.0 * FREEZES_WITHIN);
    if x <= 0.0 {
        (0.0, 0.0)
    } else if x >= 1.0 {
        (1.0, 0.0)
    } else {
        (x, -0.5 / FREEZES_WITHIN)
    }
}

/// Water (kg) in a gas space `v` (m3) at `t` (K), counted by the share `own`.
pub(crate) fn steam(water: f64, v: f64, t: f64, own: f64) -> Steam {
    let p_all = water * GAS_CONSTANT * t / v;
    let dt = t - T_ZERO;
    let (p_sat, slope) = water::p_sat_slope(t);
    let lift = H_VAPOUR + (CP_VAPOUR - CP_WATER) * dt - GAS_CONSTANT * t;
    let lift_t = CP_VAPOUR - CP_WATER - GAS_CONSTANT;
    let (ice, ice_t) = frozen(t);
    let below = (CP_ICE - CP_WATER) * dt - LATENT_FUSION;
    let rest = ice * below;
    let rest_t = ice_t * below + ice * (CP_ICE - CP_WATER);
    let (m, m_t, p, p_t, p_m, u_m) = if p_all <= p_sat {
        let p_m = GAS_CONSTANT * t / v;
        (water, 0.0, p_all, p_all / t, p_m, lift)
    } else {
        let m = p_sat * v / (GAS_CONSTANT * t);
        (m, m * (slope / p_sat - 1.0 / t), p_sat, slope, 0.0, rest)
    };
    Steam {
        p: own * p,
        m: own * m,
        ice: own * (water - m) * ice,
        u: own * (m * lift + (water - m) * rest),
        u_t: own * (m_t * (lift - rest) + m * lift_t + (water - m) * rest_t),
        p_t: own * p_t,
        p_m: own * p_m,
        u_m: own * u_m,
    }
}
