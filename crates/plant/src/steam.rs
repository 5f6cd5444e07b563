//! Water in a volume with little or no refrigerant: vapour by its own saturation pressure, liquid or ice for the rest.
//!
//! Among dense refrigerant water rides along as it does in [`crate::moisture`]; there its vapour pressure, 3 kPa in a warm
//! room, is nothing beside hundreds. Where the refrigerant thins out, water answers for itself: by Dalton's law it adds the
//! saturation pressure over liquid or ice (IAPWS), or what it has if all of it is vapour. Evaporation is not limited by
//! kinetics (by Hertz and Knudsen some 76 g/(s m2) at 20 degC, far beyond any pump) but by the heat that reaches the water and by
//! the passages; freezing and melting take place within a tenth of a kelvin, so that energy rises with temperature all the way.
//!
//! Water that lies there clings to the walls as drops first, which take their heat from all around; what is more lies in puddles,
//! which take it through their own depth alone. So a puddle cools as it boils, may freeze, and outlasts the drops by far.

use lowside_fluids::water::{self, GAS_CONSTANT, LATENT_FUSION};

use crate::{
    network::Node,
    species::WATER,
    state::{CP_WATER, RHO_WATER, T_ZERO},
    stream::smooth,
};

/// Refrigerant density above which water has no vapour pressure of its own, kg/m3 (own figure: 24 kPa of R-134a in a warm room).
pub(crate) const THIN_REFRIGERANT: f64 = 1.0;
/// Density below which it has all of it, kg/m3 (own figure: 7 kPa).
const HARDLY_ANY: f64 = 0.3;
/// Enthalpy of water vapour at 0 degC, J/kg, liquid being zero there (ASHRAE Fundamentals 2017 ch. 1: 2 501 kJ/kg).
pub(crate) const H_VAPOUR: f64 = 2.501e6;
/// Heat capacity of water vapour at constant pressure, J/(kg K) (ASHRAE Fundamentals 2017 ch. 1: 1.86 kJ/(kg K)).
const CP_VAPOUR: f64 = 1860.0;
/// Heat capacity of ice, J/(kg K) (IAPWS R10-06 at 0 degC: 2 097).
const CP_ICE: f64 = 2097.0;
/// Half the range of temperature over which water freezes, K.
const FREEZES_WITHIN: f64 = 0.05;

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

/// What water adds to a volume beyond lying there as liquid. SI units.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Steam {
    /// Pressure, Pa.
    pub(crate) p: f64,
    /// Water that is vapour, kg.
    pub(crate) m: f64,
    /// Water that is ice, kg.
    pub(crate) ice: f64,
    /// Energy over that of liquid at the same temperature, J, and its slope, J/K.
    pub(crate) u: f64,
    pub(crate) u_t: f64,
    /// Pressure gained per kelvin, Pa/K, and per kilogram of water, Pa/kg.
    pub(crate) p_t: f64,
    pub(crate) p_m: f64,
    /// Energy gained per kilogram of water over that of liquid, J/kg.
    pub(crate) u_m: f64,
}

/// How far water goes by its own vapour pressure where the refrigerant has density `rho`, 0 to 1.
pub(crate) fn own(rho: f64) -> f64 {
    if rho >= THIN_REFRIGERANT {
        0.0
    } else {
        smooth((THIN_REFRIGERANT - rho) / (THIN_REFRIGERANT - HARDLY_ANY))
    }
}

/// Enthalpy of water vapour at `t` (K) over liquid at 0 degC, J/kg.
pub(crate) fn enthalpy(t: f64) -> f64 {
    H_VAPOUR + CP_VAPOUR * (t - T_ZERO)
}

/// Most water that is vapour in a gas space `v` (m3) at `t` (K), kg.
pub(crate) fn most_vapour(v: f64, t: f64) -> f64 {
    water::p_sat(t) * v / (GAS_CONSTANT * t)
}

/// Share of condensed water that is ice at `t` (K), and its slope, 1/K.
fn frozen(t: f64) -> (f64, f64) {
    let x = (T_ZERO + FREEZES_WITHIN - t) / (2.0 * FREEZES_WITHIN);
    if x <= 0.0 {
        (0.0, 0.0)
    } else if x >= 1.0 {
        (1.0, 0.0)
    } else {
        (x, -0.5 / FREEZES_WITHIN)
    }
}

/// Water (kg) in a gas space `v` (m3) at `t` (K), counted by the share `own`.
pub(crate) fn steam(water: f64, v: f64, t: f64, own: f64) -> Steam {
    let p_all = water * GAS_CONSTANT * t / v;
    let dt = t - T_ZERO;
    let (p_sat, slope) = water::p_sat_slope(t);
    let lift = H_VAPOUR + (CP_VAPOUR - CP_WATER) * dt - GAS_CONSTANT * t;
    let lift_t = CP_VAPOUR - CP_WATER - GAS_CONSTANT;
    let (ice, ice_t) = frozen(t);
    let below = (CP_ICE - CP_WATER) * dt - LATENT_FUSION;
    let rest = ice * below;
    let rest_t = ice_t * below + ice * (CP_ICE - CP_WATER);
    let (m, m_t, p, p_t, p_m, u_m) = if p_all <= p_sat {
        let p_m = GAS_CONSTANT * t / v;
        (water, 0.0, p_all, p_all / t, p_m, lift)
    } else {
        let m = p_sat * v / (GAS_CONSTANT * t);
        (m, m * (slope / p_sat - 1.0 / t), p_sat, slope, 0.0, rest)
    };
    Steam {
        p: own * p,
        m: own * m,
        ice: own * (water - m) * ice,
        u: own * (m * lift + (water - m) * rest),
        u_t: own * (m_t * (lift - rest) + m * lift_t + (water - m) * rest_t),
        p_t: own * p_t,
        p_m: own * p_m,
        u_m: own * u_m,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{network::Network, species::Content};
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
