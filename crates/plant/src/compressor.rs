//! Fixed-displacement piston compressor: volume flow, work and discharge enthalpy.
//!
//! Volumetric efficiency falls with the pressure ratio (clearance gas re-expands) and with speed (valve losses), and
//! leaks past rings and valves weigh more at low speed; isentropic efficiency has its best near a ratio of four. Both maps
//! are our own fits to the range 0.5-0.8 that mobile compressors of this kind show (common practice, no source; the
//! public measurements are Darr & Crawford, ACRC TR-14, Univ. of Illinois 1992).
//!
//! Worn or dry rings and valves let gas back as a hole would, by the difference of the pressures and for as long as there is one: so it
//! counts for less the faster the shaft turns. What leaks was compressed first: it costs its work, and the gas that is left gets hotter.

use lowside_fluids::table::Table;
use serde::{Deserialize, Serialize};

use crate::{
    flow::{self, Expands, INVERSE_EXPONENT, k_from_hole},
    species::{AIR, Content, DISSOLVED, OIL, REFRIGERANT, WATER},
    state::{CP_AIR, R_AIR, State},
    stream::Stream,
};

/// Size and condition of a compressor.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Compressor {
    /// Swept volume per shaft turn, m3.
    pub displacement: f64,
    /// Wear, 0 (new) to 1: rings and valves leak.
    pub wear: f64,
    /// Shortage of oil, 0 (enough) to 1 (none): rings no longer seal, bearings rub.
    pub dry: f64,
}

/// One tick's work of the compressor.
#[derive(Debug, Clone, Copy, Default)]
pub struct Work {
    /// Mass flow, kg/s.
    pub flow: f64,
    /// What leaked back besides, kg/s.
    pub leak: f64,
    /// Work taken up by each kilogram of stream, J/kg.
    pub per_kg: f64,
    /// Shaft power without the losses of belt and clutch, W.
    pub shaft: f64,
}

/// Share of the shaft power that leaves the body to the air under the hood instead of staying in the gas.
pub const BODY_LOSS: f64 = 0.07;
/// Hole that leaks as rings and valves of a ruined compressor do in the mean of a turn, m2 (tuned, plausible 5-20 mm2, so that at idle on a
/// mild day low side and high side stand no further apart than some 70 psi, common practice).
const WORN_HOLE: f64 = 15.5e-6;
/// The same of sound rings without any oil (own figure).
const DRY_HOLE: f64 = 0.5e-6;
/// Share of it at rest, when a reed lies over each cylinder (own figure: pressures then equalise within 10-40 s).
const AT_REST: f64 = 0.1;
/// Discharge coefficient of such a hole.
const HOLE_CD: f64 = 0.7;
/// Work that leaked gas has cost over that of what is delivered: part of it leaks before the stroke ends (by hand from an indicator
/// diagram, see the tests: 0.80 to 0.89 at pressure ratios of 8 to 1.5).
const LEAKED_WORK: f64 = 0.83;
/// Least share of what is compressed that its work counts for: at less, nothing much flows and the gas would get hotter than the metal.
const LEAST_LEFT: f64 = 0.15;
/// Wet suction counts as no denser than this multiple of its vapour: only part of the liquid evaporates in the cylinder.
const WET_DENSITY_CAP: f64 = 2.5;

impl Compressor {
    /// Volumetric efficiency at pressure ratio and shaft speed (1/min), 0 to 0.95, of what is compressed. Its fall with speed, 16 % per
    /// 1000 1/min, is tuned (8-20) so that the low side at 1 500 and 2 500 rpm of the engine is that of common practice.
    pub fn volumetric_efficiency(ratio: f64, rpm: f64) -> f64 {
        let r = ratio.max(1.0);
        let fast = ((rpm - 1000.0) / 1000.0).max(0.0);
        let leak = 0.03 * (1000.0 / rpm.max(200.0)) * (r - 1.0) / 5.0;
        let swept = 0.92 * (1.0 - 0.045 * (libm::pow(r, 0.893) - 1.0)) * (1.0 - 0.16 * fast);
        (swept - leak).clamp(0.0, 0.95)
    }

    /// Isentropic efficiency at pressure ratio and shaft speed (1/min).
    pub fn isentropic_efficiency(ratio: f64, rpm: f64) -> f64 {
        let fast = ((rpm - 1000.0) / 1000.0).max(0.0);
        let r = ratio.clamp(1.0, 20.0);
        let bend = if r > 4.0 {
            0.02 * (r - 4.0)
        } else {
            0.05 * (4.0 - r)
        };
        (0.72 - bend - 0.04 * fast).clamp(0.3, 0.8)
    }

    /// Constant of rings and valves as a passage while it turns, m2. A gap that wears wider also lets through more for its width.
    fn hole(&self) -> f64 {
        k_from_hole(HOLE_CD, self.wear.powi(2) * WORN_HOLE + self.dry * DRY_HOLE)
    }

    /// Constant of rings and reeds as a passage at rest, m2.
    pub fn at_rest(&self) -> f64 {
        AT_REST * self.hole()
    }

    /// What leaks back past rings and valves while it turns, kg/s: gas of density `rho` (kg/m3) at `p` (Pa), compressed by `ratio`.
    fn leak(&self, rho: f64, p: f64, ratio: f64) -> f64 {
        let k = self.hole();
        if k <= 0.0 {
            return 0.0;
        }
        let rho_out = rho * libm::pow(ratio, INVERSE_EXPONENT.0);
        let gas = Expands::edge(1.0, 0.0);
        flow::passage(k, rho_out, p * (ratio - 1.0), (p * ratio, 0.0), 0.0, &gas).flow
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
        let whole = Self::volumetric_efficiency(ratio, rpm) * self.displacement * rpm / 60.0 * rho;
        let leak = self.leak(gas_rho, suction.p, ratio);
        let flow = whole - leak;
        if flow <= 0.0 {
            return Work::default();
        }
        let ideal = ideal_work(table, suction, inlet, ratio);
        let costs = (flow + LEAKED_WORK * leak) / flow.max(LEAST_LEFT * whole);
        let per_kg = costs * ideal / Self::isentropic_efficiency(ratio, rpm);
        Work {
            flow,
            leak,
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

/// Enthalpy of refrigerant at pressure `p2` with entropy `s1`, J/kg: liquid, two-phase or superheated; `t1` and `rho1` are those of the
/// vapour it came from.
fn isentropic_enthalpy(table: &Table, s1: f64, p1: f64, p2: f64, t1: f64, rho1: f64) -> f64 {
    let t_sat = table.t_sat(p2);
    let sat = table.sat(t_sat);
    if t_sat < table.t_max() - 0.01 && s1 < sat.s_g {
        let x = (s1 - sat.s_l) / (sat.s_g - sat.s_l);
        if x >= 0.0 {
            return sat.h_l() + x * (sat.h_g() - sat.h_l());
        }
        // All of it has condensed on the way, near where the liquid's entropy is that: entropy goes with the logarithm of temperature.
        let from = table.sat(t1);
        let way = ((s1 - from.s_l) / (sat.s_l - from.s_l)).clamp(0.0, 1.0);
        let t = t1 * libm::pow(t_sat / t1, way);
        let liquid = table.sat(t);
        return liquid.h_l() + t * (s1 - liquid.s_l) + (p2 - table.p_sat(t)) / liquid.rho_l;
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Isentropic exponent of refrigerant vapour in a cylinder.
    const EXPONENT: f64 = 1.12;

    /// Pressure in a cylinder over that of the suction at a crank angle, 4 % clearance: re-expansion and suction, then compression and
    /// delivery at `ratio`.
    fn indicated(angle: f64, ratio: f64) -> f64 {
        let clearance = 0.04;
        let volume = clearance + (1.0 - libm::cos(angle)) / 2.0;
        if angle < core::f64::consts::PI {
            (ratio * libm::pow(clearance / volume, EXPONENT)).max(1.0)
        } else {
            libm::pow((1.0 + clearance) / volume, EXPONENT).min(ratio)
        }
    }

    /// From saturated R-134a at 280 K to 1.2 MPa without gain of entropy, by quality: CoolProp 8.0.0. Wet gas and liquid cost less than dry
    /// gas: what has condensed before the end is hardly compressed.
    #[test]
    fn wet_gas_and_liquid_cost_what_coolprop_says() {
        let (t, p_out) = (280.0, 1.2e6);
        let table = lowside_fluids::Refrigerant::R134a.table();
        let (sat, p) = (table.sat(t), table.p_sat(t));
        for (x, says) in [
            (1.0, 24_263.69),
            (0.6, 13_337.52),
            (0.3, 5_165.11),
            (0.15, 1_804.46),
            (0.1, 1_170.25),
            (0.05, 785.90),
            (0.0, 649.89),
        ] {
            let s = sat.s_l + x * (sat.s_g - sat.s_l);
            let h = sat.h_l() + x * (sat.h_g() - sat.h_l());
            let work = isentropic_enthalpy(table, s, p, p_out, t, sat.rho_g) - h;
            assert!((work - says).abs() < 15.0, "{x}: {work:.1} of {says}");
        }
    }

    /// By hand from an indicator diagram: what a hole lets out of a cylinder in the mean of a turn, and what it has cost by then.
    #[test]
    fn leaked_gas_has_cost_what_an_indicator_diagram_says() {
        let hole = |p: f64| (libm::pow(p, 1.0 / EXPONENT) * (p - 1.0)).max(0.0).sqrt();
        let work = |p: f64| libm::pow(p, 1.0 - 1.0 / EXPONENT) - 1.0;
        for ratio in [1.5, 2.0, 3.0, 4.4, 6.0, 8.0] {
            let (mut leaks, mut costs) = (0.0, 0.0);
            for k in 0..3600 {
                let p = indicated(f64::from(k) * core::f64::consts::TAU / 3600.0, ratio);
                leaks += hole(p);
                costs += hole(p) * work(p);
            }
            let cost = costs / leaks / work(ratio);
            assert!((cost - LEAKED_WORK).abs() < 0.07, "{ratio}: {cost:.3}");
        }
    }

    /// What leaks does so by the pressures and not by the speed: as a share of what is swept it falls as the shaft turns faster.
    #[test]
    fn a_leak_takes_its_time() {
        let worn = Compressor {
            displacement: 165e-6,
            wear: 1.0,
            dry: 0.0,
        };
        let leak = worn.leak(15.0, 3.5e5, 4.0);
        // An ideal nozzle chokes at 0.63 (p rho)^(1/2) a square metre (exponent 1.12); a sharp edge of 0.61 passes 0.83 of that at such
        // a drop (Perry 1949, see `flow`), one of 0.70 then 0.95.
        let nozzle = WORN_HOLE * 0.63 * (1.4e6_f64 * 15.0 * libm::pow(4.0, 1.0 / EXPONENT)).sqrt();
        assert!((leak / nozzle - 0.95).abs() < 0.03, "{leak} of {nozzle}");
        let sound = Compressor { wear: 0.0, ..worn };
        assert!(sound.leak(15.0, 3.5e5, 4.0) <= 0.0 && worn.leak(15.0, 3.5e5, 1.0) <= 0.0);
        let half = Compressor { wear: 0.5, ..worn };
        assert!((half.leak(15.0, 3.5e5, 4.0) / leak - 0.25).abs() < 1e-12);
    }
}
