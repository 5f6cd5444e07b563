//! Liquid below gas: each phase by its own law, at one temperature and one pressure.
//!
//! The liquid is that of the tables at the density to which it is pressed, the vapour is saturated, the air is an ideal gas in the
//! gas space, and p_sat + p_air is what presses the liquid. So energy and entropy are sums over the phases, T dS = dU + p dV -
//! sum mu dm holds from a wide gas space to one that the liquid has squeezed to nothing, and the air-free volume, full or not, is
//! the exact limit. Left out is what air adds to the pressure of the vapour (Poynting).

use lowside_fluids::table::{Eval, SatPoint, Table};

use super::{CP_AIR, Phase, R_AIR, State, Trial, air_energy, liquid_full};

/// Step of the strain, of itself, from which the next would change nothing: they shrink by their squares.
const NEAR: f64 = 1e-7;

pub(super) fn wet(
    table: &Table,
    m: f64,
    v: f64,
    t: f64,
    m_air: f64,
    sat: &SatPoint,
    s: &mut State,
) -> Trial {
    if m_air > 0.0 {
        return pressed(table, m, v, t, m_air, sat, s);
    }
    let d_rho = sat.rho_l - sat.rho_g;
    let v_gas = ((sat.rho_l * v - m) / d_rho).min(v);
    if v_gas <= 0.0 {
        return liquid_full(table, m, v, t, sat, s);
    }
    let v_liq = v - v_gas;
    let (e_l, e_g) = (sat.rho_l * sat.u_l, sat.rho_g * sat.u_g);
    let dvl_dt = (-sat.drho_g * v - v_liq * (sat.drho_l - sat.drho_g)) / d_rho;
    let m_gas = (sat.rho_g * v_gas).min(m);
    (s.v_gas, s.v_liq) = (v_gas, v_liq);
    (s.m_gas, s.m_liq) = (m_gas, m - m_gas);
    s.rho_liq = sat.rho_l;
    s.h_liq = sat.h_l();
    under(s, 0.0, sat);
    Trial {
        u: (m - m_gas) * sat.u_l + m_gas * sat.u_g,
        u_t: v_liq * (sat.drho_l * sat.u_l + sat.rho_l * sat.du_l)
            + v_gas * (sat.drho_g * sat.u_g + sat.rho_g * sat.du_g)
            + dvl_dt * (e_l - e_g),
        p_t: sat.dp_dt,
        u_m: (e_l - e_g) / d_rho,
        p_m: 0.0,
        u_ma: air_energy(t),
        p_ma: R_AIR * t / v_gas,
        stiffness: 0.0,
    }
}

/// With air: the gas space is where its pressure is that of the liquid it presses.
///
/// Every slope is exact for these laws. With D = (V - v) times the sum of both stiffnesses, p_air of the gas and v dp/drho (rho - rho_g)
/// of the liquid, the gas space v gives way by v / D to whatever the liquid presses more.
fn pressed(
    table: &Table,
    m: f64,
    v: f64,
    t: f64,
    m_air: f64,
    sat: &SatPoint,
    s: &mut State,
) -> Trial {
    let rho_g = sat.rho_g;
    let Squeezed {
        v_gas,
        v_liq,
        p_air,
        liquid,
        rho,
    } = squeeze(table, m, v, t, m_air, sat);
    let Eval {
        dp_drho, du_drho, ..
    } = liquid;
    let heavier = rho - rho_g;
    let soft = dp_drho * heavier * v_gas;
    let by = 1.0 / (soft + p_air * v_liq);
    let m_gas = (rho_g * v_gas).min(m);
    let m_liq = m - m_gas;
    // What the liquid presses more by each kelvin at the same gas space, times its volume.
    let presses = v_liq * (liquid.dp_dt - sat.dp_dt - p_air / t) - dp_drho * sat.drho_g * v_gas;
    // Energy gained for each cubic metre of gas space.
    let by_space = rho_g * (sat.u_g - liquid.u) + rho * du_drho * heavier;
    (s.v_gas, s.v_liq) = (v_gas, v_liq);
    (s.m_gas, s.m_liq) = (m_gas, m_liq);
    s.rho_liq = rho;
    s.h_liq = liquid.u + (sat.p + p_air) / rho;
    under(s, p_air, sat);
    Trial {
        u: m_liq * liquid.u + m_gas * sat.u_g + m_air * air_energy(t),
        u_t: m_liq * liquid.cv - rho * du_drho * sat.drho_g * v_gas
            + v_gas * (sat.drho_g * (sat.u_g - liquid.u) + rho_g * sat.du_g)
            + m_air * (CP_AIR - R_AIR)
            - by_space * presses * v_gas * by,
        p_t: sat.dp_dt + p_air / t + p_air * presses * by,
        u_m: liquid.u + rho * du_drho - by_space * dp_drho * v_gas * by,
        p_m: p_air * dp_drho * by,
        u_ma: air_energy(t) + by_space * R_AIR * t * v_liq * by,
        p_ma: R_AIR * t * dp_drho * heavier * by,
        stiffness: p_air * dp_drho * rho * by,
    }
}

/// What a volume of liquid and saturated vapour has whatever there is of each.
fn under(s: &mut State, p_air: f64, sat: &SatPoint) {
    s.p = sat.p + p_air;
    s.p_air = p_air;
    s.phase = Phase::TwoPhase;
    s.rho_gas = sat.rho_g;
    s.h_gas = sat.h_g();
}

/// Gas space and liquid at one pressure.
struct Squeezed {
    v_gas: f64,
    v_liq: f64,
    p_air: f64,
    liquid: Eval,
    rho: f64,
}

/// Finds the strain d of the liquid, its density over that of saturation less one.
///
/// With d0 that of liquid filling the whole volume (negative while there is room), q = 1 - rho_g / rho_l and V the volume, the gas
/// space is V (d - d0) / (q + d): so (d - d0) P(d) = (q + d) m R T / V, P the pressure of the liquid above saturation. The left side is
/// convex; Newton's method starts at the root for a straight P. The unknown is d, or d - d0 where that is the smaller: neither cancels.
fn squeeze(table: &Table, m: f64, v: f64, t: f64, m_air: f64, sat: &SatPoint) -> Squeezed {
    let series = table.compressed(t, sat);
    let by_rho = 1.0 / sat.rho_l;
    let q = 1.0 - sat.rho_g * by_rho;
    let d0 = m / v * by_rho - 1.0;
    let (full, gap) = if d0 > 0.0 { (d0, 0.0) } else { (0.0, -d0) };
    let a = m_air * R_AIR * t / v;
    let k = if full > 0.0 {
        series.over(full).0 / full
    } else {
        series.over(0.0).1
    };
    let b = a - k * (gap + full);
    let c = a * (q + full);
    let root = (b * b + 4.0 * k * c).sqrt();
    let mut x = if b > 0.0 {
        (b + root) / (2.0 * k)
    } else {
        2.0 * c / (root - b)
    };
    for _ in 0..20 {
        let (p, slope) = series.over(full + x);
        let step = ((x + gap) * p - a * (q + full + x)) / (p + (x + gap) * slope - a);
        x = (x - step).max(0.1 * x);
        if step.abs() <= NEAR * x {
            break;
        }
    }
    let (strain, open) = (full + x, x + gap);
    let share = 1.0 / (q + strain);
    let rho = sat.rho_l * (1.0 + strain);
    Squeezed {
        v_gas: v * open * share,
        v_liq: v * (m / v - sat.rho_g) * by_rho * share,
        p_air: a * (q + strain) / open,
        liquid: series.at(rho),
        rho,
    }
}
