//! The loop laid out as volumes and links, from a vehicle's data sheet.

use lowside_units::Quantity;

use crate::{
    condenser, evaporator,
    film::Walls,
    flow::k_from_drop,
    network::{Law, LinkId, Network, NodeId, ROOM},
    shell::{Around, Shell},
    species::Content,
    stream::Draw,
    vehicle::{RATED_FLOW, Vehicle},
};

/// Where the loop's parts stand in the network.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Places {
    /// Discharge line; the high-side service port is here.
    pub discharge: NodeId,
    /// First condenser cell; the others follow.
    pub condenser: NodeId,
    /// Liquid line.
    pub liquid: NodeId,
    /// First evaporator cell; the others follow.
    pub evaporator: NodeId,
    /// Accumulator; the low-side service port and the cycling switch are here.
    pub accumulator: NodeId,
    /// Suction line.
    pub suction: NodeId,
    /// Compressor.
    pub compressor: LinkId,
    /// Link from the last condenser cell to the liquid line.
    pub condenser_out: LinkId,
    /// Orifice tube.
    pub orifice: LinkId,
    /// The way past the orifice tube: shut while the tube sits sealed.
    pub bypass: LinkId,
    /// Pick-up tube of the accumulator.
    pub pick_up: LinkId,
    /// Relief valve.
    pub relief: LinkId,
    /// Leak past the compressor's reeds and rings.
    pub reeds: LinkId,
}

impl Places {
    /// First and last node of the loop.
    pub fn inside(&self) -> (NodeId, NodeId) {
        (self.discharge, self.suction)
    }
}

/// Index of the compressor body among the shells.
pub const BODY: usize = 0;
/// Index of the discharge hose among them.
pub(crate) const DISCHARGE_HOSE: usize = 1;
/// Speed of an oil film over that of the gas that drags it, in the lines (own figure: what the shear on a film of 60 um gives in a
/// discharge hose). The coils' films go by their own balance.
const FILM: f64 = 0.03;
/// Share of the accumulator below its bleed hole, and of what the desiccant's bag soaks up (own figure, plausible 0.03-0.11): the hole with
/// its screen sits on the outside of the pick-up tube's bend, some 5-10 mm above the bottom of a can 75-100 mm wide (25-60 mL of
/// 0.7 L); what was left in an old accumulator is commonly counted as one to two ounces.
const BELOW_BLEED: f64 = 0.07;
/// As [`FILM`] for the suction line, which stands for the compressor's crankcase too and lets its store out slowly (tuned, 0.0003-0.0013:
/// shares the oil out between compressor and accumulator).
const CRANKCASE: f64 = 0.0006;
/// Gas that neighbouring condenser cells exchange, m3/s (tuned so that 1 g of trapped air adds 100-200 kPa, common practice).
const STIR: f64 = 1.4e-4;
/// Conductance of a line's wall to the gas in it, W/K, and heat capacity of a line, J/K (own figures for half a metre of
/// aluminium tube).
const LINE_WALL: (f64, f64) = (15.0, 300.0);
/// The same for the accumulator's can, wetted by boiling liquid for half its height (own figures for 0.8 kg of aluminium).
const ACCUMULATOR_WALL: (f64, f64) = (60.0, 700.0);

/// Adds the loop's volumes and links to a network, all empty at temperature `t` (K); returns where they are and the metal
/// around them.
pub fn build(net: &mut Network, v: &Vehicle, t: f64) -> (Places, Vec<Shell>) {
    let mut places = nodes(net, v, t);
    walls(net, v, &places);
    links(net, v, &mut places);
    let shells = shells(v, &places, t);
    (places, shells)
}

fn nodes(net: &mut Network, v: &Vehicle, t: f64) -> Places {
    let mut row = |name, volume: f64, cells: usize, mobility| {
        let ids = (0..cells)
            .map(|_| net.add_node(name, volume / cells as f64, Content::default(), t, mobility));
        ids.min().unwrap_or(ROOM)
    };
    Places {
        discharge: row("discharge line", v.discharge_line.volume.si(), 1, FILM),
        condenser: row("condenser", v.condenser.volume.si(), condenser::CELLS, FILM),
        liquid: row("liquid line", v.liquid_line.volume.si(), 1, FILM),
        evaporator: row(
            "evaporator",
            v.evaporator.volume.si(),
            evaporator::CELLS,
            FILM,
        ),
        accumulator: row("accumulator", v.accumulator.volume.si(), 1, FILM),
        suction: row("suction line", v.suction_line.volume.si(), 1, CRANKCASE),
        compressor: 0,
        condenser_out: 0,
        orifice: 0,
        bypass: 0,
        pick_up: 0,
        relief: 0,
        reeds: 0,
    }
}

/// The coils' walls, shared out over their cells.
fn walls(net: &mut Network, v: &Vehicle, p: &Places) {
    for (first, cells, tubes) in [
        (p.condenser, condenser::CELLS, &v.condenser.tubes),
        (p.evaporator, evaporator::CELLS, &v.evaporator.tubes),
    ] {
        let walls = Walls {
            surface: tubes.surface() / cells as f64,
            flow_area: tubes.flow_area(),
            bore: tubes.bore.si(),
        };
        (first..first + cells).for_each(|id| net.set_walls(id, walls));
    }
}

/// Links in the order of the flow. Passages follow from the pressure each part loses at the rated flow, with the densities
/// of a running loop: suction vapour at 5 degC, discharge vapour at 55 degC, liquid at 45 degC.
fn links(net: &mut Network, v: &Vehicle, p: &mut Places) {
    let table = net.table();
    let (rho_g, rho_d, rho_l) = (
        table.sat(278.15).rho_g,
        table.sat(328.15).rho_g,
        table.sat(318.15).rho_l,
    );
    let tube =
        |drop: f64, rho: f64, n: usize| Law::Line(k_from_drop(RATED_FLOW, rho, drop / n as f64));
    let shut = Law::Passage(0.0);
    let slip = Draw::Slip;
    let hot = Draw::Drift {
        area: v.condenser.tubes.flow_area(),
    };
    let condensing = Draw::Condensing {
        area: v.condenser.tubes.flow_area(),
        heat: 0.0,
    };
    let cold = Draw::Drift {
        area: v.evaporator.tubes.flow_area(),
    };
    let floods = v.accumulator.floods_above.si();

    p.compressor = net.add_link("compressor", (p.suction, slip), (p.discharge, slip), shut);
    let law = tube(v.discharge_line.pressure_loss.si(), rho_d, 1);
    net.add_link(
        "discharge line",
        (p.discharge, slip),
        (p.condenser, slip),
        law,
    );
    // A coil's flow is wet for most of its length: about twice the density of its vapour.
    let law = tube(
        v.condenser.pressure_loss.si(),
        2.0 * rho_d,
        condenser::CELLS - 1,
    );
    for k in p.condenser + 1..p.condenser + condenser::CELLS {
        let link = net.add_link("condenser", (k - 1, condensing), (k, hot), law);
        net.set_stir(link, STIR);
    }
    let last = p.condenser + condenser::CELLS - 1;
    let law = tube(v.liquid_line.pressure_loss.si(), rho_l, 1);
    p.condenser_out = net.add_link(
        "condenser outlet",
        (last, condensing),
        (p.liquid, Draw::Mixed),
        law,
    );
    p.orifice = net.add_link(
        "orifice tube",
        (p.liquid, Draw::Mixed),
        (p.evaporator, slip),
        shut,
    );
    let law = tube(
        v.evaporator.pressure_loss.si(),
        2.0 * rho_g,
        evaporator::CELLS,
    );
    for k in p.evaporator + 1..p.evaporator + evaporator::CELLS {
        net.add_link("evaporator", (k - 1, cold), (k, cold), law);
    }
    let last = p.evaporator + evaporator::CELLS - 1;
    net.add_link(
        "evaporator outlet",
        (last, cold),
        (p.accumulator, Draw::Top { floods }),
        law,
    );
    let tube_drop = v.accumulator.pressure_loss.si();
    let k = k_from_drop(RATED_FLOW, rho_g, tube_drop);
    let pick_up = Draw::PickUp {
        floods,
        bleed_area: v.accumulator.bleed_hole.si(),
        below: BELOW_BLEED,
        tube_loss: 1.0 / (k * k),
    };
    let law = tube(tube_drop + v.suction_line.pressure_loss.si(), rho_g, 1);
    p.pick_up = net.add_link(
        "pick-up tube",
        (p.accumulator, pick_up),
        (p.suction, slip),
        law,
    );
    p.relief = net.add_link(
        "relief valve",
        (p.discharge, slip),
        (ROOM, slip),
        Law::OneWay(0.0),
    );
    p.bypass = net.add_link(
        "past the orifice tube",
        (p.liquid, Draw::Mixed),
        (p.evaporator, slip),
        shut,
    );
    p.reeds = net.add_link(
        "reeds and rings",
        (p.discharge, slip),
        (p.suction, slip),
        shut,
    );
}

fn shells(v: &Vehicle, p: &Places, t: f64) -> Vec<Shell> {
    let shell = |node, metal, inside, outside| Shell {
        node,
        t,
        metal,
        inside,
        outside,
        around: Around::Hood,
    };
    let line = |node, outside| shell(node, LINE_WALL.1, LINE_WALL.0, outside);
    let c = &v.compressor;
    vec![
        shell(
            p.discharge,
            c.metal.si(),
            c.gas_conductance.si(),
            c.hood_conductance.si(),
        ),
        line(p.discharge, v.discharge_line.hood_conductance.si()),
        line(p.liquid, v.liquid_line.hood_conductance.si()),
        shell(
            p.accumulator,
            ACCUMULATOR_WALL.1,
            ACCUMULATOR_WALL.0,
            v.accumulator.hood_conductance.si(),
        ),
        line(p.suction, v.suction_line.hood_conductance.si()),
    ]
}
