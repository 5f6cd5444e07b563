//! Viscosity, conductivity, surface tension and heat capacity of the refrigerants, cheap enough for every tick.
//!
//! Along saturation: polynomials of degree 8 in x = sqrt(1 - T/T_c), applied to the form of each property that stays smooth
//! up to the critical point (1/mu_l, mu_g x, k x, sigma, cp_l x^2, 1/cp_g). They repeat CoolProp 8.0.0, i.e. the
//! correlations named in the refrigerants' files, within 0.1 % from 193.15 K to 2 K below the critical point (tested). The
//! correlations themselves claim 1-5 %.

use crate::refrigerant::Refrigerant;

/// Least temperature of the fits, K.
const LEAST_K: f64 = 193.15;
/// The fits end this far below the critical temperature, K.
const BELOW_CRITICAL: f64 = 2.0;

/// Fits for one refrigerant, made by `tests/data/transport_fit.py` from CoolProp 8.0.0: polynomials in z = (x - mid)/half, x = sqrt(1 -
/// T/T_c), lowest power first. The comment before each is its largest relative error at 600 points between 193.15 K and 2 K below
/// the critical point. Heat capacities are those of the equation of state.
#[derive(Debug)]
pub struct Fit {
    /// Critical temperature, K.
    pub t_critical: f64,
    /// Middle of x over the range.
    pub mid: f64,
    /// Half the range of x.
    pub half: f64,
    /// One over the viscosity of the liquid, 1/(Pa s).
    pub fluidity_l: [f64; 9],
    /// Viscosity of the vapour times x, Pa s.
    pub mu_g_x: [f64; 9],
    /// Conductivity of the liquid times x, W/(m K).
    pub k_l_x: [f64; 9],
    /// Conductivity of the vapour times x, W/(m K).
    pub k_g_x: [f64; 9],
    /// Surface tension, N/m.
    pub sigma: [f64; 9],
    /// Heat capacity of the liquid times x^2, J/(kg K).
    pub cp_l_x2: [f64; 9],
    /// One over the heat capacity of the vapour, kg K/J.
    pub inverse_cp_g: [f64; 9],
    /// Viscosity of the dilute gas, Pa s, in T/300 K - 1; 193 to 463 K.
    pub mu_0: [f64; 5],
    /// Conductivity of the dilute gas, W/(m K), in the same.
    pub k_0: [f64; 5],
    /// Heat capacity of the dilute gas, J/(kg K), in the same.
    pub cp_0: [f64; 5],
}

/// Transport properties of saturated liquid and vapour at one temperature, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Transport {
    /// Viscosity of the liquid, Pa s.
    pub mu_l: f64,
    /// Viscosity of the vapour, Pa s.
    pub mu_g: f64,
    /// Thermal conductivity of the liquid, W/(m K).
    pub k_l: f64,
    /// Thermal conductivity of the vapour, W/(m K).
    pub k_g: f64,
    /// Surface tension, N/m.
    pub sigma: f64,
    /// Heat capacity of the liquid, J/(kg K).
    pub cp_l: f64,
    /// Heat capacity of the vapour, J/(kg K).
    pub cp_g: f64,
}

/// Transport properties of a vapour off the saturation line, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VapourTransport {
    /// Viscosity, Pa s.
    pub mu: f64,
    /// Thermal conductivity, W/(m K).
    pub k: f64,
    /// Heat capacity at constant pressure, J/(kg K).
    pub cp: f64,
}

impl Transport {
    /// Properties of saturated `gas` at `t_k`.
    ///
    /// Within 0.1 % of the correlations over [`Transport::range`]; outside it `t_k` is held at the nearer end. For liquid a few
    /// kelvins subcooled the saturated value at its own temperature serves; for superheated vapour use [`Transport::vapour`].
    #[must_use]
    pub fn at(gas: Refrigerant, t_k: f64) -> Self {
        let f = &gas.data().transport;
        let (x, z) = f.coordinates(t_k);
        let inverse_x = 1.0 / x;
        Self {
            mu_l: 1.0 / poly(&f.fluidity_l, z),
            mu_g: poly(&f.mu_g_x, z) * inverse_x,
            k_l: poly(&f.k_l_x, z) * inverse_x,
            k_g: poly(&f.k_g_x, z) * inverse_x,
            sigma: poly(&f.sigma, z),
            cp_l: poly(&f.cp_l_x2, z) * inverse_x * inverse_x,
            cp_g: 1.0 / poly(&f.inverse_cp_g, z),
        }
    }

    /// Least and greatest temperature of [`Transport::at`], K: 193.15 and 2 K below critical.
    #[must_use]
    pub fn range(gas: Refrigerant) -> (f64, f64) {
        (LEAST_K, gas.data().transport.t_critical - BELOW_CRITICAL)
    }

    /// Vapour at `t_k` and the pressure whose saturation temperature is `t_sat_k`.
    ///
    /// y = y0(T) + (y_sat(T_sat) - y0(T_sat)) (T_sat/T)^n: the dilute-gas value and what pressure adds, which fades as the
    /// superheat thins the gas; n = 3 for viscosity, 12 for conductivity, 14 for heat capacity. A construction of our own; from
    /// 2 to 70 K of superheat it is within 2 % (viscosity), 3 % (conductivity), 6 % (heat capacity) of CoolProp 8.0.0 from 1 kPa
    /// to 1 MPa, and within 7, 6 and 16 % to 2.5 MPa (R-1234yf is worst). `t_k` is held to 193.15..463.15 K, `t_sat_k` to
    /// [`Transport::range`] and `t_k`.
    #[must_use]
    pub fn vapour(gas: Refrigerant, t_k: f64, t_sat_k: f64) -> VapourTransport {
        let f = &gas.data().transport;
        let t = t_k.clamp(LEAST_K, 463.15);
        let t_sat = t_sat_k.clamp(LEAST_K, f.t_critical - BELOW_CRITICAL).min(t);
        let (x, z) = f.coordinates(t_sat);
        let (d, s) = (t / 300.0 - 1.0, t_sat / 300.0 - 1.0);
        let r = t_sat / t;
        let r3 = r * r * r;
        let r12 = r3 * r3 * r3 * r3;
        let add = |dilute: &[f64; 5], saturated: f64, fade: f64| {
            poly(dilute, d) + (saturated - poly(dilute, s)) * fade
        };
        VapourTransport {
            mu: add(&f.mu_0, poly(&f.mu_g_x, z) / x, r3),
            k: add(&f.k_0, poly(&f.k_g_x, z) / x, r12),
            cp: add(&f.cp_0, 1.0 / poly(&f.inverse_cp_g, z), r12 * r * r),
        }
    }
}

impl Fit {
    /// x = sqrt(1 - T/T_c) and its scaled form, the temperature held to the range of the fit.
    fn coordinates(&self, t_k: f64) -> (f64, f64) {
        let t = t_k.clamp(LEAST_K, self.t_critical - BELOW_CRITICAL);
        let x = (1.0 - t / self.t_critical).sqrt();
        (x, (x - self.mid) / self.half)
    }
}

#[inline]
fn poly<const N: usize>(c: &[f64; N], z: f64) -> f64 {
    c.iter().rev().fold(0.0, |sum, c| sum * z + c)
}
