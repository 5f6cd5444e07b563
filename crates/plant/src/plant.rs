//! The vehicle put together: loop, walls, air, cabin, drive; and its tick.

use lowside_fluids::moist_air;
use lowside_units::Quantity;
use serde::{Deserialize, Serialize};

use crate::{
    cabin::{Cabin, Outside},
    compressor::Compressor,
    condenser::{self, Condenser},
    controls::{Drive, Settings},
    evaporator::{self, Evaporator},
    flow::{k_from_drop, k_from_hole},
    network::{Law, LinkId, Network, NodeId, ROOM},
    orifice::Orifice,
    shell::{Around, Shell},
    species::{AIR, Content, OIL, REFRIGERANT, WATER},
    stream::Draw,
    vehicle::{RATED_FLOW, Vehicle, ram_speed},
};

/// Length of a tick, s of bay time.
pub const TICK: f64 = 0.02;
/// Share of a node's content that may flow through within one step before the tick is divided.
const COURANT: f64 = 0.5;
/// Most steps a tick is divided into.
const DIVISIONS: f64 = 16.0;
/// Air under the hood above the outside air with a warm engine, K (common practice: 20-30 K).
const HOOD_RISE: f64 = 25.0;
/// Time in which the space under the hood warms up or cools, s.
const HOOD_TIME: f64 = 240.0;
/// Idle speed at which the fan is rated, 1/min.
const FAN_IDLE: f64 = 800.0;

/// The day around the vehicle.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Day {
    /// Outside temperature, K.
    pub t: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
    /// Atmospheric pressure, Pa.
    pub p: f64,
    /// Sun, 0 (shade) to 1 (full).
    pub sun: f64,
}

impl Day {
    /// Humidity ratio of the outside air, kg/kg.
    pub fn w(&self) -> f64 {
        moist_air::humidity_ratio(self.t, self.humidity, self.p)
    }
}

/// What is in the loop at the start, kg, and the cabin's temperature, K.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// Refrigerant.
    pub charge: f64,
    /// Air.
    pub air: f64,
    /// Water.
    pub water: f64,
    /// Oil.
    pub oil: f64,
    /// Cabin air and interior, K.
    pub cabin_t: f64,
}

/// The condition the parts are in: faults change these, never the state.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Condition {
    /// Wear of the compressor, 0 (new) to 1.
    pub compressor_wear: f64,
    /// Open share of the orifice's flow area, 0 to 1.
    pub orifice_open: f64,
    /// Share of the condenser's air flow that gets through, 0 to 1.
    pub condenser_air: f64,
    /// Share of the blower's air flow that gets through the evaporator, 0.05 to 1.
    pub evaporator_air: f64,
}

impl Default for Condition {
    fn default() -> Self {
        Self {
            compressor_wear: 0.0,
            orifice_open: 1.0,
            condenser_air: 1.0,
            evaporator_air: 1.0,
        }
    }
}

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
    /// Pick-up tube of the accumulator.
    pub pick_up: LinkId,
    /// Relief valve.
    pub relief: LinkId,
}

/// A vehicle in the bay.
#[derive(Debug, Clone)]
pub struct Plant {
    /// Its data sheet.
    pub vehicle: Vehicle,
    /// Condition of its parts.
    pub condition: Condition,
    /// What is set on it.
    pub settings: Settings,
    /// Volumes and links: the loop, and what the shop has connected.
    pub network: Network,
    /// Where the loop's parts are.
    pub places: Places,
    /// Metal shells around volumes; the first are the loop's own.
    pub shells: Vec<Shell>,
    /// Condenser walls and air side.
    pub condenser: Condenser,
    /// Evaporator walls and air side.
    pub evaporator: Evaporator,
    /// Cabin.
    pub cabin: Cabin,
    /// Switches and clutch.
    pub drive: Drive,
    /// Temperature under the hood, K.
    pub hood_t: f64,
    /// Air over the condenser: flow kg/s and temperature K.
    pub condenser_air: (f64, f64),
    day: Day,
    room_w: f64,
    heat: Vec<f64>,
}

/// Index of the compressor body among the shells.
const BODY: usize = 0;

impl Plant {
    /// Puts a vehicle into the bay.
    pub fn new(vehicle: &Vehicle, day: Day, start: &Start) -> Self {
        let v = vehicle;
        let t = day.t;
        let table = v.refrigerant.table();
        let mut net = Network::new(v.refrigerant, day.t, day.p, day.w());
        let empty = Content::default();
        let discharge = net.add_node(
            "discharge line",
            v.discharge_line.volume.si(),
            empty,
            t,
            0.03,
        );
        let condenser = net.nodes().len();
        for _ in 0..condenser::CELLS {
            net.add_node(
                "condenser",
                v.condenser.volume.si() / condenser::CELLS as f64,
                empty,
                t,
                0.03,
            );
        }
        let liquid = net.add_node("liquid line", v.liquid_line.volume.si(), empty, t, 0.03);
        let evaporator = net.nodes().len();
        for _ in 0..evaporator::CELLS {
            net.add_node(
                "evaporator",
                v.evaporator.volume.si() / evaporator::CELLS as f64,
                empty,
                t,
                0.03,
            );
        }
        let accumulator = net.add_node("accumulator", v.accumulator.volume.si(), empty, t, 0.002);
        // The suction node is mostly the compressor's crankcase as far as oil goes: it lets its store out slowly.
        let suction = net.add_node("suction line", v.suction_line.volume.si(), empty, t, 0.0015);

        // Passages between cells, from the pressure each part loses at the rated flow.
        let rho_g = table.sat(278.15).rho_g;
        let rho_d = table.sat(328.15).rho_g;
        let rho_l = table.sat(318.15).rho_l;
        let slip = Draw::Slip;
        let bottom = Draw::Bottom { pull_through: 0.35 };
        let tube = |drop: f64, rho: f64, n: usize| {
            Law::Passage(k_from_drop(RATED_FLOW, rho, drop / n as f64))
        };
        let compressor = net.add_link(
            "compressor",
            (suction, slip),
            (discharge, slip),
            Law::Passage(0.0),
        );
        net.add_link(
            "discharge line",
            (discharge, slip),
            (condenser, slip),
            tube(v.discharge_line.pressure_loss.si(), rho_d, 1),
        );
        let between_cells = tube(
            v.condenser.pressure_loss.si(),
            2.0 * rho_d,
            condenser::CELLS - 1,
        );
        for k in 1..condenser::CELLS {
            net.add_link(
                "condenser",
                (condenser + k - 1, slip),
                (condenser + k, slip),
                between_cells,
            );
        }
        let condenser_out = net.add_link(
            "condenser outlet",
            (condenser + condenser::CELLS - 1, bottom),
            (liquid, bottom),
            tube(v.liquid_line.pressure_loss.si(), rho_l, 1),
        );
        let orifice = net.add_link(
            "orifice tube",
            (liquid, bottom),
            (evaporator, slip),
            Law::Passage(0.0),
        );
        let between_cells = tube(
            v.evaporator.pressure_loss.si(),
            2.0 * rho_g,
            evaporator::CELLS,
        );
        for k in 1..evaporator::CELLS {
            net.add_link(
                "evaporator",
                (evaporator + k - 1, slip),
                (evaporator + k, slip),
                between_cells,
            );
        }
        let floods = v.accumulator.floods_above.si();
        net.add_link(
            "evaporator outlet",
            (evaporator + evaporator::CELLS - 1, slip),
            (accumulator, Draw::Top { floods }),
            between_cells,
        );
        let k_tube = k_from_drop(RATED_FLOW, rho_g, v.accumulator.pressure_loss.si());
        let pick_up = net.add_link(
            "pick-up tube",
            (
                accumulator,
                Draw::PickUp {
                    floods,
                    bleed_area: v.accumulator.bleed_hole.si(),
                    tube_loss: 1.0 / (k_tube * k_tube),
                },
            ),
            (suction, slip),
            tube(
                v.accumulator.pressure_loss.si() + v.suction_line.pressure_loss.si(),
                rho_g,
                1,
            ),
        );
        let relief = net.add_link(
            "relief valve",
            (discharge, slip),
            (ROOM, slip),
            Law::OneWay(0.0),
        );
        let places = Places {
            discharge,
            condenser,
            liquid,
            evaporator,
            accumulator,
            suction,
            compressor,
            condenser_out,
            orifice,
            pick_up,
            relief,
        };

        let c = &v.compressor;
        let shell = |node, metal, inside, outside| Shell {
            node,
            t,
            metal,
            inside,
            outside,
            around: Around::Hood,
        };
        let shells = vec![
            shell(
                discharge,
                c.metal.si(),
                c.gas_conductance.si(),
                c.hood_conductance.si(),
            ),
            shell(
                discharge,
                300.0,
                15.0,
                v.discharge_line.hood_conductance.si(),
            ),
            shell(liquid, 300.0, 15.0, v.liquid_line.hood_conductance.si()),
            shell(accumulator, 500.0, 8.0, v.accumulator.hood_conductance.si()),
            shell(suction, 400.0, 8.0, v.suction_line.hood_conductance.si()),
        ];
        let mut plant = Self {
            vehicle: v.clone(),
            condition: Condition::default(),
            settings: Settings::default(),
            condenser: Condenser::new(&v.condenser, t),
            evaporator: Evaporator::new(&v.evaporator, t),
            cabin: Cabin::new(&v.cabin, start.cabin_t, day.w()),
            drive: Drive::new(&v.switches, 0.0),
            hood_t: t,
            condenser_air: (0.0, t),
            network: net,
            places,
            shells,
            day,
            room_w: day.w(),
            heat: Vec::new(),
        };
        plant.fill(start);
        let low = plant.network.node(accumulator).state.p - day.p;
        plant.drive = Drive::new(&v.switches, low);
        plant
    }

    /// Puts the start charge into the loop as it would stand: one temperature, liquid where it collects.
    fn fill(&mut self, start: &Start) {
        let p = self.places;
        let table = self.network.table();
        let sat = table.sat(self.day.t);
        let loop_nodes = p.discharge..=p.suction;
        let volume: f64 = loop_nodes
            .clone()
            .map(|i| self.network.node(i).volume)
            .sum();
        let vapour_fill = (start.charge / volume).min(sat.rho_g * 0.999);
        let mut liquid = start.charge - vapour_fill * volume;
        // Liquid stands in the accumulator, then in the condenser and the liquid line.
        let mut extra = vec![0.0; self.network.nodes().len()];
        let mut pour = |i: usize, share: f64, volume: f64| {
            let take = liquid
                .min(share * volume * (sat.rho_l - sat.rho_g))
                .max(0.0);
            extra[i] += take;
            liquid -= take;
        };
        pour(p.accumulator, 0.6, self.network.node(p.accumulator).volume);
        pour(p.liquid, 0.9, self.network.node(p.liquid).volume);
        for k in (0..condenser::CELLS).rev() {
            pour(
                p.condenser + k,
                0.9,
                self.network.node(p.condenser + k).volume,
            );
        }
        for k in 0..evaporator::CELLS {
            pour(
                p.evaporator + k,
                0.9,
                self.network.node(p.evaporator + k).volume,
            );
        }
        pour(p.accumulator, 0.35, self.network.node(p.accumulator).volume);
        // Oil: common shares, most in compressor and accumulator.
        let oil_share = |i: usize| match i {
            i if i == p.suction => 0.45,
            i if i == p.accumulator => 0.25,
            i if i >= p.evaporator && i < p.evaporator + evaporator::CELLS => {
                0.15 / evaporator::CELLS as f64
            }
            i if i >= p.condenser && i < p.condenser + condenser::CELLS => {
                0.10 / condenser::CELLS as f64
            }
            _ => 0.025,
        };
        for i in loop_nodes {
            let v = self.network.node(i).volume;
            let mut content = Content::default();
            content[REFRIGERANT] = vapour_fill * v + extra[i];
            content[AIR] = start.air * v / volume;
            content[WATER] = start.water * v / volume;
            content[OIL] = start.oil * oil_share(i);
            self.network.inject(i, &content);
        }
    }

    /// The day.
    pub fn day(&self) -> Day {
        self.day
    }

    /// Changes the day.
    pub fn set_day(&mut self, day: Day) {
        self.day = day;
        self.room_w = day.w();
        self.network.set_room(day.t, day.p, self.room_w);
    }

    /// Advances the vehicle by one tick.
    pub fn tick(&mut self) {
        self.set_drive(TICK);
        self.set_air(TICK);
        self.set_laws();
        let courant = self.network.courant(TICK);
        let parts = (courant / COURANT).ceil().clamp(1.0, DIVISIONS);
        let dt = TICK / parts;
        let outside = Outside {
            t: self.day.t,
            w: self.room_w,
            p: self.day.p,
            sun: self.day.sun,
        };
        for _ in 0..parts as u32 {
            let coil = self.pass_heat(&outside, dt);
            self.network.advance(dt, &self.heat);
            self.cabin.advance(coil, &outside, dt);
        }
    }

    fn set_drive(&mut self, dt: f64) {
        let low = self.network.node(self.places.accumulator).state.p - self.day.p;
        let high = self.network.node(self.places.discharge).state.p - self.day.p;
        self.drive.advance(&self.settings, low, high, dt);
    }

    fn set_air(&mut self, dt: f64) {
        let s = &self.settings;
        let goal = self.day.t + if s.engine_on { HOOD_RISE } else { 0.0 };
        self.hood_t += (goal - self.hood_t) * dt / HOOD_TIME;
        let f = &self.vehicle.fan;
        let rpm = if s.engine_on { s.engine_rpm } else { 0.0 };
        let fan = (f.idle_flow.si() * libm::pow(rpm / FAN_IDLE, 0.8)).min(f.top_flow.si());
        let ram = f.ram_flow.si() * s.road_speed / ram_speed().si();
        let flow = (fan * fan + ram * ram).sqrt();
        // Hot air comes round to the face less as the fan pulls harder, and not at all on the road.
        let round = if flow > 0.0 {
            f.idle_recirculation.si() * (f.idle_flow.si() / flow) * fan / flow
        } else {
            0.0
        };
        let still = 0.03;
        self.condenser_air = (
            flow.max(still) * self.condition.condenser_air.max(0.01),
            self.day.t + round,
        );
        self.cabin.set_blower(s.blower);
        self.cabin.flow *= self.condition.evaporator_air;
    }

    fn set_laws(&mut self) {
        let p = self.places;
        let rpm = if self.drive.engaged {
            self.settings.engine_rpm * self.vehicle.compressor.pulley_ratio.si()
        } else {
            0.0
        };
        let compressor = Compressor {
            displacement: self.vehicle.compressor.displacement.si(),
            wear: self.condition.compressor_wear,
        };
        self.network
            .set_law(p.compressor, Law::Compressor(compressor, rpm));
        let o = &self.vehicle.orifice;
        let orifice = Orifice {
            bore: o.bore.si(),
            length: o.length.si(),
            open: self.condition.orifice_open,
        };
        self.network.set_law(p.orifice, Law::Orifice(orifice));
        // The relief valve lifts in proportion, fully open 5 % above its setting.
        let set = self.vehicle.switches.relief_opens.si();
        let over = (self.network.node(p.discharge).state.p - self.day.p - set) / (0.05 * set);
        self.network.set_law(
            p.relief,
            Law::OneWay(k_from_hole(0.7, 12e-6) * over.clamp(0.0, 1.0)),
        );
    }

    /// Heat of the coming step, for every node, into `self.heat`; returns the air that leaves the evaporator.
    fn pass_heat(&mut self, outside: &Outside, dt: f64) -> evaporator::Air {
        let p = self.places;
        let hood = self.hood_t;
        let Self {
            network,
            heat,
            shells,
            ..
        } = self;
        heat.clear();
        heat.resize(network.nodes().len(), 0.0);
        let mut in_from_outside = 0.0;
        // The share of the shaft power that the gas did not get warms the compressor's body.
        let work = network.link(p.compressor).shaft * crate::compressor::BODY_LOSS * dt;
        shells[BODY].t += work / shells[BODY].metal;
        in_from_outside += work;
        for shell in shells.iter_mut() {
            let s = &network.node(shell.node).state;
            let t_around = match shell.around {
                Around::Hood => hood,
                Around::Room => outside.t,
                Around::Bath(t) => t,
            };
            let (inward, from_out) = shell.pass(s.t, s.heat_capacity, t_around, dt);
            heat[shell.node] += inward;
            in_from_outside += from_out;
        }
        let nodes = network.nodes();
        let cells = p.condenser..p.condenser + condenser::CELLS;
        let flow = network.link(p.compressor).flow;
        let (air_flow, air_t) = self.condenser_air;
        in_from_outside -= self.condenser.pass(
            &nodes[cells.clone()],
            flow,
            air_flow,
            air_t,
            dt,
            &mut heat[cells],
        );
        let cells = p.evaporator..p.evaporator + evaporator::CELLS;
        let flow = network.link(p.orifice).flow;
        let inlet = self.cabin.inlet(outside, self.settings.recirculate);
        let (coil, from_air) = self.evaporator.pass(
            &nodes[cells.clone()],
            flow,
            self.cabin.flow,
            inlet,
            outside.p,
            dt,
            &mut heat[cells],
        );
        in_from_outside += from_air;
        network.count_energy(in_from_outside);
        coil
    }

    /// Sets a shell's temperature from outside (another can): the books count the difference as taken in.
    pub fn set_shell_temperature(&mut self, shell: usize, t: f64) {
        let s = &mut self.shells[shell];
        let gain = s.metal * (t - s.t);
        s.t = t;
        self.network.count_energy(gain);
    }

    /// Liquid refrigerant in what the compressor draws now, kg per kg; 0 with the clutch out.
    pub fn suction_liquid(&self) -> f64 {
        let c = self.network.link(self.places.compressor);
        if self.drive.engaged && c.flow > 0.0 {
            c.liquid
        } else {
            0.0
        }
    }

    /// Energy held by volumes and walls, J: what the account of the network's edge must explain.
    pub fn energy(&self) -> f64 {
        let shells: f64 = self.shells.iter().map(|s| s.metal * s.t).sum();
        self.network.energy() + self.condenser.energy() + self.evaporator.energy() + shells
    }
}
