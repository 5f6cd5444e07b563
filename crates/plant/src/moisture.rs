//! Water that leaves the flow: into the desiccant of the accumulator, and as ice into the orifice tube.
//!
//! Everywhere else water rides along with the refrigerant, one concentration in vapour and liquid (see
//! [`lowside_fluids::moisture`]); what the liquid cannot dissolve is carried as droplets. Water bound here stays in the books
//! of its node, see [`crate::network::Node::bound`].

use lowside_fluids::moisture::{
    FUSION, RHO_ICE, SIEVE_CAPACITY, T_FREEZE, melts_above, sieve_saturation, solubility,
};
use lowside_fluids::water;

use crate::{
    network::{LinkId, Network, NodeId},
    orifice::Orifice,
    provoked::Provoked,
    species::{AIR, REFRIGERANT, WATER},
    steam,
    stream::smooth,
    vehicle::RATED_FLOW,
};

/// Time in which a bag lying in liquid draws the water of the accumulator's refrigerant to its equilibrium, s (own figure;
/// common practice 10-60 min).
const WETTED: f64 = 600.0;
/// The same in vapour, s (own figure; common practice "hours").
const IN_VAPOUR: f64 = 4.0 * 3600.0;
/// Vapour by its own pressure that a bag draws in, m3/(s kg): an empty one fills in that time in saturated vapour at 25 degC (0.21 kg/kg
/// of 0.023 kg/m3).
const TAKES_IN: f64 = SIEVE_CAPACITY / (0.023 * IN_VAPOUR);
/// The same in the air of an accumulator that stands open, s (own figure: 30 cm3/s past 100 cm2 of bag).
const IN_AIR: f64 = 30.0;
/// Liquid share of the accumulator from which the whole bag is wetted (own figure).
const BAG_UNDER: f64 = 0.2;
/// A desiccant loaded up to this share of what it can hold leaves less than 0.01 mg/kg in the refrigerant up to 60 degC: it
/// gives nothing back to an accumulator with no more than a trace of water, kg.
const DRY: (f64, f64) = (0.1, 1e-9);

/// Share of the accumulator's water that a bag in its vapour may take in one tick.
const MOST_VAPOUR_AT_ONCE: f64 = 0.5;

/// Lets the desiccant (kg, dry) of an accumulator take up or give back water for `dt` seconds.
///
/// Among refrigerant the concentration in the accumulator goes to that in equilibrium with the load, at one rate (linear driving
/// force). Where water has its own vapour pressure, the flow into the bag goes with what that exceeds the pressure in equilibrium with the
/// load by: the thinner the vapour, the slower it is taken up, never below the isotherm, and under vacuum a sieve at room temperature
/// keeps most of its water. The heat of adsorption beyond that of condensing, some 1.5 MJ/kg of water or a watt
/// while a wet loop dries, is left out.
pub fn dry(network: &mut Network, accumulator: NodeId, desiccant: f64, dt: f64) {
    if desiccant <= 0.0 {
        return;
    }
    let node = network.node(accumulator);
    let (t, held) = (node.state.t, node.bound);
    let capacity = SIEVE_CAPACITY * desiccant;
    if node.content[WATER] <= DRY.1 && held <= DRY.0 * capacity {
        return;
    }
    let level = 1.0 - node.state.void_fraction();
    let wet = smooth(level / BAG_UNDER);
    // In an accumulator that stands open the bag is in air, not in refrigerant.
    let open = node.content[AIR] > node.content[REFRIGERANT];
    let dry = if open { IN_AIR } else { IN_VAPOUR };
    let rate = wet / WETTED + (1.0 - wet) / dry;
    let share = rate * dt / (1.0 + rate * dt);
    let at_rest = node.content[REFRIGERANT]
        * solubility(network.mostly(), t)
        * sieve_saturation(held / desiccant, t);
    let room = (capacity - held).max(0.0);
    let mut taken = (node.content[WATER] - at_rest) * share;
    let own = steam::own(node.content[REFRIGERANT] / node.state.v_gas.max(1e-9));
    if own > 0.0 {
        let over = water::p_sat(t) * sieve_saturation(held / desiccant, t);
        let drawn = TAKES_IN * desiccant * (node.state.p_water / own - over)
            / (water::GAS_CONSTANT * t)
            * dt;
        taken = own * drawn.min(MOST_VAPOUR_AT_ONCE * node.state.m_steam) + (1.0 - own) * taken;
    }
    network.bind(accumulator, taken.min(room), 0.0);
}

/// Share of the water beyond solubility that sticks in the tube instead of passing (own figure, plausible 0.02-0.1).
const CAPTURE: f64 = 0.05;
/// Conductance from the ice to the stream that leaves the tube at the rated flow, W/K (own figure: 6 mm of bore at
/// 10 kW/(m2 K); plausible 0.1-2). It falls with flow to the power 0.8.
const FILM: f64 = 0.3;
/// The same at rest, W/K (own figure).
const FILM_AT_REST: f64 = 0.01;
/// Conductance from the air under the hood to the ice, W/K. Small, since the cold pipe behind the tube keeps the line's wall
/// cold (tuned so that a plug melts within minutes of rest, as common practice has it; plausible 0.001-0.03).
const THROUGH_LINE: f64 = 0.001;
/// Water below which nothing freezes out, kg per kg of refrigerant: under the solubility in any of the gases down to -45 degC.
const NEVER: f64 = 1e-6;
/// Time in which ice in the tube goes over to the cell when the refrigerant is gone, s (own figure).
const LEFT_ALONE: f64 = 60.0;
/// Share of the first evaporator cell's water that may freeze in one tick.
const MOST_AT_ONCE: f64 = 0.5;

/// An orifice tube seen as a place for ice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube(pub Orifice);

impl Tube {
    /// Ice that closes the clean bore, kg.
    fn plug(&self) -> f64 {
        let clean = Orifice {
            open: 1.0,
            ..self.0
        };
        RHO_ICE * clean.area() * self.0.length
    }

    /// The tube with so much ice (kg) spread over its length.
    pub fn with_ice(self, ice: f64) -> Orifice {
        if ice <= 0.0 {
            return self.0;
        }
        Orifice {
            open: (self.0.open - ice / self.plug()).max(0.0),
            ..self.0
        }
    }

    /// Ice that closes what is open of the bore, kg.
    pub fn most_ice(&self) -> f64 {
        self.plug() * self.0.open
    }
}

/// Lets ice grow or melt in the tube of link `orifice` for `dt` seconds, in air of `hood_t` K and with what is laid round it by hand.
/// The ice is in the books of the cell behind it.
///
/// The stream behind the tube cools the place where ice sits, the air under the hood warms it through the line. Where this
/// would bring it below 0 degC, ice grows from the water that the liquid there cannot dissolve, no faster than its heat of
/// fusion is carried off. It turns into hydrate and so lasts until the place would be warmer than that melts at; then it melts
/// at the rate heat comes. Heat of fusion goes to and comes from the cell, although a part of what melts ice comes from the
/// hood: a whole plug is 26 J. The refrigerant that a hydrate holds (a third of its water) is not counted.
pub fn freeze(
    network: &mut Network,
    orifice: LinkId,
    tube: Tube,
    (hood_t, by_hand): (f64, Provoked),
    dt: f64,
) {
    let gas = network.mostly();
    let link = network.link(orifice);
    let (cell, flow) = (link.to.0, link.flow);
    let node = network.node(cell);
    let ice = node.bound;
    let (water, refrigerant) = (node.content[WATER], node.content[REFRIGERANT]);
    if ice <= 0.0 && water <= NEVER * refrigerant {
        return;
    }
    // Without refrigerant around it water freezes, melts and boils off by its own laws in the cell.
    if refrigerant < steam::THIN_REFRIGERANT * node.state.v_gas {
        if ice > 0.0 {
            network.bind(cell, -ice * (dt / LEFT_ALONE).min(1.0), FUSION);
        }
        return;
    }
    // Liquid that flashes leaves at saturation, though the cell behind it may boil it dry and be warm.
    let t = if flow > 0.0 && link.liquid > 0.0 {
        node.state.t.min(network.table().t_sat(node.state.p))
    } else {
        node.state.t
    };
    if ice <= 0.0 && t >= T_FREEZE {
        return;
    }
    let film = FILM_AT_REST + FILM * libm::pow(flow.abs() / RATED_FLOW, 0.8);
    // Heat that would come to ice at a temperature, W.
    let heat =
        |ice_t: f64| film * (t - ice_t) + THROUGH_LINE * (hood_t - ice_t) + by_hand.warms(ice_t);
    let melting = heat(melts_above(gas));
    if melting > 0.0 {
        network.bind(cell, -(melting * dt / FUSION).min(ice), FUSION);
        return;
    }
    let freezing = -heat(T_FREEZE);
    let free = water - solubility(gas, t) * refrigerant;
    if freezing <= 0.0 || free <= 0.0 || flow <= 0.0 {
        return;
    }
    let stuck = CAPTURE * flow * dt * free / node.content.total();
    let grown = stuck
        .min(freezing * dt / FUSION)
        .min((tube.most_ice() - ice).max(0.0))
        .min(MOST_AT_ONCE * water);
    network.bind(cell, grown, FUSION);
}

#[cfg(test)]
mod tests {
    use super::*;

    const TUBE: Tube = Tube(Orifice {
        bore: 1.70e-3,
        length: 38e-3,
        open: 1.0,
    });

    /// By hand: 2.270 mm2 x 38 mm x 916.7 kg/m3 = 79.07 mg.
    #[test]
    fn a_plug_is_the_ice_that_fills_the_bore() {
        assert!((TUBE.most_ice() - 79.07e-6).abs() < 0.01e-6);
        assert!((TUBE.with_ice(79.07e-6 / 2.0).open - 0.5).abs() < 1e-3);
        assert!(TUBE.with_ice(1.0).area() <= 0.0);
        assert_eq!(TUBE.with_ice(0.0), TUBE.0);
        let clogged = Tube(Orifice {
            open: 0.4,
            ..TUBE.0
        });
        assert!((clogged.most_ice() / TUBE.most_ice() - 0.4).abs() < 1e-12);
        assert!((clogged.with_ice(0.5 * clogged.most_ice()).open - 0.2).abs() < 1e-12);
    }
}
