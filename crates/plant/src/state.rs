//! The state of one volume: what it holds and its energy give temperature and pressure.
//!
//! Unknown is the temperature alone; at a given temperature the phases follow from the masses and the volume:
//! refrigerant vapour with air by Dalton's law, saturated liquid below it, or a volume full of compressed
//! liquid. Oil and water take up volume and heat; where refrigerant is thin, water has its own vapour pressure and can freeze
//! (`steam.rs`). Gas, two-phase, liquid-full, near-vacuum, air-only and water vapour are branches
//! of the same function, continuous where they meet, so that no caller needs to know which one it is in.

use serde::{Deserialize, Serialize};

use lowside_fluids::table::{SatPoint, Table};

use crate::{
    species::{AIR, Content, DISSOLVED, OIL, REFRIGERANT, SPECIES, WATER},
    steam,
};

mod wet;
use wet::wet;

/// Specific gas constant of dry air, J/(kg K).
pub const R_AIR: f64 = 287.055;
/// Isobaric heat capacity of dry air, J/(kg K).
pub const CP_AIR: f64 = 1006.0;
/// Density of the oil, kg/m3 (PAG at about 40 degC; from memory, range 980-1000).
pub const RHO_OIL: f64 = 990.0;
/// Heat capacity of the oil, J/(kg K) (PAG; from memory, range 1800-2200).
pub const CP_OIL: f64 = 2000.0;
/// Density of refrigerant dissolved in oil, kg/m3: about that of its liquid at 25 degC (R-134a 1207, R-12 1311, R-1234yf 1092).
pub const RHO_DISSOLVED: f64 = 1200.0;
/// Density of liquid water, kg/m3.
pub const RHO_WATER: f64 = 998.0;
/// Heat capacity of liquid water, J/(kg K).
pub const CP_WATER: f64 = 4186.0;
/// Heat capacity of liquid refrigerant, J/(kg K): enough for what a wall may give it at most (R-134a 1 340, R-12 930, R-1234yf 1 290 at
/// 0 degC).
const C_LIQUID: f64 = 1400.0;
/// Temperature at which air, oil and water have zero enthalpy, K.
pub const T_ZERO: f64 = 273.15;
/// Density of refrigerant vapour below which a volume counts as holding no refrigerant, kg/m3 (0.002 Pa).
const TRACE_DENSITY: f64 = 1e-7;
/// A step of the temperature too small to be taken, K: a thousandth of a pascal of saturation.
const CLOSE: f64 = 2e-7;
/// Coldest temperature looked for, K: liquid that sprays into a vacuum freezes itself to some 140 K before a wall warms it.
pub(crate) const T_LOW: f64 = 100.0;
/// Hottest temperature looked for, K: air that a compressor lifts by thirty times leaves it at some 850 K before its heat seizes it.
pub(crate) const T_HIGH: f64 = 1000.0;
/// Greatest pressure to which the tables of liquid hold, Pa (see [`lowside_fluids::table::Table::liquid`]).
pub(crate) const P_HIGH: f64 = 30e6;
/// Heat capacity of the skin of a volume's wall, which is as warm as the gas at once, J/K: a tenth of a square metre of aluminium
/// (2.4 MJ/(m3 K)), a micron deep, through which heat goes within a microsecond (own figure, 0.1 to 1 J/K are as true). Without it
/// the gas that first comes into an evacuated volume would be hotter from volume to volume.
pub(crate) const SKIN: f64 = 0.24;

/// Which phases of refrigerant a volume holds.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Phase {
    /// Gas alone: vapour, air, or both.
    #[default]
    Gas,
    /// Saturated liquid below gas.
    TwoPhase,
    /// Full of compressed liquid.
    Liquid,
}

/// Everything the network needs to know of one volume. SI units.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
pub struct State {
    /// Temperature, K.
    pub t: f64,
    /// Total absolute pressure, Pa.
    #[serde(skip)]
    pub p: f64,
    /// Partial pressure of air, Pa.
    #[serde(skip)]
    pub p_air: f64,
    /// Partial pressure of water by its own vapour pressure, Pa; 0 among dense refrigerant.
    #[serde(skip)]
    pub p_water: f64,
    /// Mass of water that is vapour by its own vapour pressure, kg.
    pub m_steam: f64,
    /// Mass of water that lies there as ice, kg.
    pub m_ice: f64,
    /// How far water goes by its own vapour pressure here, 0 (dense refrigerant) to 1 (near vacuum, or air alone).
    #[serde(skip)]
    pub own_water: f64,
    /// Phases present.
    #[serde(skip)]
    pub phase: Phase,
    /// Mass of liquid refrigerant, kg.
    #[serde(skip)]
    pub m_liq: f64,
    /// Mass of refrigerant vapour, kg.
    #[serde(skip)]
    pub m_gas: f64,
    /// Volume of the gas space, m3.
    #[serde(skip)]
    pub v_gas: f64,
    /// Volume of liquid refrigerant, m3.
    #[serde(skip)]
    pub v_liq: f64,
    /// Density of liquid refrigerant under the pressure there (saturated where none is present), kg/m3.
    #[serde(skip)]
    pub rho_liq: f64,
    /// Density of refrigerant vapour (saturated where none is present), kg/m3.
    #[serde(skip)]
    pub rho_gas: f64,
    /// Specific enthalpy of the liquid refrigerant, J/kg.
    #[serde(skip)]
    pub h_liq: f64,
    /// Specific enthalpy of the refrigerant vapour, J/kg.
    #[serde(skip)]
    pub h_gas: f64,
    /// Saturation pressure of the refrigerant at this temperature, Pa.
    #[serde(skip)]
    pub p_sat: f64,
    /// Pressure gained per joule at constant content, Pa/J.
    #[serde(skip)]
    pub dp_du: f64,
    /// Pressure gained per kilogram of each species at constant energy, Pa/kg.
    #[serde(skip)]
    pub dp_dm: [f64; SPECIES],
    /// Heat capacity at constant volume and content, J/K.
    #[serde(skip)]
    pub heat_capacity: f64,
    /// Of that, what water adds by its own vapour pressure, J/K.
    #[serde(skip)]
    pub steam_capacity: f64,
    /// Energy gained per kilogram of each species at constant temperature, J/kg.
    #[serde(skip)]
    pub du_dm: [f64; SPECIES],
    /// Content this state was found for, kg.
    pub content: Content,
    /// Its internal energy, J: that of the volume but for what the search left over.
    pub energy: f64,
}

impl Default for State {
    /// Nothing at 0 degC: where a search starts that knows no better.
    fn default() -> Self {
        Self {
            t: T_ZERO,
            p: 0.0,
            p_air: 0.0,
            p_water: 0.0,
            m_steam: 0.0,
            m_ice: 0.0,
            own_water: 0.0,
            phase: Phase::Gas,
            m_liq: 0.0,
            m_gas: 0.0,
            v_gas: 0.0,
            v_liq: 0.0,
            rho_liq: 0.0,
            rho_gas: 0.0,
            h_liq: 0.0,
            h_gas: 0.0,
            p_sat: 0.0,
            dp_du: 0.0,
            dp_dm: [0.0; SPECIES],
            heat_capacity: 0.0,
            steam_capacity: 0.0,
            du_dm: [0.0; SPECIES],
            content: Content::default(),
            energy: 0.0,
        }
    }
}

impl State {
    /// Finds anew what was not kept of a state: everything that follows from its content at its temperature. What was taken out of it
    /// between steps stays taken out.
    pub(crate) fn complete(&mut self, table: &Table, volume: f64) {
        let Self {
            m_steam,
            m_ice,
            content,
            energy,
            ..
        } = *self;
        at_temperature(table, &content, volume, self.t, self);
        *self = Self {
            m_steam,
            m_ice,
            content,
            energy,
            ..*self
        };
    }

    /// Density of refrigerant vapour, air and water vapour together, kg/m3 (of saturated vapour where there is no gas space).
    pub fn gas_density(&self, content: &Content) -> f64 {
        if self.v_gas > 0.0 {
            ((self.m_gas + content[AIR] + self.m_steam) / self.v_gas).max(1e-9)
        } else {
            self.rho_gas
        }
    }

    /// Heat capacity on the way to a wall at `t` (K), J/K: liquid and water give or take latent heat only as long as some of either
    /// lies there, or is vapour. A step that counted on more would carry a nearly empty volume past its wall.
    pub fn capacity_towards(&self, t: f64) -> f64 {
        let by = 1.0 / (t - self.t).abs().max(1e-9);
        let mut capacity = self.heat_capacity;
        if self.phase == Phase::TwoPhase && t > self.t {
            let c = &self.content;
            let dry = (self.m_liq + self.m_gas + c[DISSOLVED]) * C_LIQUID
                + c[AIR] * (CP_AIR - R_AIR)
                + c[OIL] * CP_OIL
                + c[WATER] * CP_WATER;
            let latent = self.m_liq * (self.h_gas - self.h_liq) * by;
            capacity = capacity.min(dry + latent + self.steam_capacity.max(0.0));
        }
        if self.own_water > 0.0 {
            let changes = if t > self.t {
                (self.content[WATER] - self.m_steam).max(0.0)
            } else {
                self.m_steam
            };
            let latent = changes * steam::H_VAPOUR * by;
            capacity += self.steam_capacity.min(latent) - self.steam_capacity;
        }
        capacity
    }

    /// Share of the volume open to gas, 0 to 1 of refrigerant and gas space.
    pub fn void_fraction(&self) -> f64 {
        let v = self.v_gas + self.v_liq;
        if v > 0.0 { self.v_gas / v } else { 1.0 }
    }

    /// Static quality: vapour mass over refrigerant mass, 0 to 1.
    pub fn quality(&self) -> f64 {
        let m = self.m_gas + self.m_liq;
        if m > 0.0 { self.m_gas / m } else { 1.0 }
    }
}

/// Solves temperature and pressure from masses, internal energy (J) and volume (m3), starting from `t_guess`.
///
/// The energy is a rising function of temperature, so that Newton's method, held inside a shrinking bracket, always
/// ends; two or three trials in ordinary steps. Air, oil and water count their energy from 0 degC; the refrigerant
/// from the IIR reference state. The search ends at 100 K and 1000 K: what asks for more keeps an energy that its state does not
/// have, and [`Network::advance`](crate::network::Network::advance) ends with an error.
pub fn solve(table: &Table, content: &Content, energy: f64, volume: f64, t_guess: f64) -> State {
    let mut state = State::default();
    search(table, content, energy, volume, t_guess, &mut state);
    state
}

/// Brings a state after a content and an energy (J) that have moved on a little: as [`solve`], from where the slopes of the
/// last state point to.
pub fn follow(table: &Table, content: &Content, energy: f64, volume: f64, state: &mut State) {
    let mut gained = energy - state.energy;
    for ((now, then), du) in content.0.iter().zip(state.content.0).zip(state.du_dm) {
        gained -= (now - then) * du;
    }
    let step = gained / state.heat_capacity;
    if *content != state.content || step.abs() >= CLOSE {
        search(table, content, energy, volume, state.t + step, state);
    }
}

fn search(
    table: &Table,
    content: &Content,
    energy: f64,
    volume: f64,
    t_guess: f64,
    state: &mut State,
) {
    let (mut lo, mut hi) = (T_LOW, T_HIGH);
    let mut t = t_guess.clamp(lo, hi);
    let mut miss = energy - at_temperature(table, content, volume, t, state);
    for _ in 0..60 {
        let step = miss / state.heat_capacity;
        if step.abs() < CLOSE {
            break;
        }
        if miss > 0.0 {
            lo = t;
        } else {
            hi = t;
        }
        if hi - lo < 1e-9 {
            break;
        }
        let next = t + step;
        t = if next > lo && next < hi {
            next
        } else {
            0.5 * (lo + hi)
        };
        miss = energy - at_temperature(table, content, volume, t, state);
    }
    state.content = *content;
    state.energy = energy - miss;
}

/// Internal energy (J) of a content at temperature and volume: the inverse of [`solve`], for setting a start.
pub fn energy_at(table: &Table, content: &Content, volume: f64, t: f64) -> f64 {
    at_temperature(table, content, volume, t, &mut State::default())
}

/// Phases of a content at a temperature, into `state`; returns their energy, J.
fn at_temperature(table: &Table, content: &Content, volume: f64, t: f64, state: &mut State) -> f64 {
    let m_ref = content[REFRIGERANT];
    let m_air = content[AIR];
    // Oil and water displace gas; a volume stuffed with oil keeps a sliver so that the gas law stays defined.
    let m_dissolved = content[DISSOLVED];
    let v_free = (volume
        - content[OIL] / RHO_OIL
        - content[WATER] / RHO_WATER
        - m_dissolved / RHO_DISSOLVED)
        .max(0.02 * volume);
    let inert_capacity = content[OIL] * CP_OIL + content[WATER] * CP_WATER;
    let sat = table.sat(t);
    let rho = m_ref / v_free;
    state.t = t;
    state.p_sat = sat.p;
    (state.p_water, state.m_steam, state.m_ice, state.own_water) = (0.0, 0.0, 0.0, 0.0);
    state.steam_capacity = 0.0;
    let mut trial = if rho <= sat.rho_g || rho < TRACE_DENSITY {
        gas(table, rho, v_free, t, m_air, &sat, state)
    } else if t >= table.t_max() {
        dense(table, rho, v_free, t, m_air, &sat, state)
    } else {
        wet(table, m_ref, v_free, t, m_air, &sat, state)
    };
    let dt = t - T_ZERO;
    // Dissolved refrigerant has the energy of its liquid: the heat of solution is the latent heat.
    trial.u += (inert_capacity + SKIN) * dt + m_dissolved * sat.u_l;
    trial.u_t += inert_capacity + SKIN + m_dissolved * sat.du_l;
    let mut water = (trial.stiffness / RHO_WATER, CP_WATER * dt);
    if content[WATER] > 0.0 && rho < steam::THIN_REFRIGERANT {
        add_steam(&mut trial, &mut water, content[WATER], rho, state);
    }
    let gamma = trial.p_t / trial.u_t;
    // What takes up room costs the energy of the gas and liquid it displaces: dU/dV at constant temperature is T dp/dT - p.
    let displaced = t * trial.p_t - state.p;
    let du_dm = [
        trial.u_m,
        trial.u_ma,
        water.1 - displaced / RHO_WATER,
        CP_OIL * dt - displaced / RHO_OIL,
        sat.u_l - displaced / RHO_DISSOLVED,
    ];
    let dp_dm = [
        trial.p_m,
        trial.p_ma,
        water.0,
        trial.stiffness / RHO_OIL,
        trial.stiffness / RHO_DISSOLVED,
    ];
    state.heat_capacity = trial.u_t;
    state.dp_du = gamma;
    for s in 0..SPECIES {
        state.dp_dm[s] = dp_dm[s] - gamma * du_dm[s];
    }
    state.du_dm = du_dm;
    trial.u
}

/// Adds what water does by its own vapour pressure to a trial, and to its slopes (Pa/kg, J/kg).
#[inline(never)]
fn add_steam(trial: &mut Trial, slopes: &mut (f64, f64), water: f64, rho: f64, state: &mut State) {
    let own = steam::own(rho);
    let w = steam::steam(water, state.v_gas, state.t, own);
    trial.u += w.u;
    trial.u_t += w.u_t;
    trial.p_t += w.p_t;
    slopes.0 += w.p_m;
    slopes.1 += w.u_m;
    state.p += w.p;
    state.p_water = w.p;
    state.m_steam = w.m;
    state.m_ice = w.ice;
    state.own_water = own;
    state.steam_capacity = w.u_t;
}

/// A trial before oil and water are counted: energy, slopes at constant temperature, and stiffness -dp/dV.
struct Trial {
    u: f64,
    u_t: f64,
    p_t: f64,
    u_m: f64,
    p_m: f64,
    u_ma: f64,
    p_ma: f64,
    stiffness: f64,
}

/// So much refrigerant (kg) fills the volume (m3) without liquid.
fn without_liquid(s: &mut State, m: f64, v: f64) {
    s.phase = Phase::Gas;
    (s.m_liq, s.m_gas) = (0.0, m);
    (s.v_liq, s.v_gas) = (0.0, v);
}

fn air_energy(t: f64) -> f64 {
    CP_AIR * (t - T_ZERO) - R_AIR * t
}

fn gas(
    table: &Table,
    rho: f64,
    v: f64,
    t: f64,
    m_air: f64,
    sat: &SatPoint,
    s: &mut State,
) -> Trial {
    let m = rho * v;
    let e = table.vapour(rho, t);
    let p_air = m_air * R_AIR * t / v;
    let u_air = air_energy(t);
    let h_gas = e.u
        + if rho > TRACE_DENSITY {
            e.p / rho
        } else {
            table.gas_constant() * t
        };
    s.p = e.p + p_air;
    s.p_air = p_air;
    without_liquid(s, m, v);
    s.rho_liq = sat.rho_l;
    s.rho_gas = rho;
    s.h_liq = sat.h_l();
    s.h_gas = h_gas;
    Trial {
        u: m * e.u + m_air * u_air,
        u_t: m * e.cv + m_air * (CP_AIR - R_AIR),
        p_t: e.dp_dt + p_air / t,
        u_m: e.u + rho * e.du_drho,
        p_m: e.dp_drho / v,
        u_ma: u_air,
        p_ma: R_AIR * t / v,
        stiffness: (rho * e.dp_drho + p_air) / v,
    }
}

/// Hotter than the saturation line goes and denser than its vapour: near and above the critical point.
///
/// Straight lines between the edges of the line's warm end, as in [`lowside_fluids::table::Phase::Dense`]; liquid beyond them.
/// Inexact, but rising and continuous, so that a loop driven there comes back.
fn dense(
    table: &Table,
    rho: f64,
    v: f64,
    t: f64,
    m_air: f64,
    warm: &SatPoint,
    s: &mut State,
) -> Trial {
    let (rho_g, rho_l) = (warm.rho_g, warm.rho_l);
    let liquid_share = ((rho - rho_g) / (rho_l - rho_g)).min(1.0);
    let thin = 1.0 - liquid_share;
    let g = table.vapour(rho_g, t);
    let l = table.liquid(rho.max(rho_l), t, warm);
    let edge_l = rho.max(rho_l);
    let (m, p_air, u_air) = (rho * v, m_air * R_AIR * t / v, air_energy(t));
    let p = thin * g.p + liquid_share * l.p;
    let (p_m, u_m) = if thin > 0.0 {
        (
            (l.p - g.p) / (rho_l - rho_g) / v,
            (rho_l * l.u - rho_g * g.u) / (rho_l - rho_g),
        )
    } else {
        (l.dp_drho / v, l.u + rho * l.du_drho)
    };
    let u = v * (thin * rho_g * g.u + liquid_share * edge_l * l.u);
    s.p = p + p_air;
    s.p_air = p_air;
    without_liquid(s, m, v);
    s.rho_liq = rho_l;
    s.rho_gas = rho;
    s.h_liq = warm.h_l();
    s.h_gas = u / m + p / rho;
    Trial {
        u: u + m_air * u_air,
        u_t: v * (thin * rho_g * g.cv + liquid_share * edge_l * l.cv) + m_air * (CP_AIR - R_AIR),
        p_t: thin * g.dp_dt + liquid_share * l.dp_dt + p_air / t,
        u_m,
        p_m,
        u_ma: u_air,
        p_ma: R_AIR * t / v,
        stiffness: rho * p_m,
    }
}

fn liquid_full(table: &Table, m: f64, v: f64, t: f64, sat: &SatPoint, s: &mut State) -> Trial {
    let rho = m / v;
    let e = table.liquid(rho, t, sat);
    s.p = e.p;
    s.p_air = 0.0;
    s.phase = Phase::Liquid;
    s.m_liq = m;
    s.m_gas = 0.0;
    s.v_gas = 0.0;
    s.v_liq = v;
    s.rho_liq = rho;
    s.rho_gas = sat.rho_g;
    s.h_liq = e.u + e.p / rho;
    s.h_gas = sat.h_g();
    Trial {
        u: m * e.u,
        u_t: m * e.cv,
        p_t: e.dp_dt,
        u_m: e.u + rho * e.du_drho,
        p_m: e.dp_drho / v,
        u_ma: air_energy(t),
        // Air forced into a full volume presses like any other intruder of its own density.
        p_ma: e.dp_drho / v,
        stiffness: rho * e.dp_drho / v,
    }
}

#[cfg(test)]
mod tests;
