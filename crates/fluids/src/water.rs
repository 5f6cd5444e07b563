//! Water: saturation over liquid and over ice, boiling temperature, densities, latent heats.
//!
//! Bare `f64` in SI; every function is total: temperatures outside its range are held at the limit.

use crate::water_table::{SaturationTable, invert};
use std::sync::LazyLock;

/// Molar mass, kg/mol (IAPWS-95).
pub const MOLAR_MASS: f64 = 0.018_015_268;
/// Specific gas constant, J/(kg K) (IAPWS-95: 0.461 518 05 kJ/(kg K)).
pub const GAS_CONSTANT: f64 = 461.518_05;
/// Triple point, K (exact when IAPWS-95 was made).
pub const T_TRIPLE: f64 = 273.16;
/// Pressure of the triple point, Pa (IAPWS R14-08).
pub const P_TRIPLE: f64 = 611.657;
/// Critical temperature, K (IAPWS).
pub const T_CRITICAL: f64 = 647.096;
/// Critical pressure, Pa (IAPWS).
pub const P_CRITICAL: f64 = 22.064e6;
/// Critical density, kg/m3 (IAPWS).
pub const RHO_CRITICAL: f64 = 322.0;
/// Heat of melting at the normal melting point, J/kg (IAPWS R10-06, Feistel & Wagner 2006: 333 426.5).
pub const LATENT_FUSION: f64 = 333_426.5;
/// Density of ice at the melting point, kg/m3 (IAPWS R10-06: 916.72).
pub const RHO_ICE: f64 = 916.72;
/// Least temperature of the ice branch, K (IAPWS R14-08).
const T_ICE_LEAST: f64 = 50.0;
/// Least temperature at which liquid is asked for, K; supercooled below the triple point.
const T_LIQUID_LEAST: f64 = 235.0;

static TABLE: LazyLock<SaturationTable> = LazyLock::new(|| SaturationTable::build(ice, liquid));

/// Saturation pressure over liquid water, Pa.
///
/// ln(p/p_c) = T_c/T (a1 v + a2 v^1.5 + a3 v^3 + a4 v^3.5 + a5 v^4 + a6 v^7.5), v = 1 - T/T_c.
/// Source: IAPWS SR1-86(1992), equation 1; Wagner & Pruss, J. Phys. Chem. Ref. Data 31 (2002) 387, equation 2.5.
/// Valid 273.16..647.096 K; continued to supercooled liquid down to 235 K (0.1 % there, our estimate); held outside.
#[must_use]
pub fn p_sat_liquid(t_k: f64) -> f64 {
    liquid(t_k).0
}

/// Saturation pressure over ice, Pa.
///
/// ln(p/p_t) = (a1 s^b1 + a2 s^b2 + a3 s^b3)/s, s = T/273.16 K.
/// Source: IAPWS R14-08(2011), equation 6. Valid 50..273.16 K; held outside.
#[must_use]
pub fn p_sat_ice(t_k: f64) -> f64 {
    ice(t_k).0
}

/// Saturation pressure over the stable phase, Pa: ice below 273.16 K, liquid above.
///
/// From a table within 173.16..373.16 K (relative error against the equations below 3.1e-6, 1e-6 above
/// 213 K), else the equations.
#[must_use]
pub fn p_sat(t_k: f64) -> f64 {
    TABLE.at(t_k).unwrap_or_else(|| {
        if t_k < T_TRIPLE {
            p_sat_ice(t_k)
        } else {
            p_sat_liquid(t_k)
        }
    })
}

/// As [`p_sat`], with its slope: Pa and Pa/K.
#[must_use]
pub fn p_sat_slope(t_k: f64) -> (f64, f64) {
    TABLE.with_slope(t_k).unwrap_or_else(|| {
        if t_k < T_TRIPLE {
            ice(t_k)
        } else {
            liquid(t_k)
        }
    })
}

/// Boiling temperature at a pressure, K; sublimation temperature below 611.657 Pa.
///
/// The inverse of [`p_sat_liquid`] and [`p_sat_ice`] by Newton's method. Held at 150 K (6e-6 Pa) and at the critical point.
#[must_use]
pub fn boiling_temperature(p_pa: f64) -> f64 {
    if p_pa < P_TRIPLE {
        invert(ice, 150.0, T_TRIPLE, p_pa)
    } else {
        invert(liquid, T_TRIPLE, T_CRITICAL, p_pa)
    }
}

/// Density of saturated liquid, kg/m3.
///
/// Source: IAPWS SR1-86(1992), equation 2 (Wagner & Pruss 2002, equation 2.6). Valid 273.16..647.096 K; held outside.
#[must_use]
pub fn rho_liquid(t_k: f64) -> f64 {
    let c = libm::cbrt(1.0 - t_k.clamp(T_TRIPLE, T_CRITICAL) / T_CRITICAL);
    let (c2, c3) = (c * c, c * c * c);
    let c5 = c2 * c3;
    let c16 = c5 * c5 * c5 * c;
    let c43 = c16 * c16 * c5 * c5 * c;
    let c110 = c43 * c43 * c16 * c5 * c3;
    let sum = 1.992_740_64 * c + 1.099_653_42 * c2
        - 0.510_839_303 * c5
        - 1.754_934_79 * c16
        - 45.517_035_2 * c43
        - 6.746_944_50e5 * c110;
    RHO_CRITICAL * (1.0 + sum)
}

/// Density of saturated vapour, kg/m3.
///
/// Source: IAPWS SR1-86(1992), equation 3 (Wagner & Pruss 2002, equation 2.7). Valid 273.16..647.096 K; held outside.
#[must_use]
pub fn rho_vapour(t_k: f64) -> f64 {
    let v = 1.0 - t_k.clamp(T_TRIPLE, T_CRITICAL) / T_CRITICAL;
    let third = libm::cbrt(v);
    let (two_thirds, sixth) = (third * third, third.sqrt());
    let v3 = v * v * v;
    let v6 = v3 * v3;
    let v11 = v6 * v3 * v * v;
    let sum = -2.031_502_40 * third
        - 2.683_029_40 * two_thirds
        - 5.386_264_92 * v * third
        - 17.299_160_5 * v3
        - 44.758_658_1 * v6 * sixth
        - 63.920_106_3 * v11 * two_thirds * sixth;
    RHO_CRITICAL * libm::exp(sum)
}

/// Heat of vaporisation, J/kg: L = T (dp/dT) (1/rho'' - 1/rho').
///
/// Clausius-Clapeyron with the IAPWS SR1-86 equations; agrees with their own enthalpies to 0.01 %.
/// Valid 273.16..647 K; held at 273.16 K below, zero at the critical point.
#[must_use]
pub fn latent_vaporisation(t_k: f64) -> f64 {
    let t = t_k.clamp(T_TRIPLE, T_CRITICAL);
    t * liquid(t).1 * (1.0 / rho_vapour(t) - 1.0 / rho_liquid(t))
}

/// Heat of sublimation, J/kg: L = R T^2 d(ln p)/dT, the vapour an ideal gas (p is below 612 Pa).
///
/// Clausius-Clapeyron with IAPWS R14-08. Valid 50..273.16 K; held outside.
#[must_use]
pub fn latent_sublimation(t_k: f64) -> f64 {
    let t = t_k.clamp(T_ICE_LEAST, T_TRIPLE);
    let (p, dp) = ice(t);
    // p (v'' - v_ice): the volume of ice is 5e-6 of the vapour's at most
    GAS_CONSTANT * t * t * dp / p
}

/// Heat capacity of liquid water, J/(kg K).
///
/// A polynomial in t/degC through the saturated-liquid values of IAPWS-95, within 0.05 % over 273.16..373.15 K; held outside.
#[must_use]
pub fn cp_liquid(t_k: f64) -> f64 {
    let t = t_k.clamp(T_TRIPLE, 373.15) - 273.15;
    4218.183 + t * (-2.821_290 + t * (0.069_429_63 + t * (-6.908_582e-4 + t * 2.771_610e-6)))
}

/// Heat capacity of ice, J/(kg K): 2 097 at 0 degC (IAPWS R10-06), falling 7.3 per K (from memory, 1 % to -60 degC).
#[must_use]
pub fn cp_ice(t_k: f64) -> f64 {
    2_097.0 + 7.3 * (t_k.clamp(213.15, 273.15) - 273.15)
}

/// Pressure and slope over liquid.
fn liquid(t_k: f64) -> (f64, f64) {
    const A: [f64; 6] = [
        -7.859_517_83,
        1.844_082_59,
        -11.786_649_7,
        22.680_741_1,
        -15.961_871_9,
        1.801_225_02,
    ];
    let t = t_k.clamp(T_LIQUID_LEAST, T_CRITICAL);
    let v = 1.0 - t / T_CRITICAL;
    let r = v.sqrt();
    let (v2, v3) = (v * v, v * v * v);
    let (v15, v25, v35) = (v * r, v2 * r, v3 * r);
    let v65 = v3 * v35;
    let sum = A[0] * v + A[1] * v15 + A[2] * v3 + A[3] * v35 + A[4] * v2 * v2 + A[5] * v65 * v;
    let slope = A[0]
        + 1.5 * A[1] * r
        + 3.0 * A[2] * v2
        + 3.5 * A[3] * v25
        + 4.0 * A[4] * v3
        + 7.5 * A[5] * v65;
    let ln = T_CRITICAL / t * sum;
    let p = P_CRITICAL * libm::exp(ln);
    // d(ln p)/dT = -(ln(p/p_c) + d(sum)/dv)/T
    (p, -p / t * (ln + slope))
}

/// Pressure and slope over ice.
fn ice(t_k: f64) -> (f64, f64) {
    const A: [f64; 3] = [-0.212_144_006e2, 0.273_203_819e2, -0.610_598_130e1];
    const B: [f64; 3] = [0.333_333_333e-2, 0.120_666_667e1, 0.170_333_333e1];
    let t = t_k.clamp(T_ICE_LEAST, T_TRIPLE);
    let s = t / T_TRIPLE;
    let ln_s = libm::log(s);
    let (mut ln, mut slope) = (0.0, 0.0);
    for (a, b) in A.iter().zip(B) {
        let term = a * libm::exp((b - 1.0) * ln_s);
        ln += term;
        slope += (b - 1.0) * term;
    }
    let p = P_TRIPLE * libm::exp(ln);
    (p, p * slope / t)
}
