//! What the loop's passages are for thin gas: tubes half the length of the volumes at either end.

use lowside_units::Quantity;

use crate::{
    assembly::Places,
    condenser, evaporator,
    network::{Law, Network, NodeId},
    tube::Tube,
    vehicle::{TubesSpec, Vehicle},
};

/// Bores, m: discharge, liquid and suction line (common practice: 10-13, 6-8 and 14-19 mm); the coils' stand on the data sheet. A
/// vacuum pump's way leads through ports and hoses far narrower than these.
const BORES: [f64; 3] = [10e-3, 7e-3, 14e-3];

/// Gives every passage of the loop its tubes.
pub(crate) fn set(net: &mut Network, p: &Places, v: &Vehicle) {
    let links: Vec<_> = (0..net.links().len())
        .filter(|&k| {
            let link = net.link(k);
            let inside = |n: NodeId| (p.discharge..=p.suction).contains(&n);
            matches!(link.law, Law::Passage(_) | Law::Line(_))
                && inside(link.from.0)
                && inside(link.to.0)
        })
        .collect();
    for k in links {
        let (from, to) = (net.link(k).from.0, net.link(k).to.0);
        let tubes = [half(net, p, v, from), half(net, p, v, to)];
        net.set_tubes(k, tubes);
    }
}

/// Half the length of a volume's tubes; none for the accumulator, which is wide.
fn half(net: &Network, p: &Places, v: &Vehicle, node: NodeId) -> Tube {
    let [discharge, liquid, suction] = BORES;
    let area = |bore: f64| core::f64::consts::FRAC_PI_4 * bore * bore;
    let coil = |tubes: &TubesSpec| {
        let bore = tubes.bore.si();
        (bore, tubes.flow_area() / area(bore))
    };
    let (bore, count) = if (p.condenser..p.condenser + condenser::CELLS).contains(&node) {
        coil(&v.condenser.tubes)
    } else if (p.evaporator..p.evaporator + evaporator::CELLS).contains(&node) {
        coil(&v.evaporator.tubes)
    } else if node == p.discharge {
        (discharge, 1.0)
    } else if node == p.liquid {
        (liquid, 1.0)
    } else if node == p.suction {
        (suction, 1.0)
    } else {
        return Tube::default();
    };
    Tube {
        bore,
        length: 0.5 * net.node(node).volume / (count * area(bore)),
        count,
    }
}
