//! What a part looks like when it is opened: figures taken from the bay's state and its ledger.

use lowside_plant::{
    circuit::Section,
    moisture::Tube as Bore,
    network::{LinkId, Node, NodeId},
    orifice::Orifice,
    species::{AIR, OIL, REFRIGERANT, WATER},
};
use lowside_session::Bay;
use lowside_units::{
    AbsolutePressure, GaugePressure, Mass, MassFlow, Power, Quantity, Ratio, RotationSpeed,
    Temperature, TemperatureDifference,
    display::{self, Shown, Style, UnitSystem},
};

use super::{Part, air_share, fill};

/// Milligrams, as in the ledger: traces.
const TRACE: Style = Style::new(0, "mg");

/// What a figure is; the words are the page's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// Temperature of what is in it.
    Temperature,
    /// Gauge pressure.
    Pressure,
    /// Temperature at which the gas boils at that pressure.
    BoilsAt,
    /// Above the boiling point.
    Superheat,
    /// Below the boiling point.
    Subcooling,
    /// Refrigerant held.
    Refrigerant,
    /// Liquid refrigerant held.
    Liquid,
    /// Share of the volume that is liquid.
    Level,
    /// Share of the volume above which liquid is carried over.
    SpillsAt,
    /// Liquid share of what leaves.
    LiquidLeaving,
    /// Flow through it.
    Flow,
    /// Oil held.
    Oil,
    /// Air held.
    Air,
    /// Share of the pressure that is air's.
    AirShare,
    /// Water free in the refrigerant.
    Water,
    /// Water in the desiccant.
    Desiccant,
    /// Water held by the desiccant over what it can hold.
    DesiccantLoad,
    /// Ice.
    Ice,
    /// Open share of the bore.
    Open,
    /// Share of the screen that debris covers.
    Debris,
    /// Heat given or taken.
    Heat,
    /// Shaft power.
    Shaft,
    /// Turns.
    Turns,
    /// Wear.
    Wear,
    /// Water on the fins.
    OnFins,
    /// Water that has dripped off.
    Dripped,
    /// Cells that hold no liquid any more.
    DryCells,
    /// Cells full of liquid.
    FullCells,
}

/// What wears a compressor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cause {
    /// As it came.
    Age,
    /// Liquid between piston and valve plate.
    Slugging,
    /// Oil washed off.
    Washing,
    /// Run without oil.
    Dryness,
    /// Too hot.
    Heat,
    /// Against too much pressure.
    Pressure,
    /// Ground by the dust of desiccant beads.
    Grit,
}

/// Wear of the compressor by cause, 0 to 1 each, causes that have added nothing left out.
pub fn wear(bay: &Bay) -> Vec<(Cause, Shown)> {
    let (d, c) = (&bay.plant().damage, &bay.plant().condition);
    [
        (Cause::Age, c.compressor_wear),
        (Cause::Slugging, d.slugging),
        (Cause::Washing, d.washing),
        (Cause::Dryness, d.dryness),
        (Cause::Heat, d.heat),
        (Cause::Pressure, d.pressure),
        (Cause::Grit, d.grit),
    ]
    .into_iter()
    .filter(|(_, x)| *x >= 0.005)
    .map(|(cause, x)| (cause, share(x)))
    .collect()
}

fn share(x: f64) -> Shown {
    display::ratio(Ratio::from_si(x))
}

/// The orifice tube without ice.
fn tube(bay: &Bay) -> Bore {
    let o = &bay.plant().vehicle.orifice;
    Bore(Orifice {
        bore: o.bore.si(),
        length: o.length.si(),
        open: bay.plant().orifice_clean(),
    })
}

/// Open share of the orifice tube's bore, ice and debris counted, 0 to 1.
pub fn open_share(bay: &Bay) -> f64 {
    tube(bay).with_ice(bay.plant().ice()).open.clamp(0.0, 1.0)
}

/// Share of the bore that ice fills, 0 to 1.
pub fn ice_share(bay: &Bay) -> f64 {
    (bay.plant().orifice_clean() - open_share(bay)).clamp(0.0, 1.0)
}

/// What is seen in an opened part, for its drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// Which part.
    pub part: Part,
    /// Share filled with liquid, one for each cell in the order of the flow.
    pub fill: Vec<f64>,
    /// Share of the pressure that is air, likewise.
    pub air: Vec<f64>,
    /// Liquid share of what leaves each cell.
    pub leaving: Vec<f64>,
    /// Share of the volume that is oil.
    pub oil: f64,
    /// Level at which it spills, where it has one.
    pub spills: Option<f64>,
    /// Desiccant's load, 0 to 1.
    pub desiccant: f64,
    /// Share of the bore: ice, debris.
    pub blocked: [f64; 2],
    /// Wear, 0 to 1.
    pub wear: f64,
    /// Figures to read.
    pub figures: Vec<(Figure, Shown)>,
}

/// Density of the oil in the books of a node, kg/m3.
const OIL_DENSITY: f64 = lowside_plant::state::RHO_OIL;

/// Volumes of a part, and what flows out of each cell of a coil or through any other part as a whole.
fn place(bay: &Bay, part: Part) -> (Vec<NodeId>, Vec<LinkId>) {
    let (c, q) = (&bay.plant().circuit, bay.shop().manifold);
    let coil = |s: &Section| (s.nodes().to_vec(), s.links().to_vec());
    let line = |s: &Section, through| (s.nodes().to_vec(), vec![through]);
    let one = |node, through| (vec![node], vec![through]);
    match part {
        Part::Compressor => one(c.compressor_inlet(), c.compressor()),
        Part::Suction => line(&c.suction_line, c.pick_up()),
        Part::Discharge => line(&c.discharge_line, c.discharge_line.out()),
        Part::Condenser => coil(&c.condenser),
        Part::Liquid => line(&c.liquid_line, c.condenser.out()),
        Part::Orifice => one(c.liquid_line.outlet(), c.orifice()),
        Part::Evaporator => coil(&c.evaporator),
        Part::Accumulator => line(&c.accumulator, c.pick_up()),
        Part::LowHose => one(q.low_hose, bay.shop().low_port()),
        Part::HighHose => one(q.high_hose, q.high_port),
        Part::ServiceHose => one(q.service_hose, q.low_valve),
        Part::Can => one(q.can, q.tap_vapour),
    }
}

/// Temperature of what a part holds where it leaves it.
pub fn temperature(bay: &Bay, part: Part, units: UnitSystem) -> Shown {
    let (nodes, _) = place(bay, part);
    let t = bay.plant().network.node(nodes[nodes.len() - 1]).state.t;
    display::temperature(Temperature::from_k(t), units)
}

/// What of a part's volumes is drawn: each for itself, or all as one, each counting by its size.
fn drawn(nodes: &[&Node], cells: usize, of: impl Fn(&Node) -> f64) -> Vec<f64> {
    if cells == nodes.len() {
        return nodes.iter().map(|n| of(n)).collect();
    }
    let volume: f64 = nodes.iter().map(|n| n.volume).sum();
    vec![nodes.iter().map(|n| of(n) * n.volume).sum::<f64>() / volume]
}

/// Opens a part.
pub fn open(bay: &Bay, part: Part, units: UnitSystem) -> Opened {
    let plant = bay.plant();
    let net = &plant.network;
    let (nodes, links) = place(bay, part);
    let nodes: Vec<&Node> = nodes.iter().map(|id| net.node(*id)).collect();
    let volume: f64 = nodes.iter().map(|n| n.volume).sum();
    let held = |species: usize| nodes.iter().map(|n| n.content[species]).sum::<f64>();
    let desiccant =
        plant.vehicle.accumulator.desiccant.si() * lowside_fluids::moisture::SIEVE_CAPACITY;
    let mut opened = Opened {
        part,
        fill: drawn(&nodes, links.len(), fill),
        air: drawn(&nodes, links.len(), air_share),
        leaving: links.iter().map(|id| net.link(*id).liquid).collect(),
        oil: held(OIL) / OIL_DENSITY / volume,
        spills: (part == Part::Accumulator).then(|| plant.vehicle.accumulator.floods_above.si()),
        desiccant: if desiccant > 0.0 {
            (plant.desiccant_water() / desiccant).clamp(0.0, 1.0)
        } else {
            0.0
        },
        blocked: [ice_share(bay), 1.0 - plant.orifice_clean()],
        wear: plant.wear(),
        figures: Vec::new(),
    };
    opened.figures = figures(bay, &opened, &nodes, &links, units);
    opened
}

/// The figures of an opened part.
fn figures(
    bay: &Bay,
    o: &Opened,
    nodes: &[&Node],
    links: &[LinkId],
    units: UnitSystem,
) -> Vec<(Figure, Shown)> {
    let plant = bay.plant();
    let net = &plant.network;
    let table = net.table();
    let node = nodes[nodes.len() - 1];
    let (t, p) = (node.state.t, node.state.p);
    let temperature = |k: f64| display::temperature(Temperature::from_k(k), units);
    let mass = |kg: f64| display::mass(Mass::from_kg(kg), units);
    let held = |species: usize| nodes.iter().map(|n| n.content[species]).sum::<f64>();
    let difference =
        |k: f64| display::temperature_difference(TemperatureDifference::from_si(k), units);
    let low = p < 20e3;
    let pressure = if low {
        display::vacuum(AbsolutePressure::from_pa(p.max(0.0)), units)
    } else {
        display::gauge_pressure(GaugePressure::from_pa(p - plant.day().p), units)
    };
    let mut out = vec![
        (Figure::Temperature, temperature(t)),
        (Figure::Pressure, pressure),
    ];
    let boils = table.t_sat(p);
    if !low && held(REFRIGERANT) > 1e-6 {
        out.push((Figure::BoilsAt, temperature(boils)));
        if matches!(o.part, Part::Suction | Part::Discharge | Part::Evaporator) && t > boils + 0.2 {
            out.push((Figure::Superheat, difference(t - boils)));
        }
        if matches!(o.part, Part::Liquid | Part::Condenser) && t < boils - 0.2 {
            out.push((Figure::Subcooling, difference(boils - t)));
        }
    }
    out.extend(own(bay, o, links[0], units));
    let flow = net.link(links[links.len() - 1]).flow;
    if o.part != Part::Can {
        out.push((
            Figure::Flow,
            display::mass_flow(MassFlow::from_si(flow), units),
        ));
    }
    if !matches!(o.part, Part::Orifice | Part::Compressor) {
        out.push((Figure::Refrigerant, mass(held(REFRIGERANT))));
        out.push((
            Figure::Liquid,
            mass(nodes.iter().map(|n| n.state.m_liq).sum()),
        ));
    }
    out.push((Figure::Oil, mass(held(OIL))));
    if held(AIR) > 0.5e-6 {
        out.push((Figure::Air, TRACE.show(held(AIR) * 1e6)));
        out.push((
            Figure::AirShare,
            share(o.air.iter().fold(0.0, |a: f64, b| a.max(*b))),
        ));
    }
    if held(WATER) > 0.5e-6 {
        out.push((Figure::Water, TRACE.show(held(WATER) * 1e6)));
    }
    out
}

/// The figures that only one part has.
fn own(bay: &Bay, o: &Opened, link: LinkId, units: UnitSystem) -> Vec<(Figure, Shown)> {
    let plant = bay.plant();
    let net = &plant.network;
    let mass = |kg: f64| display::mass(Mass::from_kg(kg), units);
    let power = |w: f64| display::power(Power::from_si(w), units);
    let heat = |w: f64| display::heat_flow(Power::from_si(w), units);
    let mut out = Vec::new();
    let count = |test: &dyn Fn(f64) -> bool| {
        let n = o.fill.iter().filter(|f| test(**f)).count();
        Shown {
            number: format!("{n}"),
            unit: "",
        }
    };
    match o.part {
        Part::Compressor => {
            let turns = match net.link(plant.circuit.compressor()).law {
                lowside_plant::network::Law::Compressor(_, rpm) => rpm,
                _ => 0.0,
            };
            out.push((
                Figure::Turns,
                display::rotation(RotationSpeed::from_rpm(turns)),
            ));
            out.push((Figure::Shaft, power(net.link(link).shaft)));
            out.push((Figure::LiquidLeaving, share(net.link(link).liquid)));
            out.push((Figure::Wear, share(o.wear)));
        }
        Part::Condenser => {
            out.push((Figure::Heat, heat(plant.condenser.duty)));
            out.push((Figure::FullCells, count(&|f| f > 0.85)));
        }
        Part::Evaporator => {
            out.push((Figure::Heat, heat(plant.evaporator.duty)));
            out.push((Figure::DryCells, count(&|f| f < 0.005)));
            out.push((Figure::OnFins, mass(plant.evaporator.held)));
            out.push((Figure::Dripped, mass(plant.evaporator.drained)));
        }
        Part::Accumulator => {
            out.push((Figure::Level, share(o.fill[0])));
            out.push((
                Figure::SpillsAt,
                share(plant.vehicle.accumulator.floods_above.si()),
            ));
            out.push((Figure::LiquidLeaving, share(o.leaving[0])));
            out.push((Figure::Desiccant, TRACE.show(plant.desiccant_water() * 1e6)));
            out.push((Figure::DesiccantLoad, share(o.desiccant)));
        }
        Part::Orifice => {
            out.push((Figure::Open, share(open_share(bay))));
            out.push((Figure::Ice, TRACE.show(plant.ice() * 1e6)));
            out.push((Figure::Debris, share(o.blocked[1])));
        }
        Part::Can => {
            out.push((Figure::Level, share(o.fill[0])));
        }
        _ => {}
    }
    out
}
