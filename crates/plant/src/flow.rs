//! Plain passages: tubes, hoses, valves, cores, leaks and one-way valves.
//!
//! A law answers with the flow at the pressures of now and a conductance that the end-of-tick solve may use: the chord
//! of the law to zero flow at equal pressures. With the chord a passage can bring two volumes to one pressure within a
//! tick but never throw them past it, however small the volumes are.

/// Pressure difference below which a passage runs laminar, Pa: it keeps the square-root law finite at rest.
pub const LAMINAR: f64 = 30.0;

/// Flow of a law and its chord, for the direction that the pressures give.
#[derive(Debug, Clone, Copy, Default)]
pub struct Rate {
    /// Mass flow from the first end to the second, kg/s.
    pub flow: f64,
    /// Mass flow gained per pascal at the first end, kg/(s Pa).
    pub by_from: f64,
    /// Mass flow lost per pascal at the second end, kg/(s Pa).
    pub by_to: f64,
}

impl Rate {
    /// A flow that answers alike, with opposite signs, to the pressures of both ends.
    pub fn chord(flow: f64, dp: f64, at_rest: f64) -> Self {
        let c = if dp.abs() > 1e-9 { flow / dp } else { at_rest };
        Self {
            flow,
            by_from: c,
            by_to: c,
        }
    }
}

/// Turbulent passage: m = k sqrt(rho dp), laminar near rest, choked for gas.
///
/// `k` is the effective area times sqrt 2 (m2), `rho` the density upstream, `p_up` and `p_sat` the upstream total and
/// saturation pressure, `liquid` the liquid share of what enters. Gas chokes when the drop passes 0.47 of the
/// upstream pressure (compressible orifice, expansion number near 1.1); a saturated liquid when it passes what flashing
/// leaves, taken as 0.15 of the saturation pressure above its own subcooling (own closure, see Kim & O'Neal 1995 on
/// choking once the outlet is below the saturation pressure of the inlet).
pub fn passage(k: f64, rho: f64, dp: f64, p_up: f64, p_sat: f64, liquid: f64) -> Rate {
    if k <= 0.0 {
        return Rate::default();
    }
    let limit_gas = 0.47 * p_up;
    let limit_liq = (p_up - p_sat).max(0.0) + 0.15 * p_sat;
    let limit = (liquid * limit_liq + (1.0 - liquid) * limit_gas).max(1.0);
    let eff = dp.abs().min(limit);
    let root = k * rho.max(0.0).sqrt();
    let flow = root * eff / (eff + LAMINAR).sqrt();
    Rate::chord(flow * dp.signum(), dp, root / LAMINAR.sqrt())
}

/// A passage constant from a rated drop: `k` such that `flow` (kg/s) of density `rho` loses `drop` Pa.
pub fn k_from_drop(flow: f64, rho: f64, drop: f64) -> f64 {
    flow / (rho * drop).sqrt()
}

/// A passage constant from a hole: discharge coefficient times area (m2).
pub fn k_from_hole(cd: f64, area: f64) -> f64 {
    cd * area * core::f64::consts::SQRT_2
}
