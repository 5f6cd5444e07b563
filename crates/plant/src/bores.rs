//! What the loop's passages are for thin gas: tubes half the length of the volumes at either end. A vacuum pump's way leads through
//! ports and hoses far narrower than these.

use lowside_units::Quantity;

use crate::{
    circuit::Circuit,
    network::{Law, Network, NodeId},
    tube::Tube,
    vehicle::{TubesSpec, Vehicle},
};

/// Gives every passage of the loop its tubes.
pub(crate) fn set(net: &mut Network, c: &Circuit, v: &Vehicle) {
    let inside = |id: NodeId| c.nodes().contains(&id);
    for id in net.link_ids() {
        let link = net.link(id);
        let (from, to) = (link.from.0, link.to.0);
        let passage = matches!(link.law, Law::Passage(_) | Law::Line(_));
        if passage && inside(from) && inside(to) {
            let tubes = [half(net, c, v, from), half(net, c, v, to)];
            net.set_tubes(id, tubes);
        }
    }
}

/// Half the length of a volume's tubes; none for accumulator and mufflers, which are wide.
fn half(net: &Network, c: &Circuit, v: &Vehicle, node: NodeId) -> Tube {
    let area = |bore: f64| core::f64::consts::FRAC_PI_4 * bore * bore;
    let coil = |tubes: &TubesSpec| {
        let bore = tubes.bore.si();
        (bore, tubes.flow_area() / area(bore))
    };
    let (bore, count) = if c.condenser.has(node) {
        coil(&v.condenser.tubes)
    } else if c.evaporator.has(node) {
        coil(&v.evaporator.tubes)
    } else if node == c.discharge_line.outlet() {
        (v.discharge_line.bore.si(), 1.0)
    } else if node == c.liquid_line.outlet() {
        (v.liquid_line.bore.si(), 1.0)
    } else if node == c.suction_line.outlet() {
        (v.suction_line.bore.si(), 1.0)
    } else {
        return Tube::default();
    };
    Tube {
        bore,
        length: 0.5 * net.node(node).volume / (count * area(bore)),
        count,
    }
}
