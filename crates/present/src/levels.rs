//! The drawing of levels: pressure is height, and everything flows downhill.
//!
//! Every volume with its pressure, temperature, liquid share and place in the loop, every stream with its flow, and the lines of
//! the surroundings at the pressure whose saturation temperature is theirs. The page only puts them on a sheet.

use lowside_fluids::table::Table;
use lowside_lessons::{Coat, senses::dew_point};
use lowside_plant::{
    circuit::Section,
    condenser,
    evaporator::CELLS,
    network::{LinkId, Network, Node, NodeId},
    species::{OIL, REFRIGERANT, WATER},
    state::{Phase, RHO_OIL},
};
use lowside_session::Bay;
use lowside_shop::can;
use lowside_units::{
    AbsolutePressure, GaugePressure, Power, PressureDifference, Quantity, Temperature,
    display::{self, PressureUnit, Shown, TemperatureUnit, UnitSystem},
};

use crate::parts::{Part, inside};

mod tools;

pub use tools::{CanLevel, Hung, Opening, Tool};
use tools::{can, hung, openings, vessel};

/// Lowest pressure on the axis, Pa absolute; what is below rests on the floor.
pub const FLOOR: f64 = 3e3;
/// Highest pressure on the axis, Pa absolute.
pub const CEILING: f64 = 3.6e6;
/// Share of the height below the atmosphere.
pub const CELLAR: f64 = 0.15;

/// Height of an absolute pressure (Pa) on the axis, 0 to 1: logarithmic, with the part below the atmosphere drawn smaller so that
/// the running range has room.
pub fn height(p: f64, atmosphere: f64) -> f64 {
    let ratio = |p: f64, lo: f64, hi: f64| libm::log(p / lo) / libm::log(hi / lo);
    let p = p.clamp(FLOOR, CEILING);
    if p < atmosphere {
        CELLAR * ratio(p, FLOOR, atmosphere)
    } else {
        CELLAR + (1.0 - CELLAR) * ratio(p, atmosphere, CEILING)
    }
}

/// Pressure at a height on the axis, Pa absolute.
pub fn pressure(height: f64, atmosphere: f64) -> f64 {
    let between = |share: f64, lo: f64, hi: f64| lo * libm::exp(share * libm::log(hi / lo));
    if height < CELLAR {
        between(height / CELLAR, FLOOR, atmosphere)
    } else {
        between((height - CELLAR) / (1.0 - CELLAR), atmosphere, CEILING)
    }
}

/// Coldest and warmest day that a hand can drag the line of the outside air to, degC: as far as the panel's control goes.
const DAYS: [f64; 2] = [0.0, 48.0];

/// The day's temperature whose line lies at a height, in whole degrees.
pub fn ambient_at(bay: &Bay, height: f64) -> Temperature {
    let plant = bay.plant();
    let p = pressure(height.clamp(0.0, 1.0), plant.day().p);
    let t = Temperature::from_k(plant.network.table().t_sat(p)).deg_c();
    Temperature::from_deg_c(t.round().clamp(DAYS[0], DAYS[1]))
}

/// Height of the line of a day's temperature.
pub fn outside(bay: &Bay, t: Temperature) -> f64 {
    let plant = bay.plant();
    height(plant.network.table().p_sat(t.k()), plant.day().p)
}

/// A volume on the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Block {
    /// Height, 0 to 1.
    pub height: f64,
    /// Temperature, degC.
    pub t: f64,
    /// Share filled with liquid, 0 to 1.
    pub fill: f64,
    /// Density of the vapour over that at 1 MPa or so, 0 to 1: how thick its texture is.
    pub haze: f64,
    /// Volume, L.
    pub volume: f64,
    /// Below the axis: deep vacuum.
    pub below: bool,
    /// Height at which it would stand without the air in it, 0 to 1.
    pub without_air: f64,
    /// How fast its liquid boils, or its vapour condenses where that is negative: heat passed, kW.
    pub boils: f64,
    /// Share of the volume that is oil, 0 to 1.
    pub oil: f64,
    /// Water that lies in it, liquid and frozen, g.
    pub water: [f64; 2],
}

/// A stream on the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct FlowMark {
    /// Flow, g/s, positive in the named direction.
    pub flow: f64,
    /// Liquid share of it.
    pub liquid: f64,
}

/// A line across: surroundings at the height of their temperature.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Height, 0 to 1.
    pub height: f64,
    /// Temperature as shown.
    pub shown: Shown,
}

/// A mark on the axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Tick {
    /// Height, 0 to 1.
    pub height: f64,
    /// Gauge pressure.
    pub pressure: String,
    /// Saturation temperature at that pressure.
    pub saturation: String,
}

/// Everything that the drawing shows at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Levels {
    /// Discharge line.
    pub discharge: Block,
    /// Condenser cells in the order of the flow.
    pub condenser_cells: Vec<Block>,
    /// Liquid line.
    pub liquid: Block,
    /// Evaporator cells in the order of the flow.
    pub evaporator: Vec<Block>,
    /// Accumulator.
    pub accumulator: Block,
    /// Suction line.
    pub suction: Block,
    /// Hose on the low port.
    pub low_hose: Block,
    /// Hose on the high port.
    pub high_hose: Block,
    /// Service hose.
    pub service_hose: Block,
    /// The can.
    pub can: Option<CanLevel>,
    /// What hangs on the service hose in its place.
    pub tool: Option<Tool>,
    /// And how.
    pub hung: Option<Hung>,
    /// Joints that are apart or were made up without their O-ring, in the order of the flow.
    pub openings: Vec<Opening>,
    /// Through the compressor.
    pub compressor: FlowMark,
    /// Through the condenser, half way along.
    pub condenser: FlowMark,
    /// Through the orifice.
    pub orifice: FlowMark,
    /// Out of the evaporator.
    pub evaporated: FlowMark,
    /// From the accumulator to the suction line.
    pub pick_up: FlowMark,
    /// From the can, or what hangs in its place, into the service hose.
    pub tap: FlowMark,
    /// From the service hose into the low hose.
    pub low_valve: FlowMark,
    /// From the low hose into the accumulator.
    pub low_port: FlowMark,
    /// From the service hose into the high hose.
    pub high_valve: FlowMark,
    /// From the high hose into the discharge line.
    pub high_port: FlowMark,
    /// Out of the service hose into the room.
    pub hose_end: FlowMark,
    /// Heat from the condenser to the outside air, W.
    pub shed: f64,
    /// Heat from the cabin air into the evaporator, W.
    pub taken: f64,
    /// The same two as shown.
    pub heat: [Shown; 2],
    /// Readings of the gauges that are coupled to the loop: low, high.
    pub gauges: [Option<Shown>; 2],
    /// What the compressor lifts by, and the orifice lets fall.
    pub lift: Shown,
    /// Open share of the orifice tube that ice takes away, 0 to 1.
    pub ice: f64,
    /// Share of the fin gap that frost closes, in the order of the flow, 0 to 1.
    pub frost: [f64; CELLS],
    /// Water on the evaporator's fins over what they hold before it drips, 0 to 1.
    pub held: f64,
    /// What clings to the accumulator and to the suction line.
    pub coats: [Coat; 2],
    /// Outside air.
    pub outside: Line,
    /// Cabin air.
    pub cabin: Line,
    /// The atmosphere's height.
    pub atmosphere: f64,
    /// Heights at which the cycling switch opens and closes.
    pub switch: [f64; 2],
    /// Height at which a can bursts.
    pub burst: f64,
    /// Clutch engaged.
    pub clutch: bool,
    /// Belt, plug or battery lead is off, which alone keeps the compressor from turning.
    pub loose: bool,
    /// Openings of the hand valves, 0 to 1: low, high.
    pub valves: [f64; 2],
    /// Couplers on: low, high.
    pub coupled: [bool; 2],
    /// Hose cracked to purge.
    pub purging: bool,
}

/// Vapour density whose texture is thickest, kg/m3 (saturated R-134a near 60 degC).
const THICK: f64 = 87.0;

fn block(node: &Node, atmosphere: f64) -> Block {
    let s = &node.state;
    Block {
        height: height(s.p, atmosphere),
        t: Temperature::from_k(s.t).deg_c(),
        fill: if node.content[REFRIGERANT] > 0.0 {
            1.0 - s.void_fraction()
        } else {
            0.0
        },
        haze: (if s.v_gas > 0.0 {
            s.m_gas / s.v_gas
        } else {
            0.0
        } / THICK)
            .clamp(0.0, 1.0),
        volume: node.volume * 1e3,
        below: s.p < FLOOR,
        without_air: height(s.p - s.p_air, atmosphere),
        boils: 0.0,
        oil: (node.content[OIL] / RHO_OIL / node.volume).clamp(0.0, 1.0),
        water: [node.content[WATER] - s.m_steam - s.m_ice, s.m_ice].map(|kg| kg.max(0.0) * 1e3),
    }
}

/// Heat that passes between a volume and its wall as its liquid boils (positive) or its vapour condenses, kW; nothing where it holds but one
/// phase.
fn boils(node: &Node, watts: f64) -> f64 {
    if node.state.phase == Phase::TwoPhase {
        watts * 1e-3
    } else {
        0.0
    }
}

impl Levels {
    /// Returns the blocks of the high side in the order of the flow, with the part that each belongs to.
    pub fn high_side(&self) -> impl Iterator<Item = (Part, &Block)> {
        let cells = self
            .condenser_cells
            .iter()
            .map(|cell| (Part::Condenser, cell));
        [(Part::Discharge, &self.discharge)]
            .into_iter()
            .chain(cells)
            .chain([(Part::Liquid, &self.liquid)])
    }

    /// Reads a bay.
    pub fn of(bay: &Bay, units: UnitSystem) -> Self {
        let (plant, shop) = (bay.plant(), bay.shop());
        let (net, c, q) = (&plant.network, &plant.circuit, shop.manifold);
        let day = plant.day();
        let node = |id: NodeId| block(net.node(id), day.p);
        // What the walls gave in the last tick says how fast a coil boils or condenses.
        let coil = |coil: &Section, watts: &[f64]| {
            let cells = coil.nodes().iter().zip(watts);
            cells
                .map(|(id, watts)| Block {
                    boils: boils(net.node(*id), *watts),
                    ..node(*id)
                })
                .collect()
        };
        let (cond, evap) = (&plant.condenser, &plant.evaporator);
        let shed = core::array::from_fn::<_, { condenser::CELLS }, _>(|k| {
            -cond.condensing[k] * (1.0 - cond.flooded[k])
        });
        let dew = dew_point(plant);
        let coat = |id: NodeId| Coat::of(net.node(id).state.t, dew);
        let power = |watts: f64| display::heat_flow(Power::from_w(watts.max(0.0)), units);
        let whole = |section: &Section| whole(net, section, day.p);
        let stream = |id: LinkId| stream(net, id);
        let at_t = |t: f64| Line {
            height: height(net.table().p_sat(t), day.p),
            shown: display::temperature(Temperature::from_k(t), units),
        };
        let gauge = |g: f64| height(g + day.p, day.p);
        let hands = &shop.hands;
        let switches = &plant.vehicle.switches;
        let vessel = vessel(bay);
        Self {
            discharge: whole(&c.discharge_line),
            condenser_cells: coil(&c.condenser, &shed),
            liquid: whole(&c.liquid_line),
            evaporator: coil(&c.evaporator, &evap.given()),
            accumulator: whole(&c.accumulator),
            suction: whole(&c.suction_line),
            low_hose: node(q.low_hose),
            high_hose: node(q.high_hose),
            service_hose: node(q.service_hose),
            can: can(bay, &vessel, units),
            tool: Tool::of(&hands.attached),
            hung: hung(bay, &vessel, units),
            openings: openings(bay, units),
            compressor: stream(c.compressor()),
            condenser: stream(c.condenser.half_way()),
            orifice: stream(c.orifice()),
            evaporated: stream(c.evaporator.out()),
            pick_up: stream(c.pick_up()),
            tap: tap(bay),
            low_valve: stream(q.low_valve),
            low_port: stream(shop.low_port()),
            high_valve: stream(q.high_valve),
            high_port: stream(q.high_port),
            hose_end: stream(q.hose_end),
            shed: cond.duty,
            taken: evap.duty,
            heat: [power(cond.duty), power(evap.duty)],
            gauges: gauges(bay, units),
            lift: lift(bay, units),
            ice: inside::ice_share(bay),
            frost: evap.gaps().map(|open| 1.0 - open),
            held: evap.held / plant.vehicle.evaporator.held_water.si().max(1e-9),
            coats: [coat(c.low_side()), coat(c.compressor_inlet())],
            outside: at_t(day.t),
            cabin: at_t(plant.cabin.air.t),
            atmosphere: height(day.p, day.p),
            switch: [
                gauge(switches.low_opens.si()),
                gauge(switches.low_closes.si()),
            ],
            burst: gauge(can::BURST),
            clutch: plant.drive.engaged,
            loose: plant.settings.loose.stops_compressor(),
            valves: [hands.low_valve, hands.high_valve],
            coupled: [hands.low_coupled, hands.high_coupled],
            purging: hands.purging,
        }
    }
}

impl Levels {
    /// Height of the lowest thing on the drawing that holds matter. A hose is a line: one that hangs open stands at the atmosphere and
    /// asks for no room below it.
    pub fn lowest(&self) -> f64 {
        let hoses = [&self.low_hose, &self.high_hose, &self.service_hose];
        let deep = |b: &&Block| (b.height - self.atmosphere).abs() > 0.01;
        let can = self.can.as_ref().map(|c| &c.block);
        self.high_side()
            .map(|(_, block)| block)
            .chain(&self.evaporator)
            .chain([&self.accumulator, &self.suction])
            .chain(can)
            .chain(hoses.into_iter().filter(deep))
            .map(|b| b.height)
            .fold(1.0, f64::min)
    }
}

/// A section as one block.
fn whole(net: &Network, section: &Section, atmosphere: f64) -> Block {
    let blocks = section
        .nodes()
        .iter()
        .map(|id| block(net.node(*id), atmosphere));
    let (volume, liquid) = blocks.fold((0.0, 0.0), |(volume, liquid), b| {
        (volume + b.volume, liquid + b.volume * b.fill)
    });
    // A line stands as high as where the flow leaves it.
    Block {
        volume,
        fill: (liquid / volume).clamp(0.0, 1.0),
        ..block(net.node(section.outlet()), atmosphere)
    }
}

fn stream(net: &Network, id: LinkId) -> FlowMark {
    let l = net.link(id);
    FlowMark {
        flow: l.flow * 1e3,
        liquid: l.liquid,
    }
}

/// What flows out of what hangs on the service hose.
fn tap(bay: &Bay) -> FlowMark {
    let (net, q) = (&bay.plant().network, bay.shop().manifold);
    if bay.shop().hands.attached.machine().is_some() {
        let into = stream(net, q.machine);
        return FlowMark {
            flow: -into.flow,
            ..into
        };
    }
    let (up, down) = (stream(net, q.tap_vapour), stream(net, q.tap_liquid));
    if up.flow.abs() >= down.flow.abs() {
        up
    } else {
        down
    }
}

/// The vessel on the service hose. As much of its liquid boils as vapour leaves it; as much condenses as comes.
/// Readings of the gauges that are coupled to the loop: low, high.
fn gauges(bay: &Bay, units: UnitSystem) -> [Option<Shown>; 2] {
    let (shop, day) = (bay.shop(), bay.plant().day());
    let (hands, read) = (&shop.hands, &shop.instruments);
    [
        (&read.low, hands.low_coupled),
        (&read.high, hands.high_coupled),
    ]
    .map(|(gauge, coupled)| {
        // Rounding to the gauge's resolution must not show more vacuum than there is.
        let p = GaugePressure::from_pa(gauge.reading().max(-day.p));
        coupled.then(|| display::gauge_pressure(p, units))
    })
}

/// What the compressor lifts by.
fn lift(bay: &Bay, units: UnitSystem) -> Shown {
    let (net, c) = (&bay.plant().network, &bay.plant().circuit);
    let [high, low] = [c.high_side(), c.low_side()].map(|id| net.node(id).state.p);
    display::pressure_difference(PressureDifference::from_pa((high - low).max(0.0)), units)
}

/// Marks of the axis.
pub fn ticks(bay: &Bay, units: UnitSystem) -> Vec<Tick> {
    axis(bay.plant().day().p, bay.plant().network.table(), units)
}

/// Marks of an axis whose atmosphere is at so many Pa, with the boiling points of a gas.
pub(crate) fn axis(atmosphere: f64, table: &Table, units: UnitSystem) -> Vec<Tick> {
    let pa = |n: f64| match units.pressure {
        PressureUnit::Psi if n < 0.0 => GaugePressure::from_in_hg_vacuum(-n).si(),
        PressureUnit::Psi => GaugePressure::from_psi(n).si(),
        PressureUnit::Kpa => GaugePressure::from_kpa(n).si(),
        PressureUnit::Bar => GaugePressure::from_bar(n).si(),
    };
    let numbers: &[f64] = match units.pressure {
        PressureUnit::Psi => &[
            -28.0, -20.0, 0.0, 10.0, 20.0, 30.0, 50.0, 75.0, 100.0, 150.0, 200.0, 300.0, 400.0,
            500.0,
        ],
        PressureUnit::Kpa => &[
            -95.0, -70.0, 0.0, 50.0, 100.0, 200.0, 300.0, 500.0, 700.0, 1000.0, 1500.0, 2000.0,
            3000.0,
        ],
        PressureUnit::Bar => &[
            -0.95, -0.7, 0.0, 0.5, 1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0,
        ],
    };
    numbers
        .iter()
        .map(|&n| {
            let p = AbsolutePressure::from_pa(pa(n) + atmosphere);
            let t = Temperature::from_k(table.t_sat(p.pa()));
            let degrees = match units.temperature {
                TemperatureUnit::Fahrenheit => t.deg_f(),
                TemperatureUnit::Celsius => t.deg_c(),
            };
            let signed =
                |x: f64| format!("{}{:.0}", if x <= -0.5 { "\u{2212}" } else { "" }, x.abs());
            let unit = if units.pressure == PressureUnit::Psi && n < 0.0 {
                "\u{2033}"
            } else {
                ""
            };
            Tick {
                height: height(p.pa(), atmosphere),
                pressure: if units.pressure == PressureUnit::Bar {
                    n.to_string().replace('-', "\u{2212}")
                } else {
                    format!("{}{unit}", signed(n))
                },
                saturation: format!("{}\u{b0}", signed(degrees)),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests;
