//! What is in the loop at the start, and how it stands there.

use crate::{
    assembly::Places,
    condenser, evaporator,
    network::{Network, NodeId},
    species::{AIR, Content, OIL, REFRIGERANT, WATER},
    state::RHO_OIL,
};

/// What is in the loop at the start, kg, and the cabin's temperature, K.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// Refrigerant.
    pub charge: f64,
    /// Share of the refrigerant's mass that is the other of R-12 and R-134a; without meaning for any other gas.
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
/// have the rest.
const OIL_SHARES: [f64; 4] = [0.45, 0.25, 0.15, 0.10];
/// Most of a part's volume that oil takes at the start.
const OIL_FULL: f64 = 0.35;
/// Fullest any cell stands at the start.
const FULL: f64 = 0.9;
/// Fullest the accumulator stands while there is room elsewhere.
const ACCUMULATOR_FULL: f64 = 0.6;

/// Puts the start charge into an empty loop as it would stand: one temperature `t` (K), vapour everywhere, liquid where it
/// collects. What does not fit (see
/// [`crate::vehicle::Vehicle::most_charge`]) is left out.
pub fn fill(net: &mut Network, p: &Places, start: &Start, t: f64) {
    let sat = net.table().sat(t);
    let all = p.discharge..=p.suction;
    let volume: f64 = all.clone().map(|i| net.node(i).volume).sum();
    let vapour = (start.charge / volume).min(sat.rho_g * 0.999);
    let mut left = start.charge - vapour * volume;
    let mut level = vec![0.0; net.nodes().len()];
    let mut pour = |i: NodeId, up_to: f64| {
        let room = (up_to - level[i]) * net.node(i).volume * (sat.rho_l - vapour);
        let take = left.min(room).max(0.0);
        level[i] += take / (net.node(i).volume * (sat.rho_l - vapour));
        left -= take;
    };
    pour(p.accumulator, ACCUMULATOR_FULL);
    pour(p.liquid, FULL);
    (p.condenser..p.condenser + condenser::CELLS)
        .rev()
        .for_each(|i| pour(i, FULL));
    (p.evaporator..p.evaporator + evaporator::CELLS).for_each(|i| pour(i, FULL));
    pour(p.accumulator, FULL);
    pour(p.suction, FULL);
    pour(p.discharge, FULL);

    let [crankcase, accumulator, coil_cold, coil_hot] = OIL_SHARES;
    let lines = (1.0 - OIL_SHARES.iter().sum::<f64>()) / 2.0;
    let oil = |i: NodeId| {
        if i == p.suction {
            crankcase
        } else if i == p.accumulator {
            accumulator
        } else if (p.evaporator..p.evaporator + evaporator::CELLS).contains(&i) {
            coil_cold / evaporator::CELLS as f64
        } else if (p.condenser..p.condenser + condenser::CELLS).contains(&i) {
            coil_hot / condenser::CELLS as f64
        } else {
            lines
        }
    };
    // A part holds no more oil than leaves its gas a way through; the accumulator takes the rest.
    let most_oil = |i: NodeId| OIL_FULL * net.node(i).volume * RHO_OIL;
    let mut oils: Vec<f64> = net.nodes().iter().map(|_| 0.0).collect();
    let mut spilled = 0.0;
    for i in all.clone() {
        let share = start.oil * oil(i);
        oils[i] = share.min(most_oil(i));
        spilled += share - oils[i];
    }
    oils[p.accumulator] += spilled;
    let gas_space: f64 = all
        .clone()
        .map(|i| (1.0 - level[i]) * net.node(i).volume)
        .sum();
    for i in all {
        let v = net.node(i).volume;
        let mut content = Content::default();
        content[REFRIGERANT] = v * (vapour + level[i] * (sat.rho_l - vapour));
        // Air spreads over the gas space alone, water over everything.
        content[AIR] = start.air * v * (1.0 - level[i]) / gas_space;
        content[WATER] = start.water * v / volume;
        content[OIL] = oils[i];
        net.inject(i, &content);
    }
}
