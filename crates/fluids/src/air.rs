//! Dry air: gas constants, viscosity, conductivity, the standard atmosphere.

/// Molar mass of dry air, kg/mol (ASHRAE Handbook Fundamentals 2017, ch. 1).
pub const MOLAR_MASS: f64 = 0.028_966;
/// Specific gas constant of dry air, J/(kg K) (ASHRAE Fundamentals 2017, ch. 1).
pub const GAS_CONSTANT: f64 = 287.042;
/// Heat capacity at constant pressure, J/(kg K) (ASHRAE Fundamentals 2017, ch. 1; within 0.6 % over 220..370 K).
pub const CP: f64 = 1_006.0;
/// Heat capacity at constant volume, J/(kg K).
pub const CV: f64 = CP - GAS_CONSTANT;

/// Density of ideal dry air, kg/m3, at `t_k` above 0 K.
#[must_use]
pub fn density(t_k: f64, p_pa: f64) -> f64 {
    p_pa / (GAS_CONSTANT * t_k)
}

/// Dynamic viscosity, Pa s: mu = b T^1.5/(T + S), b = 1.458e-6 kg/(s m K^0.5), S = 110.4 K (Sutherland's law).
///
/// Source: U.S. Standard Atmosphere 1976, equation 51. Against newer data 1.3 % low at 460 K, better below. Valid 150..600 K; held outside.
#[must_use]
pub fn viscosity(t_k: f64) -> f64 {
    let t = t_k.clamp(150.0, 600.0);
    1.458e-6 * t * t.sqrt() / (t + 110.4)
}

/// Thermal conductivity, W/(m K): k = 2.64638e-3 T^1.5/(T + 245.4 x 10^(-12/T)).
///
/// Source: U.S. Standard Atmosphere 1976, equation 53. Valid 150..600 K, 2 % there; held outside.
#[must_use]
pub fn conductivity(t_k: f64) -> f64 {
    let t = t_k.clamp(150.0, 600.0);
    2.646_38e-3 * t * t.sqrt() / (t + 245.4 * libm::exp(-12.0 * core::f64::consts::LN_10 / t))
}

/// Pressure of the standard atmosphere at an altitude, Pa: p = 101 325 (1 - 2.25577e-5 z)^5.2559.
///
/// Source: ASHRAE Fundamentals 2017, ch. 1, equation 3. Valid -5 000..11 000 m; held outside.
#[must_use]
pub fn standard_pressure(altitude_m: f64) -> f64 {
    101_325.0
        * libm::pow(
            1.0 - 2.255_77e-5 * altitude_m.clamp(-5_000.0, 11_000.0),
            5.255_9,
        )
}
