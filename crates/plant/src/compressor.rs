//! Fixed-displacement piston compressor: volume flow, work and discharge enthalpy.
//!
//! Volumetric efficiency falls with the pressure ratio (clearance gas re-expands) and with speed (valve losses), and
//! leaks past rings and valves weigh more at low speed; isentropic efficiency has its best near a ratio of four. Both maps
//! are our own fits to the range 0.5-0.8 that mobile compressors of this kind show (common practice, no source; the
//! public measurements are Darr & Crawford, ACRC TR-14, Univ. of Illinois 1992).

use lowside_fluids::table::Table;
use serde::{Deserialize, Serialize};

use crate::{
    species::{AIR, Content, DISSOLVED, OIL, REFRIGERANT, WATER},
    state::{CP_AIR, R_AIR, State},
    stream::Stream,
};

/// Size and condition of a compressor.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Compressor {
    /// Swept volume per shaft turn, m3.
    pub displacement: f64,
    /// Wear, 0 (new) to 1: lowers both efficiencies.
    pub wear: f64,
    /// Shortage of oil, 0 (enough) to 1 (none): rings no longer seal, bearings rub.
    pub dry: f64,
}

/// One tick's work of the compressor.
#[derive(Debug, Clone, Copy, Default)]
pub struct Work {
    /// Mass flow, kg/s.
    pub flow: f64,
    /// Work taken up by each kilogram of stream, J/kg.
    pub per_kg: f64,
    /// Shaft power without the losses of belt and clutch, W.
    pub shaft: f64,
}

/// Share of the shaft power that leaves the body to the air under the hood instead of staying in the gas.
pub const BODY_LOSS: f64 = 0.07;
/// Volumetric efficiency lost past rings without oil, for each unit of pressure ratio (own figure).
const DRY_LEAK: f64 = 0.02;
/// Wet suction counts as no denser than this multiple of its vapour: only part of the liquid evaporates in the cylinder.
const WET_DENSITY_CAP: f64 = 2.5;

impl Compressor {
    /// Volumetric efficiency at pressure ratio and shaft speed (1/min), 0 to 0.95. Its fall with speed, 16 % per 1000 1/min, is tuned
    /// (8-20) so that the low side at 1 500 and 2 500 rpm of the engine is that of common practice.
    pub fn volumetric_efficiency(&self, ratio: f64, rpm: f64) -> f64 {
        let r = ratio.max(1.0);
        let fast = ((rpm - 1000.0) / 1000.0).max(0.0);
        let leak = 0.03 * (1000.0 / rpm.max(200.0)) * (r - 1.0) / 5.0;
        let new = 0.92 * (1.0 - 0.045 * (libm::pow(r, 0.893) - 1.0)) * (1.0 - 0.16 * fast) - leak;
        (new - self.wear * (0.12 + 0.06 * r) - self.dry * DRY_LEAK * r).clamp(0.0, 0.95)
    }

    /// Isentropic efficiency at pressure ratio and shaft speed (1/min).
    pub fn isentropic_efficiency(&self, ratio: f64, rpm: f64) -> f64 {
        let fast = ((rpm - 1000.0) / 1000.0).max(0.0);
        let r = ratio.clamp(1.0, 20.0);
        let bend = if r > 4.0 {
            0.02 * (r - 4.0)
        } else {
            0.05 * (4.0 - r)
        };
        (0.72 - bend - 0.04 * fast).clamp(0.3, 0.8) * (1.0 - 0.5 * self.wear)
    }

    /// What the turning compressor does with a suction state and a discharge pressure.
    pub fn work(
        &self,
        table: &Table,
        suction: &State,
        content: &Content,
        inlet: &Stream,
        p_out: f64,
        rpm: f64,
    ) -> Work {
        if rpm <= 0.0 || suction.p <= 0.0 {
            return Work::default();
        }
        let ratio = (p_out / suction.p).max(1.0);
        let gas_rho = suction.gas_density(content);
        let rho = inlet.rho.min(WET_DENSITY_CAP * gas_rho);
        let flow = self.volumetric_efficiency(ratio, rpm) * self.displacement * rpm / 60.0 * rho;
        if flow <= 0.0 {
            return Work::default();
        }
        let ideal = ideal_work(table, suction, inlet, ratio);
        let per_kg = ideal / self.isentropic_efficiency(ratio, rpm);
        Work {
            flow,
            per_kg,
            shaft: flow * per_kg,
        }
    }
}

/// Isentropic work per kilogram of a mixed stream raised by a pressure ratio, J/kg.
fn ideal_work(table: &Table, s: &State, inlet: &Stream, ratio: f64) -> f64 {
    let lift = s.p * (ratio - 1.0);
    let air = if inlet.share[AIR] > 0.0 {
        inlet.share[AIR] * CP_AIR * s.t * (libm::pow(ratio, R_AIR / CP_AIR) - 1.0)
    } else {
        0.0
    };
    let incompressible =
        (inlet.share[OIL] + inlet.share[WATER] + inlet.share[DISSOLVED]) * lift / 1000.0;
    let vapour = inlet.share[REFRIGERANT] - inlet.liquid;
    let m_ref = inlet.share[REFRIGERANT];
    if m_ref <= 1e-9 {
        return air + incompressible;
    }
    let p1 = s.p - s.p_air - s.p_water;
    let p2 = p1 * ratio;
    let s_gas = table.vapour_entropy(s.rho_gas, s.t);
    let sat_1 = table.sat(s.t);
    let x1 = vapour / m_ref;
    let entropy = x1 * s_gas + (1.0 - x1) * sat_1.s_l;
    let h1 = x1 * s.h_gas + (1.0 - x1) * s.h_liq;
    let h2 = isentropic_enthalpy(table, entropy, p1, p2, s.t, s.rho_gas);
    m_ref * (h2 - h1).max(0.0) + air + incompressible
}

/// Enthalpy of refrigerant at pressure `p2` with entropy `s1`, J/kg, two-phase or superheated.
fn isentropic_enthalpy(table: &Table, s1: f64, p1: f64, p2: f64, t1: f64, rho1: f64) -> f64 {
    let t_sat = table.t_sat(p2);
    let sat = table.sat(t_sat);
    if t_sat < table.t_max() - 0.01 && s1 < sat.s_g {
        let x = ((s1 - sat.s_l) / (sat.s_g - sat.s_l)).max(0.0);
        return sat.h_l() + x * (sat.h_g() - sat.h_l());
    }
    // Superheated: Newton in density and temperature from an ideal-gas guess (expansion number about 1.1).
    let r = p2 / p1;
    let mut t = (t1 * libm::pow(r, 0.11)).max(t_sat + 0.5);
    let mut rho = (rho1 * r * t1 / t).min(sat.rho_g);
    let (mut e, mut entropy) = table.vapour_with_entropy(rho, t);
    for _ in 0..12 {
        let (f_p, f_s) = (e.p - p2, entropy - s1);
        if f_p.abs() < 1e-7 * p2 && f_s.abs() < 1e-4 {
            break;
        }
        // ds/dT = cv/T, ds/drho = -(dp/dT)/rho^2 (Maxwell).
        let (s_t, s_r) = (e.cv / t, -e.dp_dt / (rho * rho));
        let det = e.dp_drho * s_t - e.dp_dt * s_r;
        let d_rho = (-f_p * s_t + e.dp_dt * f_s) / det;
        let d_t = (-f_s * e.dp_drho + s_r * f_p) / det;
        rho = (rho + d_rho).clamp(0.3 * rho, 3.0 * rho);
        t = (t + d_t).clamp(t - 40.0, t + 40.0);
        (e, entropy) = table.vapour_with_entropy(rho, t);
    }
    e.u + e.p / rho
}
