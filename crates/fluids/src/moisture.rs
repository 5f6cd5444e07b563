//! Water in refrigerant, and the molecular sieve that takes it out.
//!
//! Solubility in the liquid: own fits, within 3 % (worst 3.003), to the table in the moisture chapter of the ASHRAE Handbook -
//! Refrigeration (-40 to 160 degF; it stands in `crates/fluids/tests/it/moisture_published.rs`; which column belongs to which gas was
//! told from the values). Their numbers stand in the refrigerants' files.
//!
//! Between vapour and liquid water spreads about evenly by mass: the ASHRAE research project RP-1239 (Gbur) quotes four
//! laboratories at 0.89 to 1.19 for R-134a and doubts the handbook's 0.54 to 0.585. So no factor is needed: one concentration
//! holds for both phases.

use crate::Refrigerant;

/// Molar gas constant, J/(mol K).
const R: f64 = 8.314_462_618;
/// Heat of fusion of ice at 0 degC, J/kg (IAPWS R10-06 and IAPWS-95 at the triple point: 333.5 kJ/kg).
pub const FUSION: f64 = 333.5e3;
/// Density of ice at 0 degC, kg/m3 (IAPWS R10-06: 916.7).
pub const RHO_ICE: f64 = 916.7;
/// Temperature at which water freezes, K.
pub const T_FREEZE: f64 = 273.15;

/// Temperature above which the solid that frozen water forms with a refrigerant around it melts, K.
///
/// In contact with these refrigerants ice turns into a hydrate, which outlasts 0 degC; its highest temperature, where hydrate,
/// water and both phases of the refrigerant stand together, is in the refrigerant's file.
pub fn melts_above(gas: Refrigerant) -> f64 {
    gas.data().water.hydrate_melts
}

/// Most water that liquid refrigerant dissolves at temperature `t` (K), kg per kg. Trusted from 233 to 344 K; beyond that the
/// fit is continued.
pub fn solubility(gas: Refrigerant, t: f64) -> f64 {
    let [a, b, c] = gas.data().water.solubility;
    1e-6 * libm::exp(a - b / t + c * libm::log(t))
}

/// Water a molecular sieve can hold, kg per kg of dry sieve (type A, commonly stated 0.20-0.22).
pub const SIEVE_CAPACITY: f64 = 0.21;
/// Characteristic energy of the sieve, J/mol.
const SIEVE_ENERGY: f64 = 27.6e3;

/// Water a molecular sieve holds in equilibrium, kg per kg of dry sieve, at temperature `t` (K) and relative saturation `a`
/// (dissolved water over the solubility there, 0 to 1; more counts as 1).
///
/// Dubinin & Astakhov (1971), w = W0 exp(-(RT ln(1/a) / E)^3); W0 and E are an own fit to the commonly stated 17 % at a =
/// 0.001 (from memory, 16-18 %): no published isotherm in refrigerant could be had.
pub fn sieve_load(a: f64, t: f64) -> f64 {
    if a <= 0.0 {
        return 0.0;
    }
    let potential = -R * t * libm::log(a.min(1.0)) / SIEVE_ENERGY;
    SIEVE_CAPACITY * libm::exp(-potential * potential * potential)
}

/// Relative saturation over a molecular sieve that holds `load` (kg per kg of dry sieve) at temperature `t` (K): the inverse
/// of [`sieve_load`]; 0 when dry, 1 when full.
pub fn sieve_saturation(load: f64, t: f64) -> f64 {
    if load <= 0.0 {
        return 0.0;
    }
    if load >= SIEVE_CAPACITY {
        return 1.0;
    }
    let potential = libm::cbrt(libm::log(SIEVE_CAPACITY / load));
    libm::exp(-SIEVE_ENERGY * potential / (R * t))
}
