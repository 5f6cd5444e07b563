//! What a link draws out of a node: phases, species, enthalpy.

use serde::{Deserialize, Serialize};

use crate::{
    film::Walls,
    species::{AIR, Content, DISSOLVED, OIL, REFRIGERANT, WATER},
    state::{CP_AIR, CP_OIL, CP_WATER, RHO_DISSOLVED, RHO_OIL, RHO_WATER, State, T_ZERO},
    steam,
};

/// How an opening sits in its node, which decides what leaves first.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Offtake {
    /// End of a tube in which vapour outruns liquid by Zivi's slip ratio (rho_l/rho_g)^(1/3) (Zivi 1964).
    Slip,
    /// End of a horizontal tube in which vapour drifts ahead of liquid (Rouhani & Axelsson 1970): the slower the flow, the more
    /// liquid stays behind.
    Drift {
        /// Cross-section of all parallel tubes, m2.
        area: f64,
    },
    /// End of a tube whose wall takes heat: vapour drifts ahead as in [`Offtake::Drift`] in the middle of its length, and what condenses
    /// over its second half comes on top.
    Condensing {
        /// Cross-section of all parallel tubes, m2.
        area: f64,
        /// Heat that the wall would take were it wetted by vapour all along, W (negative: gives).
        heat: f64,
    },
    /// End of a line so narrow that all phases move together.
    Mixed,
    /// From the bottom of a level: liquid, until less than `pull_through` of the volume is liquid and vapour is drawn in.
    Bottom {
        /// Liquid share of the volume below which vapour starts to be drawn.
        pull_through: f64,
    },
    /// From the top of a level: vapour, until more than `floods` of the volume is liquid and liquid is carried over.
    Top {
        /// Liquid share of the volume above which liquid starts to be carried over.
        floods: f64,
    },
    /// Pick-up tube of an accumulator: vapour from the top, and liquid with its oil through the bleed hole.
    PickUp {
        /// Liquid share of the volume above which liquid spills into the tube.
        floods: f64,
        /// Area of the bleed hole, m2.
        bleed_area: f64,
        /// Share of the volume that lies below the hole.
        below: f64,
        /// Pressure loss of the tube per squared mass flow over density, 1/m4, which draws the bleed.
        tube_loss: f64,
    },
}

/// How the oil of a volume gets on its way.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct OilPath {
    /// Speed of an oil film over that of the gas that drags it, for oil as thin as it is in a healthy loop.
    pub base: f64,
    /// The same for the oil as it is now: stiff oil creeps slower.
    pub creep: f64,
    /// That of refrigerant without oil over it, 0 to 1: a film of oily liquid flows so much slower.
    pub thin: f64,
    /// What is left of the conductance to a coil's wall of refrigerant without oil, 0 to 1.
    pub oily: f64,
    /// Share of a coil's film that leaves it a second, 1/s.
    pub leaves: f64,
    /// Share of it that the liquid around it has taken up, 0 to 1: a film that was dry is not washed off at once.
    pub washed: f64,
    /// The walls it creeps on, where they are those of a coil.
    pub walls: Option<Walls>,
    /// It is mixed into liquid refrigerant where there is any; otherwise it lies apart and creeps.
    pub mixes: bool,
}

impl OilPath {
    /// A path of this base speed, for oil that mixes with the refrigerant. A store that lets its oil creep no faster than
    /// 0.00075 keeps it in a sump when liquid passes over.
    pub fn new(base: f64) -> Self {
        Self {
            base,
            creep: base,
            thin: 1.0,
            oily: 1.0,
            leaves: 0.0,
            washed: 1.0,
            walls: None,
            mixes: base > KEPT,
        }
    }

    /// It is a sump rather than a film on a wall.
    pub fn sump(&self) -> bool {
        self.base <= KEPT
    }
}

/// Composition of a stream: kilograms carried per kilogram of stream, and its enthalpy.
#[derive(Debug, Clone, Copy, Default)]
pub struct Stream {
    /// Share of each species in the flow, summing to one.
    pub share: Content,
    /// Share of the flow that is liquid refrigerant.
    pub liquid: f64,
    /// Enthalpy per kilogram of the whole stream, J/kg.
    pub h: f64,
    /// Density of the flowing mixture, kg/m3.
    pub rho: f64,
}

/// Discharge coefficient of the bleed hole (sharp hole in thin wall, common practice).
const BLEED_CD: f64 = 0.6;
/// A store that lets its oil creep no faster than this keeps it in a sump when liquid passes over.
const KEPT: f64 = 0.00075;
/// Liquid over the oil that floats on it from which a hole at the bottom draws liquid alone.
const FLOATS: f64 = 0.1;
/// Viscosity over that of a thin film from which a bleed hole of about a millimetre passes less than its sharp edge would: its
/// Reynolds number is then some 50, and the coefficient goes with the root of that below (own figure).
const STIFF: f64 = 3.0;
/// Share of the volume above the hole up to which it draws gas along with the pool (own figure: some millimetres).
const BLEED_COVERED: f64 = 0.02;
/// Share of a volume above which oil is torn along instead of creeping (own figure).
const CROWDED: f64 = 0.4;
/// How much faster it then goes, per share of the volume above that (own figure).
const TORN: f64 = 300.0;
/// Most of a flow that is oil creeping as a film, and least flow counted in that share, kg/s (own figures).
const MOST_FILM: f64 = 0.3;
const TRICKLE: f64 = 1e-4;
/// Gas thinner than this drags oil the less, the thinner it is, kg/m3 (own figure).
const DRAGS: f64 = 1.0;
/// Flow that carries along all the water lying in a volume of gas, kg/s; less carries less, and at rest it stays (own figure:
/// a running loop passes 10 to 60 g/s, a vacuum pump through a hose half a gram at most).
const SWEEPS: f64 = 5e-3;
/// Standing head on the bleed hole, Pa (about 70 mm of liquid).
const BLEED_HEAD: f64 = 800.0;

/// What leaves `state` through an opening, given the flow of the last tick (kg/s) for the bleed.
pub fn withdraw(
    state: &State,
    content: &Content,
    how: &Offtake,
    last_flow: f64,
    path: &OilPath,
) -> Stream {
    let gas_mass = state.m_gas + content[AIR] + state.m_steam;
    let liq_mass = state.m_liq;
    let gas_rho = state.gas_density(content);
    // What it has dissolved goes with the oil.
    let solution = content[OIL] + content[DISSOLVED];
    let v_oil = content[OIL] / RHO_OIL + content[DISSOLVED] / RHO_DISSOLVED;
    let pool = matches!(how, Offtake::PickUp { .. })
        .then(|| Pool::of(state, liq_mass, solution, v_oil, path));
    let y = liquid_share(
        state,
        pool.as_ref(),
        how,
        gas_mass,
        gas_rho,
        last_flow,
        path,
    );

    // Oil is mixed into liquid where there is any and creeps as a film where there is none. From the top of a level none goes
    // along, from a pool with a bleed hole only what the hole lets through.
    let above = matches!(how, Offtake::Top { .. } | Offtake::PickUp { .. });
    let mixed =
        path.mixes || (!path.sump() && matches!(how, Offtake::Mixed | Offtake::Bottom { .. }));
    // Oil that crowds the passage is torn along the more, the less room it leaves.
    let torn = 1.0 + TORN * (v_oil / (v_oil + state.v_gas + state.v_liq) - CROWDED).max(0.0);
    let film = if above {
        0.0
    } else if path.walls.is_some() {
        (torn * path.leaves * solution / last_flow.abs().max(TRICKLE)).min(MOST_FILM)
    } else if gas_mass > 0.0 {
        (torn * path.creep * solution / gas_mass).min(MOST_FILM) * (gas_rho / DRAGS).min(1.0)
    } else {
        0.0
    };
    let (oil_in_liquid, oil_film) = if let Some(pool) = pool {
        (y * pool.oil, 0.0)
    } else if liq_mass > solution * 0.02 && liq_mass > 0.0 && mixed {
        let in_liquid = path.washed * y * solution / (liq_mass + solution);
        if path.walls.is_some() && film > in_liquid {
            (0.0, film)
        } else {
            (in_liquid, 0.0)
        }
    } else {
        (0.0, film)
    };
    let carried = oil_in_liquid + oil_film;
    // Each by its own share: a difference would let rounding carry off what is not there, and that would stop the flow.
    let (oil, dissolved) = if carried > 0.0 {
        let part = carried / solution;
        (part * content[OIL], part * content[DISSOLVED])
    } else {
        (0.0, 0.0)
    };
    let total = gas_mass + liq_mass;
    // Water is spread over what flows; its own vapour goes with the gas, and what lies there waits for a flow that sweeps.
    let water = if content[WATER] > state.m_steam && total > 0.0 {
        let lies = lying_water(state, content, last_flow);
        ((content[WATER] - state.m_steam - lies).max(0.0) / total).min(0.3)
    } else {
        0.0
    };
    let rest = (1.0 - carried - water).max(0.0);
    let liq_part = (y - oil_in_liquid).max(0.0) / (1.0 - oil_in_liquid).max(1e-9) * rest;
    let gas_part = rest - liq_part;
    let of_gas = |mass: f64| {
        if gas_mass > 0.0 {
            gas_part * (mass / gas_mass)
        } else {
            0.0
        }
    };
    let air = of_gas(content[AIR]);
    // By its own share where there are three, so that no rounding makes refrigerant where there is none.
    let (steam, vapour) = if state.m_steam > 0.0 {
        (of_gas(state.m_steam), of_gas(state.m_gas))
    } else {
        (0.0, gas_part - air)
    };

    let dt = state.t - T_ZERO;
    let h = liq_part * state.h_liq
        + vapour * state.h_gas
        + air * CP_AIR * dt
        + water * (CP_WATER * dt + state.p / RHO_WATER)
        + dissolved * (liquid_energy(state) + state.p / RHO_DISSOLVED)
        + oil * (CP_OIL * dt + state.p / RHO_OIL)
        + steam * steam::enthalpy(state.t);
    let v =
        liq_part / state.rho_liq + gas_part / gas_rho + oil / RHO_OIL + dissolved / RHO_DISSOLVED;
    let mut share = Content::default();
    share[REFRIGERANT] = liq_part + vapour;
    share[AIR] = air;
    share[WATER] = water + steam;
    share[OIL] = oil;
    share[DISSOLVED] = dissolved;
    Stream {
        share,
        liquid: liq_part,
        h,
        rho: 1.0 / v.max(1e-5),
    }
}

/// Water that lies in a volume without liquid refrigerant and is not carried along, kg: ice, and liquid in a slow flow.
fn lying_water(state: &State, content: &Content, last_flow: f64) -> f64 {
    if state.m_liq > 0.0 || state.v_gas <= 0.0 {
        return 0.0;
    }
    let lies = content[WATER] - steam::most_vapour(state.v_gas, state.t);
    if lies <= 0.0 {
        return 0.0;
    }
    let swept = smooth(last_flow.abs() / SWEEPS);
    let ice = state.m_ice.min(lies);
    ice + (lies - ice) * (1.0 - swept)
}

/// Energy of liquid refrigerant, J/kg: its enthalpy in a state counts the pressure it is under, that of saturation where there is
/// none.
fn liquid_energy(s: &State) -> f64 {
    let p = if s.m_liq > 0.0 { s.p } else { s.p_sat };
    s.h_liq - p / s.rho_liq
}

/// What lies at the bottom of a vessel.
struct Pool {
    /// Its share of the room.
    level: f64,
    /// Its density, kg/m3.
    rho: f64,
    /// Share of oil, with what that has dissolved, in what a hole at the bottom draws.
    oil: f64,
    /// How much less of it a small hole passes for being stiff, 0 to 1.
    ease: f64,
}

impl Pool {
    fn of(s: &State, liquid: f64, solution: f64, v_oil: f64, path: &OilPath) -> Self {
        let room = s.v_gas + s.v_liq;
        if solution <= 0.0 {
            return Self {
                level: s.v_liq / room.max(1e-12),
                rho: s.rho_liq,
                oil: 0.0,
                ease: 1.0,
            };
        }
        let whole = liquid + solution;
        let oil = solution / whole;
        let slow = (STIFF * path.creep / path.base.max(1e-12)).min(1.0).sqrt();
        // Oil that does not mix floats on the liquid, out of the hole's reach.
        let oil = if path.mixes || liquid <= FLOATS * solution {
            oil
        } else {
            0.0
        };
        Self {
            level: (s.v_liq + v_oil) / (room + v_oil).max(1e-12),
            rho: whole / (s.v_liq + v_oil),
            oil,
            ease: 1.0 - oil * (1.0 - slow),
        }
    }
}

fn liquid_share(
    state: &State,
    pool: Option<&Pool>,
    how: &Offtake,
    gas_mass: f64,
    gas_rho: f64,
    last_flow: f64,
    path: &OilPath,
) -> f64 {
    if state.m_liq <= 0.0 && pool.is_none_or(|pool| pool.oil <= 0.0) {
        return 0.0;
    }
    if gas_mass <= 0.0 {
        return 1.0;
    }
    let level = state.v_liq / (state.v_gas + state.v_liq);
    // A volumetric share of liquid in the flow, turned into a mass share.
    let by_volume = |l: f64| l * state.rho_liq / (l * state.rho_liq + (1.0 - l) * gas_rho);
    match *how {
        Offtake::Slip => {
            let slip = libm::cbrt(state.rho_liq / gas_rho.max(1e-6));
            let xs = gas_mass / (gas_mass + state.m_liq);
            1.0 - slip * xs / (1.0 + (slip - 1.0) * xs)
        }
        Offtake::Drift { area } => {
            let y = drift(
                1.0 - level,
                1.0 / state.rho_liq,
                1.0 / gas_rho,
                last_flow.abs() / area,
            );
            // A film of liquid that is rich in oil flows slower by its viscosity; a full tube's does not.
            if path.mixes {
                y * path.thin / (1.0 - y + y * path.thin)
            } else {
                y
            }
        }
        Offtake::Mixed => by_volume(level),
        Offtake::Condensing { area, heat } => {
            let flux = (last_flow.abs() / area).max(LEAST_FLUX);
            let y = drift(1.0 - level, 1.0 / state.rho_liq, 1.0 / gas_rho, flux);
            let half = half_length(heat, state.h_gas - state.h_liq, flux * area);
            if y < half {
                // The first part of it is dry: only the rest condenses, in the same straight line.
                2.0 * (half * y).sqrt()
            } else {
                // A wall that gives heat can dry the end to twice the mean's vapour: that is where all of it came from the second half.
                (y + half).max(2.0 * y - 1.0).clamp(0.0, 1.0)
            }
        }
        Offtake::Bottom { pull_through } => by_volume((level / pull_through).min(1.0)),
        Offtake::Top { floods } => by_volume(smooth((level - floods) / (1.0 - floods))),
        Offtake::PickUp {
            floods,
            bleed_area,
            below,
            tube_loss,
        } => pool.map_or(0.0, |pool| {
            let flow = last_flow.abs().max(TRICKLE);
            let suck = tube_loss * flow * flow / gas_rho.max(0.1) + BLEED_HEAD;
            let covered = ((pool.level - below) / BLEED_COVERED).clamp(0.0, 1.0);
            let bleed =
                BLEED_CD * bleed_area * (2.0 * pool.rho * suck).sqrt() * pool.ease * covered;
            let spill = by_volume(smooth((pool.level - floods) / (1.0 - floods)));
            spill.max((bleed / flow).min(0.3))
        }),
    }
}

/// 1.18 (g sigma (rho_l - rho_g))^(1/4) / rho_l^(1/2) in SI: within a seventh of this for the gases here from -5 to 60 degC.
const DRIFT: f64 = 0.106;
/// Least mass flux counted, kg/(s m2): at rest liquid runs level to level all the same, if slowly.
pub(crate) const LEAST_FLUX: f64 = 8.0;
/// Least latent heat counted, J/kg: near the critical point nothing is left of it.
const LEAST_LATENT: f64 = 1e4;

/// Quality that condenses over half the length of a tube whose wall takes `heat` (W, evenly) from a flow (kg/s) of a latent heat
/// (J/kg), at most one half; negative where the wall gives heat.
pub(crate) fn half_length(heat: f64, latent: f64, flow: f64) -> f64 {
    (0.5 * heat / (latent.max(LEAST_LATENT) * flow)).clamp(-0.5, 0.5)
}

/// Liquid mass share of the flow in a tube with void fraction `void` and mass flux `flux` (kg/(s m2)), for specific volumes of
/// liquid and gas `vl` and `vg` (m3/kg).
///
/// Rouhani & Axelsson, Int. J. Heat Mass Transfer 13 (1970) 383, in the form for horizontal tubes (Steiner; from memory):
/// 1/void = (1 + 0.12 (1-x)) (1 + (1-x) vl / (x vg)) + 1.18 (1-x) (g sigma (rl-rg))^(1/4) / (x vg flux rl^(1/2)).
/// With y = 1-x it is a quadratic in y.
pub fn drift(void: f64, vl: f64, vg: f64, flux: f64) -> f64 {
    let dv = vg - vl;
    let a = -0.12 * void * dv;
    let b = void * (0.12 * vg - dv + DRIFT / flux.max(LEAST_FLUX)) + vg;
    let c = -vg * (1.0 - void);
    let root = (b * b - 4.0 * a * c).max(0.0).sqrt();
    (-2.0 * c / (b + root)).clamp(0.0, 1.0)
}

/// A cubic step from 0 at 0 to 1 at 1.
pub(crate) fn smooth(x: f64) -> f64 {
    let x = x.clamp(0.0, 1.0);
    x * x * (3.0 - 2.0 * x)
}
