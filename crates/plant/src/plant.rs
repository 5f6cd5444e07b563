//! The vehicle put together: loop, walls, air, cabin, drive; and its tick.

use std::sync::Arc;

use lowside_fluids::{Blend, Refrigerant, moist_air, moisture::SIEVE_CAPACITY};
use lowside_units::Quantity;
use serde::{Deserialize, Serialize};

mod finite;
mod openings;
mod readings;

use crate::{
    assembly, bores,
    built::{Built, Misfit},
    cabin::{Cabin, Outside},
    charge::{self, Start},
    circuit::{Circuit, Section},
    clutch::{Clutch, Load},
    compressor::Compressor,
    condenser::{self, Condenser},
    condition::Condition,
    controls::{Drive, DriveInputs, Settings},
    damage::Damage,
    debris::Debris,
    engine::{Cooling, Engine, RAD_S},
    evaporator::{self, Evaporator},
    halt::Halt,
    hose,
    leak::Leak,
    moisture::{self, Tube},
    network::{Heat, Law, LinkId, Network, Node, NodeId, PerNode, Taken},
    oil::{self, LoopOil},
    passage::OpenShares,
    provoked::Provoked,
    relief::Relief,
    rubber,
    seat::{Fitted, Seat},
    shell::{Around, ShellId, Shells},
    state::CP_AIR,
    stream::Offtake,
    vehicle::{Vehicle, ram_speed},
};

/// Length of a tick, s of bay time.
pub const TICK: f64 = 0.02;
/// Share of a node's content that may flow through within one step before the tick is divided.
const COURANT: f64 = 1.2;
/// Ticks that a step may take at most.
const LONGEST_STRIDE: u64 = 4;
/// Fastest change of a pressure at which a step may be as long, 1/s; half of it, twice as fast (own figures: see the test of strides).
const CALM: f64 = 0.1;
/// Pressure in the loop up to which every tick is taken by itself, Pa absolute (own figure: half an atmosphere).
const VACUUM: f64 = 50e3;
/// Most steps a tick is divided into.
const DIVISIONS: u8 = 16;
/// Air under the hood above the outside air with a warm engine, K (common practice: 20-30 K).
const HOOD_RISE: f64 = 25.0;
/// Time in which the space under the hood warms up or cools, s.
const HOOD_TIME: f64 = 240.0;
/// Suction flow below which liquid in it counts in proportion, kg/s (a third of the rated flow).
const TRICKLE: f64 = 0.015;
/// Air that moves through the condenser by itself, kg/s.
const STILL: f64 = 0.03;
/// Share of its air that gets through a condenser with cardboard over half its face: the rest of the face takes some of what the half would
/// (own figure).
const COVERED: f64 = 0.6;
/// Time in which a fan clutch takes or lets go as the air behind the condenser changes, s (common practice: some ten to thirty).
const FAN_TIME: f64 = 10.0;
/// Speed at which a hand turns the compressor's hub, 1/min (own figure: with a spanner, a turn in three seconds).
const BY_HAND: f64 = 20.0;
/// Turns that hands give it (common practice: ten or so).
pub const HAND_TURNS: f64 = 10.0;
/// Idle speed at which the fan is rated, 1/min.
const FAN_IDLE: f64 = 800.0;

/// What a leak is called among the links: the only ones that come about in a bay.
const LEAK: &str = "leak";

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

/// Somebody who looks on while a tick runs and changes nothing.
pub(crate) trait TickObserver {
    /// Heat is about to pass for `dt` seconds.
    fn heat_comes(&mut self, _: &Plant, _outside: &Outside, _dt: f64) {}
    /// The network took a step.
    fn step(&mut self, _: &Taken<'_>) {}
    /// Heat has passed and the network has taken it up.
    fn heat_came(&mut self, _: &Plant, _coil: evaporator::Air) {}
}

impl TickObserver for () {}

/// A vehicle in the bay.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Plant {
    /// Its data sheet, shared by all bays of this vehicle.
    #[serde(skip)]
    pub vehicle: Built<Vehicle>,
    /// Condition of its parts.
    pub condition: Condition,
    /// The orifice tube in its seat.
    pub seat: Seat,
    /// Which parts are in.
    pub fitted: Fitted,
    /// What is set on it.
    pub settings: Settings,
    /// Volumes and links: the loop, and what the shop has connected.
    pub network: Network,
    /// Where the loop's parts are in it.
    #[serde(skip)]
    pub circuit: Built<Circuit>,
    /// Metal shells around volumes: the loop's own, and what the shop has connected.
    pub shells: Shells,
    /// Condenser walls and air side.
    pub condenser: Condenser,
    /// Evaporator walls and air side.
    pub evaporator: Evaporator,
    /// Cabin.
    pub cabin: Cabin,
    /// Switches.
    pub drive: Drive,
    /// The compressor's clutch.
    pub clutch: Clutch,
    /// The engine's heat.
    pub engine: Engine,
    /// The oil.
    pub oil: LoopOil,
    /// What use has done to the compressor.
    pub damage: Damage,
    /// Metal and beads in the stream and on the orifice tube's screen.
    pub debris: Debris,
    /// The relief valve.
    pub relief: Relief,
    /// Temperature under the hood, K.
    pub hood_t: f64,
    /// Air over the condenser: flow kg/s and temperature K.
    pub condenser_air: (f64, f64),
    /// How far the fan's clutch (or its stages) is in, 0 to 1.
    pub fan_clutch: f64,
    /// What has been done to see how it answers.
    #[serde(default, skip_serializing_if = "Provoked::over")]
    pub provoked: Provoked,
    /// Heat that the heater core gave the cabin's air last, W.
    heater: f64,
    /// How far each passage is open.
    open: OpenShares,
    leaks: Vec<Leak>,
    /// The way out of each, in the same order.
    leak_links: Vec<LinkId>,
    /// What coils and oil are reckoned with.
    gas: Refrigerant,
    day: Day,
    room_w: f64,
    #[serde(skip)]
    heat: PerNode<Heat>,
    /// Why it stands still, once a step could not be vouched for.
    halt: Option<Halt>,
    /// Fastest change of a pressure in the last step, 1/s.
    pace: f64,
    /// Time for which hands still turn the hub, s.
    #[serde(default)]
    by_hand: f64,
}

impl Plant {
    /// Puts a vehicle into the bay, everything at the day's temperature.
    pub fn new(vehicle: &Arc<Vehicle>, day: Day, start: &Start) -> Self {
        let mut network = Network::new(vehicle.refrigerant, day.t, day.p, day.w());
        let (circuit, shells) = assembly::build(&mut network, vehicle, day.t);
        bores::set(&mut network, &circuit, vehicle);
        let blended = if start.other == 0.0 {
            Ok(())
        } else {
            Blend::with(vehicle.refrigerant, start.other).and_then(|blend| network.blend(blend))
        };
        let oil = LoopOil::new(vehicle.oil_kind, vehicle.refrigerant);
        charge::fill(&mut network, &circuit, start, &oil.solution, day.t);
        let held = vehicle.accumulator.desiccant.si() * SIEVE_CAPACITY * start.desiccant_load;
        network.inject_bound(circuit.accumulator.outlet(), held);
        let low = network.node(circuit.low_side()).state.p - day.p;
        Self {
            vehicle: Arc::clone(vehicle).into(),
            condition: Condition::default(),
            seat: Seat::of(&vehicle.orifice),
            fitted: Fitted {
                compressor: true,
                accumulator: true,
            },
            settings: Settings::default(),
            condenser: Condenser::new(&vehicle.condenser, vehicle.refrigerant, day.t),
            evaporator: Evaporator::new(&vehicle.evaporator, vehicle.refrigerant, day.t),
            cabin: Cabin::new(&vehicle.cabin, start.cabin_t, day.w()),
            drive: Drive::new(&vehicle.switches, low),
            clutch: Clutch::new(day.t),
            engine: Engine::default(),
            oil,
            damage: Damage::default(),
            debris: Debris::default(),
            relief: Relief::new(vehicle.switches.relief_opens.si()),
            hood_t: day.t,
            condenser_air: (0.0, day.t),
            fan_clutch: 0.0,
            provoked: Provoked::default(),
            heater: 0.0,
            network,
            circuit: Built::new(circuit),
            shells,
            open: OpenShares::default(),
            leaks: Vec::new(),
            leak_links: Vec::new(),
            gas: vehicle.refrigerant,
            day,
            room_w: day.w(),
            heat: PerNode::default(),
            pace: f64::MAX,
            by_hand: 0.0,
            halt: blended.err().map(|e| Halt {
                place: "loop".into(),
                cause: e.into(),
            }),
        }
    }

    /// Puts a state that was read into this vehicle as it was built: data sheet and tables stay its own.
    ///
    /// # Errors
    /// [`Misfit`] when it is another vehicle's; nothing has changed then.
    pub fn put(&mut self, mut state: Self) -> Result<(), Misfit> {
        let mut network = self.network.clone();
        network
            .put(state.network, LEAK)
            .map_err(|e| e.inside("network"))?;
        state.shells.put_with(&self.shells)?;
        Misfit::count("leak_links", state.leak_links.len(), state.leaks.len())?;
        for (k, link) in state.leak_links.iter().enumerate() {
            network.knows_link(&format!("leak_links.{k}"), *link)?;
        }
        state.oil.put_with(&self.oil, &network)?;
        state.vehicle = self.vehicle.clone();
        state.circuit = self.circuit.clone();
        state.cabin.put_with(&self.cabin);
        state.condenser.put_with(&self.condenser);
        state.evaporator.put_with(&self.evaporator);
        if state.gas != self.gas {
            state
                .condenser
                .change_gas(state.gas, &self.vehicle.condenser);
            state
                .evaporator
                .change_gas(state.gas, &self.vehicle.evaporator);
        }
        *self = Self { network, ..state };
        Ok(())
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
    ///
    /// # Errors
    /// [`Halt`] when a step cannot be vouched for, and from then on at every tick: the vehicle stands still.
    pub fn tick(&mut self) -> Result<(), Halt> {
        self.tick_of(TICK)
    }

    /// Advances the vehicle by one tick of another length, s: for studies of the step only. A bay keeps to [`TICK`].
    ///
    /// # Errors
    /// As [`tick`](Self::tick).
    pub fn tick_of(&mut self, length: f64) -> Result<(), Halt> {
        self.tick_observed(length, &mut ())
    }

    /// Returns how many ticks the next step may take, begun at `tick`: 1, 2 or 4. As many as keep the answer what single ticks give: while
    /// no pressure changes fast, the clutch has caught and no switch is near its points. A step of n ticks begins at a multiple of n. One
    /// in a vacuum, where water goes its own way, and one while nobody asks for cold: then what instruments show of the day must not
    /// hang on what goes on inside.
    pub fn stride(&self, tick: u64) -> u64 {
        let called = self.settings.engine_on && self.settings.ac_on;
        let steady = called && (self.clutch.grip >= 1.0 || !self.drive.engaged);
        let steady = steady && self.network.node(self.circuit.low_side()).state.p > VACUUM;
        let fits = |n: u64| {
            let n_f = n as f64;
            tick.is_multiple_of(n)
                && self.pace * n_f <= CALM * LONGEST_STRIDE as f64
                && self.drive.rests(&self.condition, n_f * TICK)
        };
        if steady && fits(LONGEST_STRIDE) {
            LONGEST_STRIDE
        } else if steady && fits(2) {
            2
        } else {
            1
        }
    }

    /// Turns the compressor's hub by hand from now on, [`HAND_TURNS`] times: what liquid lies in the cylinders is pushed out without harm.
    pub fn turn_by_hand(&mut self) {
        self.by_hand = HAND_TURNS / BY_HAND * 60.0;
    }

    /// Time for which hands still turn the hub, s.
    pub fn turning_by_hand(&self) -> f64 {
        self.by_hand
    }

    /// Why the vehicle stands still, if it does.
    pub fn halt(&self) -> Option<Halt> {
        self.halt.clone()
    }

    /// A tick that shows `watch` what it does.
    pub(crate) fn tick_observed(
        &mut self,
        length: f64,
        watch: &mut impl TickObserver,
    ) -> Result<(), Halt> {
        if let Some(halt) = &self.halt {
            return Err(halt.clone());
        }
        let done = self
            .tick_unchecked(length, watch)
            .and_then(|()| self.finite());
        self.halt = done.as_ref().err().cloned();
        done
    }

    fn tick_unchecked(&mut self, length: f64, watch: &mut impl TickObserver) -> Result<(), Halt> {
        let outside = Outside {
            t: self.day.t,
            w: self.room_w,
            p: self.day.p,
            sun: self.day.sun,
        };
        self.by_hand = (self.by_hand - length).max(0.0);
        self.set_drive(length);
        self.set_air(&outside, length);
        self.set_laws();
        let courant = self.network.courant(length);
        // A division finer than the largest is never needed: flows are held back from emptying a node all the same.
        let parts = (1..DIVISIONS)
            .find(|&n| f64::from(n) * COURANT >= courant)
            .unwrap_or(DIVISIONS);
        let dt = length / f64::from(parts);
        for _ in 0..parts {
            watch.heat_comes(self, &outside, dt);
            let coil = self.pass_heat(&outside, dt);
            self.network
                .advance_watched(dt, &self.heat, &mut |taken| watch.step(taken))?;
            self.settle_walls(dt);
            watch.heat_came(self, coil);
            let heater = self.heater_core();
            let windows = self.settings.windows_open;
            self.heater = self.cabin.advance(coil, &heater, &outside, windows, dt);
        }
        self.pace = self.network.pace(dt);
        self.bind_water(length);
        let driven = self.drive.engaged && !self.settings.loose.belt;
        self.oil
            .advance(&mut self.network, &self.circuit, driven, length);
        self.network.follow_mixture();
        self.follow_gas();
        let before = self.damage.wear();
        if driven && self.fitted.compressor {
            let (liquid, short) = (self.suction_liquid(), self.oil_shortage());
            let (c, net) = (&self.circuit, &self.network);
            let (suction, discharge) = (net.node(c.compressor_inlet()), net.node(c.high_side()));
            self.damage.add(liquid, short, suction, discharge, length);
        }
        self.carry(before, length);
        let wall = self.shells[self.circuit.discharge_hose].t;
        let high = self.network.node(self.circuit.high_side()).state.p - self.day.p;
        if let Some(torn) = hose::bursts(wall, high, &self.leaks) {
            self.add_leak(torn);
        }
        Ok(())
    }

    /// What the compressor sheds and a burst bag lets go is carried along, `before` being the wear before the tick.
    fn carry(&mut self, before: f64, dt: f64) {
        let flow = |link| self.network.link(link).flow;
        let (suction, liquid) = (
            flow(self.circuit.compressor()),
            flow(self.circuit.orifice()),
        );
        self.damage.grind(self.debris.entrain(suction, dt));
        let worn = (self.damage.wear() - before).max(0.0);
        self.debris.pass(worn, liquid, self.seat.fitted, dt);
    }

    /// Coils and oil meet the gas the loop has most of.
    fn follow_gas(&mut self) {
        let gas = self.network.mostly();
        if gas == self.gas {
            return;
        }
        self.gas = gas;
        self.condenser.change_gas(gas, &self.vehicle.condenser);
        self.evaporator.change_gas(gas, &self.vehicle.evaporator);
        self.oil.change_gas(gas);
    }

    /// The clutch pulls at a compressor that has seized.
    fn locked(&self) -> bool {
        self.drive.engaged && self.fitted.compressor && self.damage.seized
    }

    /// The orifice tube without ice, in the condition it is in.
    fn tube(&self) -> Tube {
        Tube(self.seat.tube(self.orifice_clean()))
    }

    fn bind_water(&mut self, dt: f64) {
        self.provoked.cool(dt);
        let (tube, around) = (self.tube(), (self.hood_t, self.provoked));
        let c = &self.circuit;
        let net = &mut self.network;
        if self.fitted.accumulator {
            let desiccant = self.vehicle.accumulator.desiccant.si();
            moisture::dry(net, c.accumulator.outlet(), desiccant, dt);
        }
        moisture::freeze(net, c.orifice(), tube, around, dt);
        for hose in [&c.discharge_line, &c.suction_line] {
            rubber::soak(net, hose.nodes(), dt);
        }
    }

    /// The recirculation door is closed to the outside.
    pub(crate) fn recirculates(&self) -> bool {
        self.settings.recirculate && !self.condition.recirculation_stuck
    }

    fn set_drive(&mut self, dt: f64) {
        let low = self.network.node(self.circuit.low_side()).state.p - self.day.p;
        let high = self.network.node(self.circuit.high_side()).state.p - self.day.p;
        let coolant = self.engine.coolant;
        self.engine.stalled = self.settings.engine_on && self.engine.dry();
        self.settings.engine_on &= !self.engine.stalled;
        self.drive.advance(
            &self.settings,
            &self.condition,
            &DriveInputs { low, high, coolant },
            dt,
        );
        let shaft = self.shaft_power();
        let turns = self.compressor_rpm() * RAD_S;
        let load = Load {
            pulley: self.pulley_rpm() * RAD_S,
            torque: if self.locked() {
                f64::INFINITY
            } else if turns > 0.0 {
                shaft / turns
            } else {
                0.0
            },
            around: self.hood_t,
        };
        let engaged = self.drive.engaged;
        self.clutch
            .advance(engaged, self.condition.clutch_hold, load, dt);
    }

    fn set_air(&mut self, outside: &Outside, dt: f64) {
        let s = &self.settings;
        let warm = if s.engine_on { HOOD_RISE } else { 0.0 };
        let goal = self.day.t + warm + self.engine.under_hood();
        self.hood_t += (goal - self.hood_t) * dt / HOOD_TIME;
        let f = &self.vehicle.fan;
        let rpm = if s.engine_on { s.engine_rpm } else { 0.0 };
        // The clutch's bimetal (or the stages' sender) follows the air behind the condenser.
        let (flow, t) = self.condenser_air;
        let behind = t + self.condenser.duty / (flow.max(STILL) * CP_AIR);
        let cooling = Cooling {
            rpm,
            shaft: self.shaft_power() + self.slip_power(),
            air: (flow, behind),
            radiator: self.condition.radiator,
            hood: self.hood_t,
            heater: self.heater,
        };
        self.engine.advance(&cooling, dt);
        let (slips, drives) = (f.slips_to.si(), f.drives_from.si());
        let called = ((behind - slips) / (drives - slips).max(1.0)).clamp(0.0, 1.0);
        self.fan_clutch += (called - self.fan_clutch) * dt / FAN_TIME;
        let (cool, top) = (f.cool_flow.si(), f.top_flow.si());
        let most = cool + self.fan_clutch * (top - cool);
        let sound = (f.idle_flow.si() * libm::pow(rpm / FAN_IDLE, 0.8)).min(most);
        let fan = sound * self.condition.condenser_fan;
        let ram = f.ram_flow.si() * s.road_speed / ram_speed().si();
        let flow = (fan * fan + ram * ram).sqrt();
        // Hot air comes round to the face less as the fan pulls harder, and not at all on the road.
        let round = if flow > 0.0 {
            let round = f.idle_recirculation.si() * (f.idle_flow.si() / flow) * fan / flow;
            round * self.engine.round(self.day.t)
        } else {
            0.0
        };
        // Where the seals are missing, air from under the hood comes round with it.
        let face = self.day.t + round;
        let by = self.condition.hood_round * fan / flow.max(STILL);
        let t = face + by * (self.hood_t - face).max(0.0);
        let covered = if s.face_covered { COVERED } else { 1.0 };
        let flow = flow.max(STILL) * self.condition.condenser_air.max(0.01) * covered;
        self.condenser_air = (flow, self.provoked.cooled(flow, t, outside, dt));
        self.cabin
            .set_blower(if s.loose.battery { 0 } else { s.blower });
        self.cabin.flow *= self.condition.evaporator_air * self.evaporator.air_share();
    }

    fn set_laws(&mut self) {
        let rpm = self.compressor_rpm();
        let compressor = Compressor {
            displacement: self.vehicle.compressor.displacement.si(),
            wear: self.wear(),
            dry: self.oil_shortage(),
        };
        let c = &self.circuit;
        self.network
            .set_law(c.compressor(), Law::Compressor(compressor, rpm));
        // Worn reeds and rings let discharge gas back at rest; while it turns, that is part of its law.
        let reeds = if rpm > 0.0 { 0.0 } else { compressor.at_rest() };
        self.network.set_law(c.reeds, Law::Passage(reeds));
        let tube = self.tube().with_ice(self.ice());
        self.network.set_law(c.orifice(), Law::Orifice(tube));
        self.network.set_law(c.bypass, self.seat.bypass());
        let area = self.vehicle.condenser.tubes.flow_area();
        for (link, heat) in c.condenser.links().iter().zip(self.condenser.condensing) {
            self.network
                .set_offtake(*link, Offtake::Condensing { area, heat });
        }
        let high = self.network.node(c.high_side()).state.p - self.day.p;
        let law = self.relief.feel(high);
        self.network.set_law(c.relief, law);
    }

    /// Heat of the coming step, for every node, into `self.heat`; returns the air that leaves the evaporator.
    fn pass_heat(&mut self, outside: &Outside, dt: f64) -> evaporator::Air {
        let (hood, recirculates) = (self.hood_t, self.recirculates());
        let friction = oil::friction(self.oil_shortage(), self.compressor_rpm());
        let Self {
            network,
            heat,
            shells,
            circuit: c,
            ..
        } = self;
        heat.reset(network, Heat::default());
        let mut in_from_outside = 0.0;
        // The share of the shaft power that the gas did not get, and friction for want of oil, warm the compressor's body.
        let work =
            (network.link(c.compressor()).shaft * crate::compressor::BODY_LOSS + friction) * dt;
        let body = &mut shells[c.body];
        body.t += work / body.metal;
        in_from_outside += work;
        for shell in shells.iter_mut() {
            let t_around = match shell.around {
                Around::Hood => hood,
                Around::Room => outside.t,
                Around::Bath(t) => t,
            };
            let (inward, from_out) = shell.pass(network.node(shell.node), t_around, dt);
            heat[shell.node].add(inward);
            in_from_outside += from_out;
        }
        let flow = |link| network.link(link).flow.abs();
        let hot = flow(c.compressor()).max(flow(c.condenser.out()));
        let cold = flow(c.orifice()).max(flow(c.pick_up()));
        let (air_flow, air_t) = self.condenser_air;
        // What a flooded end loses is taken from the volume after the last cell.
        let cells = nodes_of(network, &c.condenser);
        let next = network.node(c.liquid_line.inlet());
        let after = core::iter::once(c.liquid_line.inlet());
        let mut gained = [Heat::default(); condenser::CELLS + 1];
        in_from_outside -= self
            .condenser
            .pass(cells, next, hot, air_flow, air_t, dt, &mut gained);
        add(
            heat,
            c.condenser.nodes().iter().copied().chain(after),
            gained,
        );
        let inlet = self.cabin.inlet(outside, recirculates);
        let cells = nodes_of(network, &c.evaporator);
        let mut gained = [Heat::default(); evaporator::CELLS];
        let (coil, from_air) = self.evaporator.pass(
            cells,
            cold,
            self.cabin.flow,
            inlet,
            outside.p,
            dt,
            &mut gained,
        );
        add(heat, c.evaporator.nodes().iter().copied(), gained);
        in_from_outside += from_air;
        network.count_energy(in_from_outside);
        coil
    }

    /// Takes from the coils' walls what the refrigerant took up in a step of `dt` seconds, and gives them what it gave.
    fn settle_walls(&mut self, dt: f64) {
        let (net, heat, c) = (&self.network, &self.heat, &self.circuit);
        let touched = |id: NodeId| net.touched_at(id, heat[id]);
        let cells = c.condenser.nodes();
        let after = c.liquid_line.inlet();
        self.condenser.settle(core::array::from_fn(|k| {
            touched(cells.get(k).copied().unwrap_or(after))
        }));
        let cells = c.evaporator.nodes();
        self.evaporator
            .settle(core::array::from_fn(|k| touched(cells[k])), dt);
    }

    /// Puts another shell in a shell's place, of heat capacity `metal` (J/K) at `t` (K): the books count the difference as taken in.
    pub fn swap_shell(&mut self, shell: ShellId, metal: f64, t: f64) {
        let s = &mut self.shells[shell];
        let gain = metal * t - s.metal * s.t;
        s.t = t;
        s.metal = metal;
        self.network.count_energy(gain);
    }
}

/// Returns the volumes of a coil.
fn nodes_of<'a, const N: usize>(net: &'a Network, coil: &Section) -> [&'a Node; N] {
    core::array::from_fn(|k| net.node(coil.nodes()[k]))
}

/// Adds the heat of each volume of a coil.
fn add<const N: usize>(
    heat: &mut PerNode<Heat>,
    coil: impl Iterator<Item = NodeId>,
    gained: [Heat; N],
) {
    for (node, gained) in coil.zip(gained) {
        heat[node].add(gained.drive);
        heat[node].hold += gained.hold;
    }
}
