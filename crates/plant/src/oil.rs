//! The oil in the loop: what it dissolves, how it gets back to the compressor, and what its lack or surplus does.
//!
//! Refrigerant dissolved in oil is a species of its own that goes where the oil goes. Oil that lies in liquid refrigerant is one
//! phase with it and takes up what the law of the pair allows at once; elsewhere it follows the pressure with a lag, so that it
//! gives off gas under vacuum and after recovery. In the coils it creeps as a film
//! by the balance of shear and viscosity ([`crate::film`]): that is what keeps oil in a superheated evaporator (SAE 980286: most oil
//! returns with a wet evaporator exit; the film's viscosity explains it), and mineral oil, in which R-134a hardly dissolves,
//! anywhere cold.

use serde::{Deserialize, Serialize};

use lowside_fluids::{
    Refrigerant, moist_air, moisture,
    oil::{NU_LIQUID, Oil, Oils, Solution},
    water,
};

use crate::{
    built::{Built, Misfit},
    circuit::Circuit,
    film::{self, Walls, Wind},
    network::{FIRST, Network, Node, NodeId},
    species::{AIR, DISSOLVED, OIL, REFRIGERANT, WATER},
    state::{RHO_DISSOLVED, RHO_OIL},
    steam,
    stream::{OilPath, drift, smooth},
    tube,
};

/// Time in which oil in liquid refrigerant mixes with it, s (own figure).
const MIXING: f64 = 5.0;
/// Time in which liquid washes a film off the wall it wets, s (own figure, plausible 0.5-5: 12 um, what the condenser's walls are left with
/// at rest, squared over a diffusivity of 1e-10 m2/s).
const WASHING: f64 = 1.5;
/// Time in which a film on a wall follows the pressure, s (own figure: 50 um squared over a diffusivity of 1e-10 m2/s).
const FILM: f64 = 25.0;
/// Time in which oil beaten by the turning compressor follows the pressure, s (own figure).
const BEATEN: f64 = 45.0;
/// Time in which a pool stirred by the flow over it follows the pressure, s (common practice: 3-10 min).
const STIRRED: f64 = 300.0;
/// The same for a pool at rest, s (common practice: 0.5-2 h).
const QUIET: f64 = 3_600.0;
/// Flow that stirs a pool, kg/s (own figure).
const STIRRING: f64 = 5e-3;
/// How many times what it keeps at rest a pool holds when it begins to froth, and how many more till its bubbles stir it like a
/// flow (own figures: a shallow vacuum leaves oil quiet, a deep one makes it boil, common practice).
const FROTHS: (f64, f64) = (4.0, 8.0);
/// Liquid mass over that of the oil from which a volume counts as wet.
const WET: f64 = 0.1;
/// Power of the liquid's viscosity by which a coil's film coefficient falls: that of Re^0.8 Pr^0.4, on which condensing (Shah) and boiling
/// (Gungor & Winterton) both rest. That the viscosity of the liquid where it lies explains how oil hinders boiling, little at first and
/// by up to nine tenths near the end: Zuercher, Thome & Favrat 1998 (R-134a, 0 to 5 % of oil); Engineering Data Book III (2004) ch. 16.
/// The gain of a tenth to three tenths that they saw at low quality is left out.
const STIFFER: f64 = 0.4;
/// Viscosity for which the base speed of a film holds, m2/s (own figure: PAG 46 in a discharge line or with a fifth of
/// R-134a in it).
const THIN: f64 = 12e-6;
/// Slowest and fastest a film goes, times its base speed.
const CREEP: (f64, f64) = (0.01, 2.0);
/// How much more oil foam carries out of a crankcase, for each kilogram dissolved above equilibrium over one in equilibrium
/// (own figure, no source; it acts under deep suction only, since what is dissolved is capped).
const FOAM: f64 = 4.0;
/// Time in which oil takes up water from the refrigerant around it or from air above it, s (own figure: a bottle of PAG left
/// open gains a percent or two in a day).
const WATER_TIME: f64 = 48.0 * 3_600.0;
/// The same for a film on a wall, where water has its own vapour pressure, s (own figure, plausible 50-1 000: 50 um squared over a
/// diffusivity of 1e-11 m2/s; water holds to PAG harder than the refrigerant does).
const WATER_IN_FILM: f64 = 250.0;
/// The same for a pool at rest under vacuum, s: a month (own figure, plausible weeks to years: 1 cm squared over 4e-11 m2/s; common
/// practice: no vacuum takes water out of oil).
const WATER_IN_POOL: f64 = 30.0 * 24.0 * 3_600.0;
/// Pressure of air from which a pool under it is not at rest, Pa (own figure).
const STIRS: f64 = 50e3;
/// Oil of the whole loop that has to be in the compressor lest bearings and rings run short, share (tuned, 0.15-0.35: two thirds of what
/// is there in a healthy loop, so that a loop with two fifths of its oil runs hot, common practice).
const WELL: f64 = 0.23;
/// Torque that friction adds without any oil, N m (own figure: a third of the torque of a working compressor).
const DRY_TORQUE: f64 = 6.0;

/// Oil and refrigerant of one loop.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct LoopOil {
    /// Which oils, as if the whole loop's were one (a simplification: what was poured in reaches everywhere at once).
    pub oils: Oils,
    /// Its tables.
    #[serde(skip)]
    pub solution: Built<Solution>,
    /// What is around it.
    gas: Refrigerant,
    /// Which node is looked at next: one a tick, since oil is slow.
    pub turn: NodeId,
}

impl LoopOil {
    /// An oil in a loop of this refrigerant.
    pub fn new(kind: Oil, gas: Refrigerant) -> Self {
        Self {
            oils: Oils::pure(kind),
            solution: Built::new(Solution::new(kind, gas)),
            gas,
            turn: FIRST,
        }
    }

    /// Gives a state that was read its tables, those of an oil that was built where they are the same, in this network.
    pub(crate) fn put_with(&mut self, built: &Self, net: &Network) -> Result<(), Misfit> {
        net.knows_node("oil.turn", self.turn)?;
        if (self.oils, self.gas) == (built.oils, built.gas) {
            self.solution = built.solution.clone();
        } else {
            self.dissolve_anew();
        }
        Ok(())
    }

    /// From now on there is another gas around it.
    pub fn change_gas(&mut self, gas: Refrigerant) {
        self.gas = gas;
        self.dissolve_anew();
    }

    /// `kg` of other oils are poured to the `held` kg that are there.
    pub fn pour(&mut self, oils: &Oils, kg: f64, held: f64) {
        self.oils.mix(oils, kg, held);
        self.dissolve_anew();
    }

    fn dissolve_anew(&mut self) {
        self.solution = Built::new(self.oils.solution(self.gas));
    }

    /// Lets `dt` seconds pass for the oil of every node; one node's rates are found anew. `turning`: the compressor turns.
    pub fn advance(&mut self, net: &mut Network, c: &Circuit, turning: bool, dt: f64) {
        let id = self.turn;
        self.turn = net.after(id);
        let visit = dt * net.node_ids().count() as f64;
        let node = net.node(id);
        if node.content[OIL] > 0.0 || node.content[DISSOLVED] > 0.0 || node.dissolving != 0.0 {
            let crankcase = id == c.compressor_inlet();
            let beaten = turning && crankcase;
            let pool = crankcase || c.accumulator.has(id);
            let flow = net.link(c.pick_up()).flow.abs();
            let (rate, excess) = self.rate(node, pool, beaten, flow, visit);
            let foam = if beaten { excess } else { 0.0 };
            let circulates = net.link(c.orifice()).oil;
            let mut path = self.path(node, foam, passing(net, c, id), circulates);
            if path.walls.is_some() {
                let goal = f64::from(u8::from(wet(node)));
                path.washed += (goal - path.washed) * visit / (WASHING + visit);
            }
            net.set_oil(id, rate, path);
            self.exchange_water(net, id, pool, visit);
        }
        net.dissolve(dt);
    }

    /// Rate at which a node's oil takes up refrigerant, kg/s, and what it holds above equilibrium over what it would hold there.
    fn rate(&self, node: &Node, pool: bool, beaten: bool, flow: f64, visit: f64) -> (f64, f64) {
        let s = &node.state;
        let (oil, held) = (node.content[OIL], node.content[DISSOLVED]);
        let at_rest = oil
            * self
                .solution
                .held((s.p - s.p_air - s.p_water) / s.p_sat.max(1.0));
        let time = if wet(node) {
            MIXING
        } else if beaten {
            BEATEN
        } else if pool {
            // Oil that holds many times what it could keep at this pressure froths, and its own bubbles stir it.
            let froth = ((held - FROTHS.0 * at_rest) / (FROTHS.1 * at_rest).max(1e-12)).max(0.0);
            let stirred = (flow / STIRRING).max(froth).min(1.0);
            1.0 / (stirred / STIRRED + (1.0 - stirred) / QUIET)
        } else {
            FILM
        };
        // What is given off raises the pressure it has to come off against: found implicitly for a shut volume.
        let around = node.content[REFRIGERANT].max(1e-12);
        let x = visit / time;
        let moved = (at_rest - held) * x / (1.0 + x * (1.0 + at_rest / around));
        let excess = (held - at_rest) / (at_rest + 0.05 * oil).max(1e-9);
        (moved / visit, excess.max(0.0))
    }

    /// How a node's oil gets on its way now, with `flow` (kg/s) passing through the node if it is a coil's and oil being the share
    /// `circulates` of the loop's flow.
    fn path(&self, node: &Node, foam: f64, flow: f64, circulates: f64) -> OilPath {
        let base = node.oil.base;
        if node.oil.sump() {
            return OilPath {
                creep: base * (1.0 + FOAM * foam),
                ..node.oil
            };
        }
        let (s, c) = (&node.state, &node.content);
        let oil = c[OIL].max(1e-12);
        let nu = |refrigerant: f64| self.solution.viscosity(s.t, refrigerant / oil);
        let film = nu(c[DISSOLVED]);
        let whole = if self.solution.miscible {
            nu(c[DISSOLVED] + s.m_liq)
        } else {
            film
        };
        let thin = (NU_LIQUID / whole).min(1.0);
        OilPath {
            creep: base * (THIN / film).clamp(CREEP.0, CREEP.1),
            leaves: node
                .oil
                .walls
                .map_or(0.0, |walls| leaves(node, walls, film, flow)),
            thin,
            oily: if node.oil.walls.is_none() {
                1.0
            } else if self.solution.miscible {
                libm::pow(thin, STIFFER)
            } else {
                apart_factor(circulates)
            },
            mixes: self.solution.miscible,
            ..node.oil
        }
    }

    /// Oil and what is around it share the water: at rest the oil is as far from saturation as they are.
    fn exchange_water(&self, net: &mut Network, id: NodeId, pool: bool, visit: f64) {
        let node = net.node(id);
        let (c, t) = (&node.content, node.state.t);
        if c[WATER] + node.oil_water <= 1e-9 {
            return;
        }
        let most = self.oils.water_at_saturation() * c[OIL];
        let dissolves = moisture::solubility(net.mostly(), t) * c[REFRIGERANT];
        let in_air = if c[AIR] > 0.0 && c[REFRIGERANT] < c[AIR] {
            moist_air::humidity_ratio(t, 1.0, node.state.p.max(1e4)) * c[AIR]
        } else {
            0.0
        };
        let among = (c[WATER] / (dissolves + in_air).max(1e-12)).min(1.0);
        // Near vacuum there is neither to be humid: water answers by its own pressure, as it does to a desiccant.
        let own = steam::own(c[REFRIGERANT] / node.state.v_gas.max(1e-9));
        let humid = if own > 0.0 {
            let by_vapour = (node.state.p_water / own / water::p_sat(t)).min(1.0);
            own * by_vapour + (1.0 - own) * among
        } else {
            among
        };
        let time = if own <= 0.0 {
            WATER_TIME
        } else if pool {
            // Air and refrigerant come and go and stir it; under vacuum nothing does.
            let still = own * (1.0 - node.state.p_air / STIRS).clamp(0.0, 1.0);
            1.0 / (still / WATER_IN_POOL + (1.0 - still) / WATER_TIME)
        } else {
            1.0 / (own / WATER_IN_FILM + (1.0 - own) / WATER_TIME)
        };
        // What is given off raises the pressure it has to come off against, as in `rate`.
        let at_rest = most * humid;
        let slowed = 1.0 + own * at_rest / c[WATER].max(1e-12);
        let share = visit / (time + visit * slowed);
        net.absorb(id, (at_rest - node.oil_water) * share);
    }
}

/// Whether a node's oil lies in liquid refrigerant.
fn wet(node: &Node) -> bool {
    node.state.m_liq > WET * node.content[OIL]
}

/// Share of the film on a coil's walls that leaves the node a second, 1/s: oil of kinematic viscosity `nu` under a flow (kg/s) of gas
/// and liquid as one mixture.
fn leaves(node: &Node, walls: Walls, nu: f64, flow: f64) -> f64 {
    let (s, c) = (&node.state, &node.content);
    let volume = c[OIL] / RHO_OIL + c[DISSOLVED] / RHO_DISSOLVED;
    if volume <= 0.0 || flow <= 0.0 {
        return 0.0;
    }
    let rho_gas = s.gas_density(c).max(1e-6);
    let flux = flow / walls.flow_area;
    let liquid = if s.m_liq > 0.0 {
        let level = s.v_liq / (s.v_gas + s.v_liq).max(1e-12);
        drift(1.0 - level, 1.0 / s.rho_liq, 1.0 / rho_gas, flux)
    } else {
        0.0
    };
    let rho = 1.0 / ((1.0 - liquid) / rho_gas + liquid / s.rho_liq);
    let wind = Wind {
        speed: flux / rho,
        rho,
        mu: tube::viscosity(s),
    };
    let mu = nu * (c[OIL] + c[DISSOLVED]) / volume;
    let length = walls.surface * walls.bore / (4.0 * walls.flow_area);
    film::speed(wind, volume / walls.surface, mu, walls.bore) / length
}

/// Flow through a coil's node now, kg/s; 0 for other nodes.
fn passing(net: &Network, c: &Circuit, id: NodeId) -> f64 {
    let flow = |link| net.link(link).flow.abs();
    if c.condenser.has(id) {
        flow(c.compressor()).max(flow(c.condenser.out()))
    } else if c.evaporator.has(id) {
        flow(c.orifice()).max(flow(c.pick_up()))
    } else {
        0.0
    }
}

/// Conductance of a coil's refrigerant side over that without oil, where oil does not mix with the refrigerant, by the oil's share of
/// the flow through it (0 to 1).
///
/// About -10 % at 5 % of oil: the order that measurements of condensing and boiling in plain tubes show for the whole of a
/// coil (from memory: Schlager, Pate & Bergles 1990; they scatter from a gain at 1-2 % to -20 % at 5 %). A straight line, held
/// at half.
fn apart_factor(share: f64) -> f64 {
    1.0 - 2.0 * share.clamp(0.0, 0.25)
}

/// Flow of an orifice tube over that without oil, by the oil's share of the flow, subcooling (K) and quality at the inlet.
///
/// Kim & O'Neal (ASHRAE Trans. 100(1) 1994), 0 to 5.1 % of PAG in R-134a: -12.1 % at worst, at no subcooling and 5.1 %; a small
/// gain above 8.3 K and at 5 % of quality. The course between, and the gain's 2 %, are our own.
pub fn orifice_factor(share: f64, subcooling: f64, quality: f64) -> f64 {
    /// Loss and gain for each share of oil.
    const LOSS: f64 = 0.121 / 0.051;
    const GAIN: f64 = 0.02 / 0.051;
    let near = (1.0 - smooth(subcooling / 11.0)) * (1.0 - smooth(quality / 0.06));
    let far = smooth(1.0 - quality / 0.2);
    1.0 + share.clamp(0.0, 0.06) * (GAIN * (1.0 - near) * far - LOSS * near)
}

/// How far the compressor is short of oil: 0 with enough in it, 1 with none. `oil` is what it holds, `whole` what the loop was
/// filled with, kg.
pub fn shortage(oil: f64, whole: f64) -> f64 {
    1.0 - smooth(oil / (WELL * whole).max(1e-6))
}

/// Power that friction takes for want of oil, W, at a shaft speed (1/min).
pub fn friction(shortage: f64, rpm: f64) -> f64 {
    DRY_TORQUE * shortage * rpm * crate::engine::RAD_S
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Kim & O'Neal 1994 (abstract): the worst case, and where oil helps a little.
    #[test]
    fn oil_hinders_an_orifice_most_at_no_subcooling() {
        let f = |sub, x| orifice_factor(0.051, sub, x);
        assert!((f(0.0, 0.0) - 0.879).abs() < 1e-3);
        assert!(f(9.0, 0.0) > 0.98 && f(11.0, 0.0) > 1.0, "{}", f(9.0, 0.0));
        assert!(f(0.0, 0.05) > 0.98, "{}", f(0.0, 0.05));
        assert!(orifice_factor(0.0, 0.0, 0.0) >= 1.0 && f(4.0, 0.0) > f(0.0, 0.0));
    }

    #[test]
    fn a_dry_compressor_rubs() {
        assert!(shortage(0.1, 0.237).abs() < 1e-12);
        assert!(shortage(0.03, 0.237) > shortage(0.05, 0.237) && shortage(0.05, 0.237) > 0.0);
        assert!((shortage(0.0, 0.237) - 1.0).abs() < 1e-12);
        // 6 N m at 1 950 turns a minute.
        assert!((friction(1.0, 1950.0) - 1225.0).abs() < 1.0);
    }
}
