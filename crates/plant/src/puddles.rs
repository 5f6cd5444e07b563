//! Water that lies in a volume near vacuum, and the heat that reaches it from the walls.
//!
//! It clings to the walls as drops first, which take their heat from all around; what is more lies in puddles, which take it through their
//! own depth alone. So a puddle cools as it boils, may freeze, and outlasts the drops by far.

use crate::{network::Node, species::WATER, state::RHO_WATER};

/// Water that clings to a wall as drops or film, kg/m2; more of it runs down and lies in puddles (own figure, plausible 0.5-5e-3: a
/// micron in the mean, since water beads on oily metal).
const CLINGS: f64 = 1e-3;
/// Water on a wall that counts as a trace, kg/m2: it no longer keeps the wall's warmth from the gas (own figure, 0.1-10e-6).
const TRACE: f64 = 1e-6;
/// Bore of the volumes whose walls are not on record, m (common practice for lines: 7-19 mm).
const BORE: f64 = 12e-3;
/// Depth of drops, and of puddles, m (own figures, plausible 0.2-1 and 1-4 mm: on metal a puddle stops to spread at some 3 mm, and its
/// bubbles stir it).
const DEEP: [f64; 2] = [0.5e-3, 2e-3];
/// Heat conductivity of water, W/(m K) (IAPWS R15-11 near 20 degC: 0.60).
const CONDUCTS: f64 = 0.60;

/// Conductance from a wall to water of a depth (m) lying on it, W/K for each kilogram.
const fn through(depth: f64) -> f64 {
    CONDUCTS / (depth * RHO_WATER * depth)
}

/// Conductance from the wall of a volume to what it holds, W/K: `dry` where no water lies, near vacuum that of drops and puddles.
pub(crate) fn touching(node: &Node, dry: f64) -> f64 {
    let s = &node.state;
    if s.own_water <= 0.0 {
        return dry;
    }
    let lies = node.content[WATER] - s.m_steam / s.own_water;
    if lies <= 0.0 {
        return dry;
    }
    let surface = node
        .oil
        .walls
        .map_or(4.0 / BORE * node.volume, |w| w.surface);
    let drops = lies.min(CLINGS * surface);
    let water = drops * through(DEEP[0]) + (lies - drops) * through(DEEP[1]);
    // The gas has the water's temperature: as long as more than a trace lies there, the wall's warmth reaches both through it alone.
    let covered = lies / (lies + TRACE * surface);
    dry + s.own_water * (water - covered * dry)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{network::Network, species::Content, steam::most_vapour};
    use lowside_fluids::Refrigerant;

    /// By hand, on 0.167 m2 of wall (half a litre of 12 mm bore): a tenth of a gram lies in drops, 1 200 W/m2/K on 2 cm2; of ten grams 0.167
    /// lie so, the rest 2 mm deep, 300 W/m2/K on 49 cm2. A trace leaves the gas the wall it had.
    #[test]
    fn puddles_take_heat_through_their_depth() {
        let conductance = |water: f64| {
            let mut net = Network::new(Refrigerant::R134a, 298.15, 101_325.0, 0.0);
            let content = Content([0.0, 0.0, water, 0.0, 0.0]);
            let id = net.add_node("line", 0.5e-3, content, 298.15, 0.0);
            touching(net.node(id), 15.0)
        };
        let vapour = most_vapour(0.5e-3, 298.15);
        let drops = conductance(0.1e-3 + vapour);
        assert!((drops / 0.24 - 1.0).abs() < 0.12, "{drops} W/K");
        let puddle = conductance(10e-3 + vapour);
        assert!((puddle / 1.88 - 1.0).abs() < 0.02, "{puddle} W/K");
        assert!(conductance(0.5 * vapour) > 14.999 && conductance(vapour + 1e-9) > 14.0);
        assert!(conductance(0.0) > 14.999, "none");
    }
}
