//! The drawing of levels: pressure is height, and everything flows downhill.
//!
//! Every volume with its pressure, temperature, liquid share and place in the loop, every stream with its flow, and the lines of
//! the surroundings at the pressure whose saturation temperature is theirs. The page only puts them on a sheet.

use lowside_fluids::table::Table;
use lowside_plant::{
    circuit::Section,
    network::{LinkId, Node, NodeId},
    species::REFRIGERANT,
};
use lowside_session::Bay;
use lowside_shop::{
    Attached,
    can::{self, Stance},
};
use lowside_units::{
    AbsolutePressure, GaugePressure, Quantity, Temperature,
    display::{self, PressureUnit, Shown, TemperatureUnit, UnitSystem},
};

use crate::parts::Part;

/// Lowest pressure on the axis, Pa absolute; what is below rests on the floor.
pub const FLOOR: f64 = 3e3;
/// Highest pressure on the axis, Pa absolute.
pub const CEILING: f64 = 3.6e6;
/// Share of the height below the atmosphere.
const CELLAR: f64 = 0.15;

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

/// The can on the drawing.
#[expect(
    clippy::struct_excessive_bools,
    reason = "four things that are or are not the case"
)]
#[derive(Debug, Clone, PartialEq)]
pub struct CanLevel {
    /// What is in it.
    pub block: Block,
    /// Which can of the job, from 1.
    pub number: u32,
    /// Temperature of what is in it, as shown.
    pub shown: Shown,
    /// Valve down.
    pub inverted: bool,
    /// Tap open.
    pub open: bool,
    /// Stands in water.
    pub bath: bool,
    /// Burst.
    pub burst: bool,
}

/// What hangs on the service hose and is no can.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tool {
    /// The vacuum pump.
    Pump,
    /// The charging cylinder.
    Cylinder,
    /// The bottle of nitrogen.
    Nitrogen,
    /// The recovery machine.
    Machine,
}

impl Tool {
    pub(crate) fn of(attached: &Attached) -> Option<Self> {
        Some(match attached {
            Attached::Nothing | Attached::Can(_) => return None,
            Attached::Pump(_) => Self::Pump,
            Attached::Cylinder(_) => Self::Cylinder,
            Attached::Nitrogen(_) => Self::Nitrogen,
            Attached::Machine(_) => Self::Machine,
        })
    }
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
    /// From the can into the service hose.
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
        let cells = |coil: &Section| coil.nodes().iter().map(|id| node(*id)).collect();
        let whole = |section: &Section| {
            let outlet = node(section.outlet());
            let blocks = section.nodes().iter().map(|id| node(*id));
            let (volume, liquid) = blocks.fold((0.0, 0.0), |(volume, liquid), b| {
                (volume + b.volume, liquid + b.volume * b.fill)
            });
            // A line stands as high as where the flow leaves it.
            Block {
                volume,
                fill: (liquid / volume).clamp(0.0, 1.0),
                ..outlet
            }
        };
        let stream = |id: LinkId| {
            let l = net.link(id);
            FlowMark {
                flow: l.flow * 1e3,
                liquid: l.liquid,
            }
        };
        let at_t = |t: f64| Line {
            height: height(net.table().p_sat(t), day.p),
            shown: display::temperature(Temperature::from_k(t), units),
        };
        let gauge = |g: f64| height(g + day.p, day.p);
        let hands = &shop.hands;
        let switches = &plant.vehicle.switches;
        let can = hands.attached.can().map(|c| CanLevel {
            block: node(q.can),
            number: c.number,
            shown: display::temperature(Temperature::from_k(net.node(q.can).state.t), units),
            inverted: c.stance == Stance::Inverted,
            open: c.open(),
            bath: c.bath.is_some(),
            burst: c.burst,
        });
        let (up, down) = (stream(q.tap_vapour), stream(q.tap_liquid));
        Self {
            discharge: whole(&c.discharge_line),
            condenser_cells: cells(&c.condenser),
            liquid: whole(&c.liquid_line),
            evaporator: cells(&c.evaporator),
            accumulator: whole(&c.accumulator),
            suction: whole(&c.suction_line),
            low_hose: node(q.low_hose),
            high_hose: node(q.high_hose),
            service_hose: node(q.service_hose),
            can,
            tool: Tool::of(&hands.attached),
            compressor: stream(c.compressor()),
            condenser: stream(c.condenser.half_way()),
            orifice: stream(c.orifice()),
            evaporated: stream(c.evaporator.out()),
            pick_up: stream(c.pick_up()),
            tap: if up.flow.abs() >= down.flow.abs() {
                up
            } else {
                down
            },
            low_valve: stream(q.low_valve),
            low_port: stream(shop.low_port()),
            high_valve: stream(q.high_valve),
            high_port: stream(q.high_port),
            hose_end: stream(q.hose_end),
            shed: plant.condenser.duty,
            taken: plant.evaporator.duty,
            outside: at_t(day.t),
            cabin: at_t(plant.cabin.air.t),
            atmosphere: height(day.p, day.p),
            switch: [
                gauge(switches.low_opens.si()),
                gauge(switches.low_closes.si()),
            ],
            burst: gauge(can::BURST),
            clutch: plant.drive.engaged,
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
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::{Action, BenchAct, MachineAct, VesselAct};

    #[test]
    fn the_axis_rises_and_meets_at_the_atmosphere() {
        let a = 101_325.0;
        assert!(height(10.0, a).abs() < 1e-12 && (height(9e9, a) - 1.0).abs() < 1e-12);
        assert!(
            (height(a, a) - CELLAR).abs() < 1e-12 && (height(a - 1.0, a) - CELLAR).abs() < 1e-4
        );
        let all: Vec<f64> = (1..400).map(|k| height(f64::from(k) * 1e4, a)).collect();
        assert!(all.windows(2).all(|w| w[0] <= w[1]));
        for units in [UnitSystem::US, UnitSystem::SI, UnitSystem::MIXED] {
            let t = ticks(&bay("healthy"), units);
            assert!(t.windows(2).all(|w| w[0].height < w[1].height));
        }
    }

    #[test]
    fn a_parked_charged_loop_rests_on_the_line_of_the_outside_air() {
        let l = Levels::of(&bay_parked(), UnitSystem::US);
        for b in l
            .high_side()
            .map(|(_, block)| block)
            .chain(&l.evaporator)
            .chain([&l.accumulator, &l.suction])
        {
            assert!((b.height - l.outside.height).abs() < 0.01, "{b:?}");
        }
        assert!(l.compressor.flow.abs() < 0.1 && !l.clutch);
    }

    /// An evacuated loop opened to the room stands at the atmosphere, and what hangs below that line needs room there; the hoses, which
    /// are lines, need none.
    #[test]
    fn a_loop_at_the_atmosphere_needs_room_below_it() {
        let mut bay = bay("charge-from-cans");
        let joint = lowside_shop::joints::Joint::CompressorIn;
        bay.apply(BenchAct::OpenJoint { joint }).expect("possible");
        bay.apply(VesselAct::TakeCan).expect("possible");
        for _ in 0..120 * 50 {
            bay.step().expect("the engine goes on");
        }
        let l = Levels::of(&bay, UnitSystem::US);
        assert!((l.accumulator.height - l.atmosphere).abs() < 0.01);
        assert!(l.lowest() <= l.accumulator.height && l.can.is_some());
    }

    #[test]
    fn the_drawing_knows_what_hangs_on_the_hose() {
        let mut bay = bay("charge-from-cans");
        let tool = |bay: &Bay| Levels::of(bay, UnitSystem::US).tool;
        assert_eq!(tool(&bay), None);
        let gas = lowside_fluids::Refrigerant::R134a;
        let all: [(Action, Option<Tool>); 4] = [
            (VesselAct::TakeNitrogen.into(), Some(Tool::Nitrogen)),
            (
                MachineAct::TakeRecoveryMachine { gas }.into(),
                Some(Tool::Machine),
            ),
            (VesselAct::TakeCan.into(), None),
            (
                MachineAct::TakePump {
                    speed: lowside_units::VolumeFlow::from_cfm(4.0),
                }
                .into(),
                Some(Tool::Pump),
            ),
        ];
        for (act, hangs) in all {
            bay.apply(act).expect("possible");
            assert_eq!(tool(&bay), hangs, "{act:?}");
        }
    }

    fn bay_parked() -> Bay {
        use lowside_session::{Scenario, library};
        let text = library::scenario("healthy").expect("shipped");
        let off: Vec<String> = ["engine.on=false", "controls.ac=false"]
            .map(Into::into)
            .into();
        Bay::new(&Scenario::parse(text, &off).expect("sound"))
    }

    #[test]
    fn running_lifts_the_high_shelf_and_drops_the_low_one() {
        let mut bay = bay("healthy");
        for _ in 0..50 * 60 {
            bay.step().expect("the engine goes on");
        }
        let l = Levels::of(&bay, UnitSystem::US);
        assert!(
            l.condenser_cells[2].height > l.outside.height,
            "the condenser sheds heat down to the outside air"
        );
        assert!(
            l.accumulator.height < l.cabin.height,
            "the cabin pours heat down into the low side"
        );
        assert!(l.shed > 500.0 && l.taken > 500.0, "{} {}", l.shed, l.taken);
        assert!(
            l.condenser.flow > 0.0 && l.evaporated.flow > 0.0,
            "the links are the ones meant"
        );
    }

    #[test]
    fn the_evacuated_loop_lies_on_the_floor_and_a_full_can_stands_by_the_outside_air() {
        let mut bay = bay("charge-from-cans");
        bay.apply(VesselAct::TakeCan).unwrap();
        let l = Levels::of(&bay, UnitSystem::SI);
        assert!(l.high_side().all(|(_, b)| b.below && b.height == 0.0));
        let can = l.can.expect("a can is on");
        assert!((can.block.height - l.outside.height).abs() < 0.01);
        assert!(can.block.fill > 0.5);
    }
}
