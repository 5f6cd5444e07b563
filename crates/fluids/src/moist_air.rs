//! Moist air: the ideal-gas equations of the ASHRAE Handbook Fundamentals (2017), chapter 1, in SI.
//!
//! Symbols: `t_k` dry-bulb temperature K, `rh` relative humidity (fraction), `w` humidity ratio (kg water vapour per kg
//! dry air), `p_pa` total pressure Pa; enthalpy J per kg dry air, zero for dry air and liquid water at 0 degC.
//! Valid -100..+200 degC at pressures near the atmosphere. Every function is total: temperatures are held to that range,
//! and where water would boil (saturation pressure near `p_pa`) the vapour's share of the pressure is held at 99 %.
//!
//! Saturation here is the Hyland-Wexler fit that chapter 1 prescribes; it differs by less than 0.05 % above -40 degC
//! from the IAPWS equations in [`crate::water`], which serve water inside the system.

use crate::water_table::{SaturationTable, invert};
use std::sync::LazyLock;

/// Molar mass of water over that of dry air, 18.015268/28.966 (ASHRAE ch. 1, equation 20).
pub const MASS_RATIO: f64 = 0.621_945;
/// Largest share of the total pressure that vapour may take here.
const MOST_VAPOUR: f64 = 0.99;
const ZERO_C: f64 = 273.15;
/// Where the equation over ice ends, K.
const T_TRIPLE: f64 = 273.16;

static TABLE: LazyLock<SaturationTable> = LazyLock::new(|| SaturationTable::build(ice, liquid));

/// Saturation pressure over ice or liquid, Pa (ASHRAE ch. 1, equations 5 and 6), changing at 0.01 degC.
#[must_use]
pub fn p_ws(t_k: f64) -> f64 {
    branch(t_k)(t_k).0
}

/// Humidity ratio of saturated air, for the coil's inner loop.
///
/// As [`humidity_ratio`] at `rh` = 1, from a table within -100..+100 degC: relative error of the saturation pressure
/// against the equations below 3.1e-6 (1e-6 above -60 degC), a few ns a call. Outside the table the equations serve.
#[must_use]
#[inline]
pub fn w_sat(t_k: f64, p_pa: f64) -> f64 {
    ratio_of(TABLE.at(t_k).unwrap_or_else(|| p_ws(t_k)), p_pa)
}

/// Humidity ratio from relative humidity: W = 0.621945 p_w/(p - p_w), p_w = rh p_ws (equations 12 and 20).
///
/// `rh` is held to 0..1.
#[must_use]
pub fn humidity_ratio(t_k: f64, rh: f64, p_pa: f64) -> f64 {
    ratio_of(rh.clamp(0.0, 1.0) * p_ws(t_k), p_pa)
}

/// Partial pressure of the vapour, Pa: p_w = p W/(0.621945 + W) (equation 36). Negative `w` counts as zero.
#[must_use]
pub fn vapour_pressure(w: f64, p_pa: f64) -> f64 {
    let w = w.max(0.0);
    p_pa * w / (MASS_RATIO + w)
}

/// Relative humidity; above 1 where the air is supersaturated.
#[must_use]
pub fn relative_humidity(t_k: f64, w: f64, p_pa: f64) -> f64 {
    vapour_pressure(w, p_pa) / p_ws(t_k)
}

/// Enthalpy, J per kg dry air: h = 1006 t + W (2 501 000 + 1860 t), t in degC (equation 30).
#[must_use]
pub fn enthalpy(t_k: f64, w: f64) -> f64 {
    let t = t_k - ZERO_C;
    1_006.0 * t + w * (2_501_000.0 + 1_860.0 * t)
}

/// Temperature from enthalpy and humidity ratio, K: the inverse of [`enthalpy`].
#[must_use]
pub fn temperature(h: f64, w: f64) -> f64 {
    ZERO_C + (h - 2_501_000.0 * w) / (1_006.0 + 1_860.0 * w)
}

/// Heat capacity, J/(K kg dry air): 1006 + 1860 W (equation 30).
#[must_use]
pub fn heat_capacity(w: f64) -> f64 {
    1_006.0 + 1_860.0 * w
}

/// Volume, m3 per kg dry air: v = 287.042 T (1 + 1.607858 W)/p (equation 26).
#[must_use]
pub fn volume(t_k: f64, w: f64, p_pa: f64) -> f64 {
    crate::air::GAS_CONSTANT * t_k * (1.0 + 1.607_858 * w) / p_pa
}

/// Density of the mixture, kg/m3: (1 + W)/v (equation 11).
#[must_use]
pub fn density(t_k: f64, w: f64, p_pa: f64) -> f64 {
    (1.0 + w) / volume(t_k, w, p_pa)
}

/// Dew point (frost point below 0.01 degC), K: the temperature at which [`p_ws`] equals the vapour pressure.
///
/// Newton's method. Held at -100 degC for drier air.
#[must_use]
pub fn dew_point(w: f64, p_pa: f64) -> f64 {
    let p_w = vapour_pressure(w, p_pa);
    if p_w < ice(T_TRIPLE).0 {
        invert(ice, LEAST_K, T_TRIPLE, p_w)
    } else {
        invert(liquid, T_TRIPLE, MOST_K, p_w)
    }
}

/// Wet-bulb temperature, K: the root of equations 33 (above 0 degC) and 35 (ice on the bulb, below).
///
/// W = ((2501 - 2.326 t*) W_s* - 1.006 (t - t*))/(2501 + 1.86 t - 4.186 t*), bracketed between dew point and dry bulb
/// and halved to 1e-6 K. Supersaturated air gives the dry bulb.
#[must_use]
pub fn wet_bulb(t_k: f64, w: f64, p_pa: f64) -> f64 {
    let (mut low, mut high) = (dew_point(w, p_pa).min(t_k), t_k);
    while high - low > 1e-6 {
        let middle = 0.5 * (low + high);
        if w_of_wet_bulb(t_k, middle, p_pa) > w {
            high = middle;
        } else {
            low = middle;
        }
    }
    0.5 * (low + high)
}

/// Humidity ratio from dry and wet bulb (equations 33 and 35); negative where no such air exists.
#[must_use]
pub fn w_of_wet_bulb(t_k: f64, t_wb_k: f64, p_pa: f64) -> f64 {
    let (t, b) = (t_k - ZERO_C, t_wb_k - ZERO_C);
    let ws = w_sat(t_wb_k, p_pa);
    if b >= 0.0 {
        ((2501.0 - 2.326 * b) * ws - 1.006 * (t - b)) / (2501.0 + 1.86 * t - 4.186 * b)
    } else {
        ((2830.0 - 0.24 * b) * ws - 1.006 * (t - b)) / (2830.0 + 1.86 * t - 2.1 * b)
    }
}

/// Least and greatest temperature of the saturation equations, K.
const LEAST_K: f64 = 173.15;
const MOST_K: f64 = 473.15;

#[inline]
fn ratio_of(p_w: f64, p_pa: f64) -> f64 {
    // a comparison, not `min`, so that NaN stays NaN
    let p_w = if p_w > MOST_VAPOUR * p_pa {
        MOST_VAPOUR * p_pa
    } else {
        p_w
    };
    MASS_RATIO * p_w / (p_pa - p_w)
}

fn branch(t_k: f64) -> fn(f64) -> (f64, f64) {
    if t_k <= T_TRIPLE { ice } else { liquid }
}

/// Pressure and slope over ice, equation 5.
fn ice(t_k: f64) -> (f64, f64) {
    const C: [f64; 7] = [
        -5.674_535_9e3,
        6.392_524_7,
        -9.677_843_0e-3,
        6.221_570_1e-7,
        2.074_782_5e-9,
        -9.484_024_0e-13,
        4.163_501_9,
    ];
    let t = t_k.clamp(LEAST_K, T_TRIPLE);
    let ln =
        C[0] / t + C[1] + t * (C[2] + t * (C[3] + t * (C[4] + t * C[5]))) + C[6] * libm::log(t);
    let slope = (C[6] - C[0] / t) / t + C[2] + t * (2.0 * C[3] + t * (3.0 * C[4] + t * 4.0 * C[5]));
    let p = libm::exp(ln);
    (p, p * slope)
}

/// Pressure and slope over liquid, equation 6.
fn liquid(t_k: f64) -> (f64, f64) {
    const C: [f64; 6] = [
        -5.800_220_6e3,
        1.391_499_3,
        -4.864_023_9e-2,
        4.176_476_8e-5,
        -1.445_209_3e-8,
        6.545_967_3,
    ];
    let t = t_k.clamp(T_TRIPLE, MOST_K);
    let ln = C[0] / t + C[1] + t * (C[2] + t * (C[3] + t * C[4])) + C[5] * libm::log(t);
    let slope = (C[5] - C[0] / t) / t + C[2] + t * (2.0 * C[3] + t * 3.0 * C[4]);
    let p = libm::exp(ln);
    (p, p * slope)
}
