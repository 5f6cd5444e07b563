//! Water in the rubber of the hoses: it soaks in and comes out again within a day, so that a loop that was wet gives off a little under
//! any vacuum.
//!
//! Only where water has its own vapour pressure; among refrigerant the rubber keeps what it holds.

use lowside_fluids::water;

use crate::network::{Network, NodeId};

/// Water that a hose's rubber holds in saturated vapour, kg (own figure, plausible 0.1-1 g: a hundredth of the 25 g that the inner
/// millimetre of half a metre weighs).
const HOLDS: f64 = 0.25e-3;
/// Time in which it follows the vapour over it, s (own figure, plausible 5-50 h: a millimetre squared over a diffusivity of 2e-11 m2/s).
const TIME: f64 = 14.0 * 3_600.0;

/// Lets the rubber of a hose with these volumes take up or give off water for `dt` seconds.
pub(crate) fn soak(network: &mut Network, hose: &[NodeId], dt: f64) {
    let most = HOLDS / hose.len() as f64;
    for &id in hose {
        let node = network.node(id);
        let s = &node.state;
        if s.own_water <= 0.0 {
            continue;
        }
        let humid = (s.p_water / s.own_water / water::p_sat(s.t)).min(1.0);
        let moved = s.own_water * (most * humid - node.bound) * dt / TIME;
        network.bind(id, moved, 0.0);
    }
}
