//! The drawing of parts: where the hands go. Temperatures, phases, speeds and surfaces of the loop in the engine bay.
//!
//! Temperatures and fills are the nodes' own; what clings to a surface follows from its temperature and the dew point of the day;
//! speeds follow from the flow, the density of what flows and the bore.

use lowside_fluids::water;
use lowside_lessons::senses::dew_point;
use lowside_plant::{
    circuit::Section,
    network::{LinkId, Node, NodeId},
    species::REFRIGERANT,
};
use lowside_session::Bay;
use lowside_shop::{manifold::HOSE_BORE, parts::Part as Piece};
use lowside_units::{
    Power, Quantity, Temperature,
    display::{self, Shown, UnitSystem},
};

use crate::dial::Which;

pub mod inside;

pub use lowside_lessons::Coat;

/// A part of the loop or of the shop that can be pointed at, in both drawings and on the charts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// Compressor with its clutch.
    Compressor,
    /// Discharge line, with high port, cut-out and relief valve.
    Discharge,
    /// Condenser.
    Condenser,
    /// Liquid line.
    Liquid,
    /// Orifice tube.
    Orifice,
    /// Evaporator.
    Evaporator,
    /// Accumulator, with low port and cycling switch.
    Accumulator,
    /// Suction line.
    Suction,
    /// Low hose.
    LowHose,
    /// High hose.
    HighHose,
    /// Service hose.
    ServiceHose,
    /// Can.
    Can,
}

impl Part {
    /// The gauge on whose side of the orifice tube and the compressor it lies; none for these two and for what hangs between the hoses.
    pub fn gauge(self) -> Option<Which> {
        match self {
            Self::Evaporator | Self::Accumulator | Self::Suction | Self::LowHose => {
                Some(Which::Low)
            }
            Self::Discharge | Self::Condenser | Self::Liquid | Self::HighHose => Some(Which::High),
            Self::Compressor | Self::Orifice | Self::ServiceHose | Self::Can => None,
        }
    }

    /// The part of the loop that comes out with hands; none for hoses and can.
    pub fn piece(self) -> Option<Piece> {
        Some(match self {
            Self::Compressor => Piece::Compressor,
            Self::Discharge => Piece::DischargeHose,
            Self::Condenser => Piece::Condenser,
            Self::Liquid => Piece::LiquidLine,
            Self::Orifice => Piece::Orifice,
            Self::Evaporator => Piece::Evaporator,
            Self::Accumulator => Piece::Accumulator,
            Self::Suction => Piece::SuctionHose,
            Self::LowHose | Self::HighHose | Self::ServiceHose | Self::Can => return None,
        })
    }

    /// All parts in the order of the flow, then the shop's.
    pub const ALL: [Self; 12] = [
        Self::Compressor,
        Self::Discharge,
        Self::Condenser,
        Self::Liquid,
        Self::Orifice,
        Self::Evaporator,
        Self::Accumulator,
        Self::Suction,
        Self::LowHose,
        Self::HighHose,
        Self::ServiceHose,
        Self::Can,
    ];
}

/// A tube with what flows in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube {
    /// Temperature, degC.
    pub t: f64,
    /// Speed of what flows, m/s, positive in the loop's direction.
    pub speed: f64,
    /// Flow, g/s, likewise.
    pub flow: f64,
    /// Liquid share of the flow.
    pub liquid: f64,
    /// What clings to it.
    pub coat: Coat,
}

/// A cell of a coil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// Temperature of what is in it, degC.
    pub t: f64,
    /// Temperature of its wall, degC.
    pub wall: f64,
    /// Share filled with liquid, 0 to 1.
    pub fill: f64,
    /// Share of its pressure that is air, 0 to 1.
    pub air: f64,
    /// Liquid share of what leaves it.
    pub liquid: f64,
}

/// Lines and hoses, with what flows in them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tubes {
    /// Compressor to condenser.
    pub discharge: Tube,
    /// Condenser to orifice.
    pub liquid: Tube,
    /// Orifice to evaporator.
    pub behind: Tube,
    /// Evaporator to accumulator.
    pub cold: Tube,
    /// Accumulator to compressor.
    pub suction: Tube,
    /// Hose between low port and gauge set; positive to the port.
    pub low_hose: Tube,
    /// Hose between high port and gauge set; positive to the port.
    pub high_hose: Tube,
    /// Hose between can and gauge set; positive to the gauge set.
    pub service_hose: Tube,
}

/// Everything the drawing shows at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Parts {
    /// Lines and hoses.
    pub tubes: Tubes,
    /// Condenser cells in the order of the flow.
    pub condenser: Vec<Cell>,
    /// Evaporator cells in the order of the flow.
    pub evaporator: Vec<Cell>,
    /// Accumulator: temperature (degC), share filled with liquid, surface.
    pub accumulator: (f64, f64, Coat),
    /// Can: temperature (degC), share filled with liquid, surface; none without a can.
    pub can: Option<(f64, f64, Coat)>,
    /// Compressor body, degC.
    pub body: f64,
    /// Water on the evaporator's fins over what they hold before it drips, 0 to 1.
    pub held: f64,
    /// It drips.
    pub drips: bool,
    /// The fins are frosted.
    pub frosted: bool,
    /// Open share of the orifice tube, ice and debris counted.
    pub open: f64,
    /// Clutch engaged, turns of the compressor a second.
    pub turns: f64,
    /// Engine runs, turns a second.
    pub engine: f64,
    /// Relief valve blows.
    pub relief: bool,
    /// Cycling switch and cut-out closed.
    pub switches: [bool; 2],
    /// Couplers on: low, high.
    pub coupled: [bool; 2],
    /// Hand valves open, 0 to 1: low, high.
    pub valves: [f64; 2],
    /// Heat from the condenser to the outside air.
    pub shed: (f64, Shown),
    /// Heat from the cabin air into the evaporator.
    pub taken: (f64, Shown),
    /// Work of the compressor into the gas.
    pub work: (f64, Shown),
    /// Air onto the condenser, into the evaporator's case, out of the vent.
    pub air: [Shown; 3],
    /// Air flows over the condenser and through the evaporator, kg/s.
    pub air_flow: [f64; 2],
}

/// Below this flow a tube counts as at rest, kg/s.
const REST: f64 = 2e-5;

/// Area of a bore, m2.
fn area(bore: f64) -> f64 {
    core::f64::consts::FRAC_PI_4 * bore * bore
}

/// Liquid share of a flow of refrigerant drawn from `node`, whose link counts `liquid` of everything, oil included: where there
/// is no vapour to draw, all of it is liquid.
pub(crate) fn liquid_share(node: &Node, liquid: f64) -> f64 {
    if node.state.m_liq > 0.0 && node.state.m_gas <= 0.0 {
        1.0
    } else {
        liquid
    }
}

/// Speed in a tube of `area` of a flow with `liquid` share drawn from `node`, both phases moving alike, m/s.
fn speed(node: &Node, flow: f64, liquid: f64, area: f64) -> f64 {
    if flow.abs() < REST {
        return 0.0;
    }
    let s = &node.state;
    let gas = s.gas_density(&node.content).max(0.05);
    let liquid = liquid_share(node, liquid);
    flow * (liquid / s.rho_liq + (1.0 - liquid) / gas) / area
}

fn fill(node: &Node) -> f64 {
    if node.content[REFRIGERANT] > 0.0 {
        1.0 - node.state.void_fraction()
    } else {
        0.0
    }
}

fn air_share(node: &Node) -> f64 {
    (node.state.p_air / node.state.p.max(1.0)).clamp(0.0, 1.0)
}

fn celsius(k: f64) -> f64 {
    Temperature::from_k(k).deg_c()
}

/// The tube whose content is `node`'s and whose flow is `link`'s, in air with so high a dew point (K).
fn tube(bay: &Bay, node: NodeId, link: LinkId, bore: f64, dew: f64) -> Tube {
    let net = &bay.plant().network;
    let (n, l) = (net.node(node), net.link(link));
    // What flows back comes from the other end.
    let source = if l.flow >= 0.0 { l.from.0 } else { l.to.0 };
    Tube {
        t: celsius(n.state.t),
        speed: speed(net.node(source), l.flow, l.liquid, area(bore)),
        flow: l.flow * 1e3,
        liquid: liquid_share(net.node(source), l.liquid),
        coat: Coat::of(n.state.t, dew),
    }
}

/// Cells of a coil with their walls (K).
fn cells(bay: &Bay, coil: &Section, walls: &[f64]) -> Vec<Cell> {
    let net = &bay.plant().network;
    let cell = |((node, out), wall): ((&NodeId, &LinkId), &f64)| {
        let n = net.node(*node);
        Cell {
            t: celsius(n.state.t),
            wall: celsius(*wall),
            fill: fill(n),
            air: air_share(n),
            liquid: net.link(*out).liquid,
        }
    };
    coil.nodes()
        .iter()
        .zip(coil.links())
        .zip(walls)
        .map(cell)
        .collect()
}

impl Tubes {
    /// Reads a bay: no more than a frame needs.
    pub fn of(bay: &Bay) -> Self {
        let (plant, q) = (bay.plant(), bay.shop().manifold);
        let (net, c, v) = (&plant.network, &plant.circuit, &plant.vehicle);
        let lines = [&v.discharge_line, &v.liquid_line, &v.suction_line];
        let [discharge, liquid, suction] = lines.map(|line| line.bore.si());
        let dew = dew_point(bay.plant());
        let tube = |node, link, bore| tube(bay, node, link, bore, dew);
        let first = net.node(c.evaporator.inlet()).state.t;
        let (up, down) = (net.link(q.tap_vapour), net.link(q.tap_liquid));
        let tap = if up.flow.abs() >= down.flow.abs() {
            q.tap_vapour
        } else {
            q.tap_liquid
        };
        Self {
            discharge: tube(c.discharge_line.outlet(), c.discharge_line.out(), discharge),
            liquid: tube(c.liquid_line.outlet(), c.condenser.out(), liquid),
            behind: Tube {
                t: celsius(first),
                coat: Coat::of(first, dew),
                ..tube(c.evaporator.inlet(), c.evaporator.links()[0], liquid)
            },
            cold: tube(c.evaporator.outlet(), c.evaporator.out(), suction),
            suction: tube(c.suction_line.outlet(), c.pick_up(), suction),
            low_hose: tube(q.low_hose, bay.shop().low_port(), HOSE_BORE),
            high_hose: tube(q.high_hose, q.high_port, HOSE_BORE),
            service_hose: tube(q.service_hose, tap, HOSE_BORE),
        }
    }
}

impl Parts {
    /// Reads a bay.
    pub fn of(bay: &Bay, units: UnitSystem) -> Self {
        let (plant, shop) = (bay.plant(), bay.shop());
        let (net, c, q) = (&plant.network, &plant.circuit, shop.manifold);
        let dew = dew_point(bay.plant());
        let store = |id: NodeId| {
            let n = net.node(id);
            (celsius(n.state.t), fill(n), Coat::of(n.state.t, dew))
        };
        let heat = |w: f64| (w, display::heat_flow(Power::from_si(w), units));
        let t = |k: f64| display::temperature(Temperature::from_k(k), units);
        let day = plant.day();
        let around = lowside_plant::cabin::Outside {
            t: day.t,
            w: day.w(),
            p: day.p,
            sun: day.sun,
        };
        let s = &plant.settings;
        let engine = if s.engine_on {
            s.engine_rpm / 60.0
        } else {
            0.0
        };
        let coldest = plant
            .evaporator
            .wall
            .iter()
            .fold(f64::MAX, |a, b| a.min(*b));
        Self {
            tubes: Tubes::of(bay),
            condenser: cells(bay, &c.condenser, &plant.condenser.wall),
            evaporator: cells(bay, &c.evaporator, &plant.evaporator.wall),
            accumulator: store(c.accumulator.outlet()),
            can: shop.hands.attached.can().map(|_| store(q.can)),
            body: celsius(plant.shells[c.body].t),
            held: (plant.evaporator.held / plant.vehicle.evaporator.held_water.si().max(1e-9))
                .clamp(0.0, 1.0),
            drips: plant.evaporator.held >= 0.98 * plant.vehicle.evaporator.held_water.si(),
            frosted: plant.evaporator.held > 1e-6 && coldest < water::T_TRIPLE,
            open: inside::open_share(bay),
            turns: plant.compressor_rpm() / 60.0,
            engine,
            relief: net.link(c.relief).flow > REST,
            switches: [plant.drive.cycling.closed, plant.drive.cut_out.closed],
            coupled: [shop.hands.low_coupled, shop.hands.high_coupled],
            valves: [shop.hands.low_valve, shop.hands.high_valve],
            shed: heat(plant.condenser.duty),
            taken: heat(plant.evaporator.duty),
            work: (
                net.link(c.compressor()).shaft,
                display::power(Power::from_si(net.link(c.compressor()).shaft), units),
            ),
            air: [
                t(plant.condenser_air.1),
                t(plant.cabin.inlet(&around, s.recirculate).t),
                t(plant.cabin.vent.t),
            ],
            air_flow: [plant.condenser_air.0, plant.cabin.flow],
        }
    }
}

#[cfg(test)]
mod tests;
