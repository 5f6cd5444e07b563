//! What is in the loop at the start, and how it stands there.

use lowside_fluids::oil::Solution;

use crate::{
    circuit::Circuit,
    network::{Network, NodeId, PerNode},
    species::{AIR, Content, DISSOLVED, OIL, REFRIGERANT, WATER},
    state::{R_AIR, RHO_DISSOLVED, RHO_OIL},
};

/// What is in the loop at the start, kg, and the cabin's temperature, K.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Start {
    /// Refrigerant.
    pub charge: f64,
    /// Share of the refrigerant's mass that is the other of R-12 and R-134a; 0 for any other gas.
    pub other: f64,
    /// Air.
    pub air: f64,
    /// Water outside the desiccant.
    pub water: f64,
    /// Water the desiccant already holds, share of what it can hold.
    pub desiccant_load: f64,
    /// Oil.
    pub oil: f64,
    /// Cabin air and interior, K.
    pub cabin_t: f64,
}

/// Oil by part, common shares of a loop at rest (common practice): compressor, accumulator, evaporator, condenser; the lines
/// have the rest. The condenser's is tuned within 5 to 15 %, with what is left for the discharge line, so that recovery brings
/// oil along as the trade says.
const OIL_SHARES: [f64; 4] = [0.45, 0.25, 0.15, 0.09];
/// What of that lies in the liquid line: what its liquid brings along in a running loop, 2 to 4 % of its mass (SAE
/// 980286); tuned, 0.01-0.03, so that the peak after a start is what the compressor throws.
const IN_LIQUID: f64 = 0.015;
/// Most of a part's volume that oil takes at the start.
const OIL_FULL: f64 = 0.35;
/// Vapour and the dew on the walls of a part without a pool, over saturated vapour, when there is liquid anywhere (own figure).
const DAMP: f64 = 1.02;
/// Fullest any cell stands at the start.
const FULL: f64 = 0.9;
/// Fullest the accumulator stands while there is room elsewhere (tuned, 0.5-0.75: what a shallow recovery leaves in it).
const ACCUMULATOR_FULL: f64 = 0.67;

/// Least pressure a loop was ever pumped to, Pa absolute: 15 micron, what a two-stage rotary pump reaches with its inlet shut (common
/// practice, 10-50 micron). A loop without refrigerant holds so much air at the least.
pub const RESIDUE: f64 = 2.0;

/// Puts the start charge into an empty loop as it would stand: one temperature `t` (K), vapour everywhere, liquid where it
/// collects, the oil full of what it dissolves at that pressure. What does not fit (see
/// [`crate::vehicle::Vehicle::most_charge`]) is left out.
pub fn fill(net: &mut Network, c: &Circuit, start: &Start, solution: &Solution, t: f64) {
    let sat = net.table().sat(t);
    let all = c.nodes();
    let oils = spread_oil(net, c, start.oil);
    let oil: f64 = oils.values().iter().sum();
    // With liquid in the loop its walls are damp; without, the vapour stays short of saturation.
    let gas_share = |a: f64| if a >= 1.0 { DAMP } else { 0.999 };
    // The room that oil with its refrigerant leaves free, and what stands there at a share of saturation.
    let free = |a: f64, i: NodeId| {
        net.node(i).volume - oils[i] * (1.0 / RHO_OIL + solution.held(a) / RHO_DISSOLVED)
    };
    let room = |a: f64| -> f64 { all.iter().map(|&i| free(a, i)).sum() };
    let in_vapour = |a: f64| a * gas_share(a) * sat.rho_g * room(a) + solution.held(a) * oil;
    let (mut lo, mut hi) = (0.0, 1.0);
    if start.charge >= in_vapour(1.0) {
        lo = 1.0;
    } else {
        for _ in 0..60 {
            let mid = 0.5 * (lo + hi);
            if in_vapour(mid) < start.charge {
                lo = mid;
            } else {
                hi = mid;
            }
        }
    }
    let held = solution.held(lo);
    let vapour = lo * gas_share(lo) * sat.rho_g;
    let mut left = (start.charge - in_vapour(lo)).max(0.0);
    let mut level = net.per_node(0.0);
    let mut pour = |i: NodeId, up_to: f64| {
        let space = (up_to - level[i]) * free(lo, i) * (sat.rho_l - vapour);
        let take = left.min(space).max(0.0);
        level[i] += take / (free(lo, i) * (sat.rho_l - vapour));
        left -= take;
    };
    c.accumulator
        .nodes()
        .iter()
        .for_each(|&i| pour(i, ACCUMULATOR_FULL));
    let high = c.condenser.nodes().iter().chain(c.liquid_line.nodes());
    high.rev().for_each(|&i| pour(i, FULL));
    for section in [
        &c.evaporator,
        &c.accumulator,
        &c.suction_line,
        &c.discharge_line,
    ] {
        section.nodes().iter().for_each(|&i| pour(i, FULL));
    }

    let volume = room(lo);
    let gas_space: f64 = all.iter().map(|&i| (1.0 - level[i]) * free(lo, i)).sum();
    let least = RESIDUE - net.table().vapour(vapour, t).p;
    let air = start.air.max(least * gas_space / (R_AIR * t));
    let contents: Vec<(NodeId, Content)> = all
        .iter()
        .map(|&i| {
            let v = free(lo, i);
            let mut content = Content::default();
            content[REFRIGERANT] = v * (vapour + level[i] * (sat.rho_l - vapour));
            // Air spreads over the gas space alone, water over everything.
            content[AIR] = air * v * (1.0 - level[i]) / gas_space;
            content[WATER] = start.water * v / volume;
            content[OIL] = oils[i];
            content[DISSOLVED] = held * oils[i];
            (i, content)
        })
        .collect();
    for (i, content) in contents {
        net.inject(i, &content);
        if net.node(i).oil.walls.is_some() {
            net.set_washed(i, level[i] > 0.0);
        }
    }
}

/// Oil in each node at the start, kg.
fn spread_oil(net: &Network, c: &Circuit, oil: f64) -> PerNode<f64> {
    let [crankcase, accumulator, coil_cold, coil_hot] = OIL_SHARES;
    let discharge = 1.0 - OIL_SHARES.iter().sum::<f64>() - IN_LIQUID;
    let share = |i: NodeId| {
        if i == c.compressor_inlet() {
            crankcase
        } else if c.accumulator.has(i) {
            accumulator
        } else if c.evaporator.has(i) {
            coil_cold / c.evaporator.nodes().len() as f64
        } else if c.condenser.has(i) {
            coil_hot / c.condenser.nodes().len() as f64
        } else if i == c.liquid_line.outlet() {
            IN_LIQUID
        } else if i == c.discharge_line.outlet() {
            discharge
        } else {
            0.0
        }
    };
    // A part holds no more oil than leaves its gas a way through; the accumulator takes the rest.
    let most_oil = |i: NodeId| OIL_FULL * net.node(i).volume * RHO_OIL;
    let mut oils = net.per_node(0.0);
    let mut spilled = 0.0;
    for &i in c.nodes() {
        let due = oil * share(i);
        oils[i] = due.min(most_oil(i));
        spilled += due - oils[i];
    }
    oils[c.accumulator.outlet()] += spilled;
    oils
}
