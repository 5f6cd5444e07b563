//! The loop laid out as volumes and links, from a vehicle's data sheet.

use std::sync::Arc;

use lowside_fluids::table::Table;
use lowside_units::Quantity;

use crate::{
    circuit::{Circuit, Section},
    condenser, evaporator,
    film::Walls,
    flow::k_from_drop,
    network::{Law, LinkId, Network, NodeId, ROOM},
    shell::{Around, Shell, ShellId, Shells},
    species::Content,
    stream::Offtake,
    vehicle::{LineSpec, RATED_FLOW, Vehicle},
};

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
/// Gas that neighbouring condenser cells exchange, m3/s (own figure: a tenth or four times as much moves the head with air by 6 kPa).
const STIR: f64 = 1.4e-4;
/// Temperature of suction vapour in a running loop, K.
const SUCTION_AT: f64 = 278.15;
/// Conductance of a line's wall to the gas in it, W/K, and heat capacity of a line, J/K (own figures for half a metre of
/// aluminium tube).
const LINE_WALL: (f64, f64) = (15.0, 300.0);
/// The same for the accumulator's can, wetted by boiling liquid for half its height (own figures for 0.8 kg of aluminium).
const ACCUMULATOR_WALL: (f64, f64) = (60.0, 700.0);

/// Adds the loop's volumes and links to a network, all empty at temperature `t` (K); returns where they are and the metal
/// around them.
pub fn build(net: &mut Network, v: &Vehicle, t: f64) -> (Circuit, Shells) {
    let n = nodes(net, v, t);
    walls(net, v, &n);
    let l = links(net, v, &n);
    let all = [
        &n.discharge_line,
        &n.condenser,
        &n.liquid_line,
        &n.evaporator,
        &n.accumulator,
        &n.suction_line,
    ];
    let nodes: Arc<[NodeId]> = all.into_iter().flatten().copied().collect();
    net.set_inside(Arc::clone(&nodes));
    let (shells, [body, discharge_hose]) = shells(v, &n, t);
    let circuit = Circuit {
        discharge_line: Section::new(n.discharge_line, l.discharge_line),
        condenser: Section::new(n.condenser, l.condenser),
        liquid_line: Section::new(n.liquid_line, l.liquid_line),
        evaporator: Section::new(n.evaporator, l.evaporator),
        accumulator: Section::new(n.accumulator, l.accumulator),
        suction_line: Section::new(n.suction_line, l.suction_line),
        bypass: l.bypass,
        relief: l.relief,
        reeds: l.reeds,
        body,
        discharge_hose,
        nodes,
    };
    (circuit, shells)
}

/// The volumes of each section.
struct Nodes {
    discharge_line: Vec<NodeId>,
    condenser: Vec<NodeId>,
    liquid_line: Vec<NodeId>,
    evaporator: Vec<NodeId>,
    accumulator: Vec<NodeId>,
    suction_line: Vec<NodeId>,
}

/// The links out of the volumes of each section, and the others.
struct Links {
    discharge_line: Vec<LinkId>,
    condenser: Vec<LinkId>,
    liquid_line: Vec<LinkId>,
    evaporator: Vec<LinkId>,
    accumulator: Vec<LinkId>,
    suction_line: Vec<LinkId>,
    bypass: LinkId,
    relief: LinkId,
    reeds: LinkId,
}

/// Adds a row of volumes that share `volume` (m3) evenly.
fn row(
    net: &mut Network,
    name: &'static str,
    volume: f64,
    cells: usize,
    mobility: f64,
    t: f64,
) -> Vec<NodeId> {
    (0..cells)
        .map(|_| net.add_node(name, volume / cells as f64, Content::default(), t, mobility))
        .collect()
}

/// Adds the muffler of a line, if it has one, and the line.
fn line(
    net: &mut Network,
    name: &'static str,
    spec: &LineSpec,
    mobility: f64,
    t: f64,
) -> Vec<NodeId> {
    let muffler = spec
        .muffler
        .map(|v| row(net, "muffler", v.si(), 1, FILM, t));
    let line = row(net, name, spec.volume.si(), 1, mobility, t);
    muffler.into_iter().flatten().chain(line).collect()
}

fn nodes(net: &mut Network, v: &Vehicle, t: f64) -> Nodes {
    let (condenser, evaporator) = (v.condenser.volume.si(), v.evaporator.volume.si());
    Nodes {
        discharge_line: line(net, "discharge line", &v.discharge_line, FILM, t),
        condenser: row(net, "condenser", condenser, condenser::CELLS, FILM, t),
        liquid_line: line(net, "liquid line", &v.liquid_line, FILM, t),
        evaporator: row(net, "evaporator", evaporator, evaporator::CELLS, FILM, t),
        accumulator: row(net, "accumulator", v.accumulator.volume.si(), 1, FILM, t),
        suction_line: line(net, "suction line", &v.suction_line, CRANKCASE, t),
    }
}

/// The coils' walls, shared out over their cells.
fn walls(net: &mut Network, v: &Vehicle, n: &Nodes) {
    for (cells, tubes) in [
        (&n.condenser, &v.condenser.tubes),
        (&n.evaporator, &v.evaporator.tubes),
    ] {
        let walls = Walls {
            surface: tubes.surface() / cells.len() as f64,
            flow_area: tubes.flow_area(),
            bore: tubes.bore.si(),
        };
        for id in cells {
            net.set_walls(*id, walls);
        }
    }
}

/// Offtake of the accumulator's pick-up tube with so much of tube and bleed hole open, 0 to 1. A tube restricted ahead of its bleed
/// hole sucks the harder at it.
pub(crate) fn pick_up(table: &Table, v: &Vehicle, tube: f64, bleed: f64) -> Offtake {
    let spec = &v.accumulator;
    let k = tube
        * k_from_drop(
            RATED_FLOW,
            table.sat(SUCTION_AT).rho_g,
            spec.pressure_loss.si(),
        );
    Offtake::PickUp {
        floods: spec.floods_above.si(),
        bleed_area: bleed * spec.bleed_hole.si(),
        below: BELOW_BLEED,
        tube_loss: 1.0 / (k * k),
    }
}

/// Law of one of `n` equal parts of a passage that loses `drop` (Pa) at the rated flow of a density (kg/m3).
fn tube(drop: f64, rho: f64, n: usize) -> Law {
    Law::Line(k_from_drop(RATED_FLOW, rho, drop / n as f64))
}

/// Joins each of a row of volumes to the next.
fn chain(
    net: &mut Network,
    name: &'static str,
    nodes: &[NodeId],
    [from, to]: [Offtake; 2],
    law: Law,
) -> Vec<LinkId> {
    nodes
        .windows(2)
        .map(|pair| net.add_link(name, (pair[0], from), (pair[1], to), law))
        .collect()
}

/// Links in the order of the flow. Passages follow from the pressure each part loses at the rated flow, with the densities
/// of a running loop: suction vapour at 5 degC, discharge vapour at 55 degC, liquid at 45 degC.
fn links(net: &mut Network, v: &Vehicle, n: &Nodes) -> Links {
    let table = net.table();
    let (rho_g, rho_d, rho_l) = (
        table.sat(SUCTION_AT).rho_g,
        table.sat(328.15).rho_g,
        table.sat(318.15).rho_l,
    );
    let pick_up = pick_up(table, v, 1.0, 1.0);
    let (first, last) = (|row: &[NodeId]| row[0], |row: &[NodeId]| row[row.len() - 1]);
    let (hot_area, cold_area) = (
        v.condenser.tubes.flow_area(),
        v.evaporator.tubes.flow_area(),
    );
    let (slip, mixed, shut) = (Offtake::Slip, Offtake::Mixed, Law::Passage(0.0));
    let (hot, cold) = (
        Offtake::Drift { area: hot_area },
        Offtake::Drift { area: cold_area },
    );
    let condensing = Offtake::Condensing {
        area: hot_area,
        heat: 0.0,
    };
    let top = Offtake::Top {
        floods: v.accumulator.floods_above.si(),
    };
    let (compressor, exhaust) = (last(&n.suction_line), first(&n.discharge_line));
    let (orifice_in, orifice_out) = (last(&n.liquid_line), first(&n.evaporator));

    let compressor_link = net.add_link("compressor", (compressor, slip), (exhaust, slip), shut);
    let law = tube(
        v.discharge_line.pressure_loss.si(),
        rho_d,
        n.discharge_line.len(),
    );
    let mut discharge_line = chain(net, "muffler", &n.discharge_line, [slip, slip], law);
    let ends = [(last(&n.discharge_line), slip), (first(&n.condenser), slip)];
    discharge_line.push(net.add_link("discharge line", ends[0], ends[1], law));
    // A coil's flow is wet for most of its length: about twice the density of its vapour.
    let law = tube(
        v.condenser.pressure_loss.si(),
        2.0 * rho_d,
        condenser::CELLS - 1,
    );
    let mut condenser = chain(net, "condenser", &n.condenser, [condensing, hot], law);
    for link in &condenser {
        net.set_stir(*link, STIR);
    }
    let law = tube(v.liquid_line.pressure_loss.si(), rho_l, n.liquid_line.len());
    let ends = [
        (last(&n.condenser), condensing),
        (first(&n.liquid_line), mixed),
    ];
    condenser.push(net.add_link("condenser outlet", ends[0], ends[1], law));
    let mut liquid_line = chain(net, "muffler", &n.liquid_line, [mixed, mixed], law);
    liquid_line.push(net.add_link(
        "orifice tube",
        (orifice_in, mixed),
        (orifice_out, slip),
        shut,
    ));
    let law = tube(
        v.evaporator.pressure_loss.si(),
        2.0 * rho_g,
        evaporator::CELLS,
    );
    let mut evaporator = chain(net, "evaporator", &n.evaporator, [cold, cold], law);
    let ends = [(last(&n.evaporator), cold), (first(&n.accumulator), top)];
    evaporator.push(net.add_link("evaporator outlet", ends[0], ends[1], law));
    let line_drop = v.suction_line.pressure_loss.si() / n.suction_line.len() as f64;
    let law = tube(v.accumulator.pressure_loss.si() + line_drop, rho_g, 1);
    let ends = [
        (last(&n.accumulator), pick_up),
        (first(&n.suction_line), slip),
    ];
    let accumulator = vec![net.add_link("pick-up tube", ends[0], ends[1], law)];
    let law = tube(line_drop, rho_g, 1);
    let mut suction_line = chain(net, "muffler", &n.suction_line, [slip, slip], law);
    suction_line.push(compressor_link);
    let high_side = last(&n.discharge_line);
    let relief = net.add_link(
        "relief valve",
        (high_side, slip),
        (ROOM, slip),
        Law::OneWay(0.0),
    );
    let bypass = net.add_link(
        "past the orifice tube",
        (orifice_in, mixed),
        (orifice_out, slip),
        shut,
    );
    let reeds = net.add_link("reeds and rings", (exhaust, slip), (compressor, slip), shut);
    Links {
        discharge_line,
        condenser,
        liquid_line,
        evaporator,
        accumulator,
        suction_line,
        bypass,
        relief,
        reeds,
    }
}

/// Returns the metal around volumes: the compressor's body, which the gas it has compressed warms, then walls in the order of the flow;
/// and which of them are the body and the discharge hose.
fn shells(v: &Vehicle, n: &Nodes, t: f64) -> (Shells, [ShellId; 2]) {
    let mut shells = Shells::default();
    let mut add = |node: NodeId, metal: f64, inside: f64, outside: f64| {
        shells.add(Shell {
            node,
            t,
            metal,
            inside,
            outside,
            around: Around::Hood,
        })
    };
    let (c, a) = (&v.compressor, &v.accumulator);
    let (metal, gas, hood) = (
        c.metal.si(),
        c.gas_conductance.si(),
        c.hood_conductance.si(),
    );
    let body = add(n.discharge_line[0], metal, gas, hood);
    let (inside, metal) = LINE_WALL;
    let mut hose = body;
    for node in &n.discharge_line {
        hose = add(*node, metal, inside, v.discharge_line.hood_conductance.si());
    }
    for node in &n.liquid_line {
        add(*node, metal, inside, v.liquid_line.hood_conductance.si());
    }
    for node in &n.accumulator {
        add(
            *node,
            ACCUMULATOR_WALL.1,
            ACCUMULATOR_WALL.0,
            a.hood_conductance.si(),
        );
    }
    for node in &n.suction_line {
        add(*node, metal, inside, v.suction_line.hood_conductance.si());
    }
    (shells, [body, hose])
}
