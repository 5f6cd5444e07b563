//! The shop: what the technician has connected and set, and what the instruments show.

use lowside_fluids::Gas;
use lowside_plant::{
    network::ROOM,
    plant::Plant,
    seat::Seat,
    shell::Around,
    species::{Content, OIL, REFRIGERANT, WATER},
};
use serde::{Deserialize, Serialize};

use crate::{
    attached::Attached,
    can::{self, Can, Stance},
    cylinder::{self, Cylinder, Stored},
    detect::{Finding, SPOTS, Spot},
    gauge::{self, Instrument},
    identifier::{Identifier, NoSample, Port},
    joints::{Fit, Joint, Openings, Seal, Side},
    manifold::{self, Places},
    meters::{self, Faults, Point},
    nitrogen::{self, Nitrogen},
    oil::{OilKind, OilWork},
    parts::{self, OnBench, PARTS, Part},
    record::Readings,
    recovery::{self, Machine, Station, Stop},
    vacuum::{self, GaugePlace, PumpOil, VacuumPump},
};

/// What the hands have set.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Hands {
    /// Low-side coupler sits on its port with the core pressed.
    pub low_coupled: bool,
    /// High-side coupler sits on its port with the core pressed.
    pub high_coupled: bool,
    /// Low hand valve, 0 shut to 1 open.
    pub low_valve: f64,
    /// High hand valve, 0 shut to 1 open.
    pub high_valve: f64,
    /// Service hose cracked at the manifold to let it blow out.
    pub purging: bool,
    /// What hangs on the service hose.
    pub attached: Attached,
    /// Cans taken so far.
    pub cans_taken: u32,
    /// Where the clamp thermometer sits.
    pub clamp: Option<Point>,
    /// The stopwatch runs.
    pub timing: bool,
    /// Where the vacuum gauge is.
    pub vacuum_gauge: GaugePlace,
    /// What the scale's zero key has set aside, kg.
    pub scale_zero: f64,
}

/// What the instruments show. SI units.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Instruments {
    /// Compound gauge on the low hose, Pa gauge.
    pub low: Instrument,
    /// High-pressure gauge on the high hose, Pa gauge.
    pub high: Instrument,
    /// Thermometer in the centre vent, K.
    pub vent: Instrument,
    /// Thermometer in the cabin, K.
    pub cabin: Instrument,
    /// Scale under the can, kg.
    pub scale: Instrument,
    /// Clamp thermometer, K.
    pub clamp: Instrument,
    /// Stopwatch, s.
    pub stopwatch: f64,
    /// Electronic vacuum gauge, Pa absolute.
    pub vacuum: Instrument,
}

/// The shop around a vehicle.
#[derive(Debug, Clone)]
pub struct Shop {
    /// What the hands have set.
    pub hands: Hands,
    /// What the instruments show.
    pub instruments: Instruments,
    /// The refrigerant identifier.
    pub identifier: Identifier,
    /// Where hoses and valves are in the network.
    pub places: Places,
    /// The oil in the vacuum pump.
    pub pump_oil: PumpOil,
    /// What went out of the bay with used cans and cylinders, kg.
    pub shelf: Content,
    /// Refrigerant that came in with cans and charging cylinders and did not blow out of a can pulled off open, kg.
    pub supplied: f64,
    /// How much of that is back on the shelf, kg.
    pub shelf_supply: f64,
    /// Everything that came into the bay by hand (cans, cylinders, parts, oil, nitrogen), kg.
    pub brought: Content,
    /// What got lost into the room without passing a link (an open can pulled off, an open part), kg.
    pub lost: Content,
    /// Joints and ports.
    pub openings: Openings,
    /// Parts out of the vehicle, in the order of [`Part::ALL`].
    pub bench: [Option<OnBench>; PARTS],
    /// New parts fitted so far, in the same order.
    pub renewed: [u32; PARTS],
    /// What was done with oil.
    pub oil: OilWork,
    /// What went into the scrap with parts, kg.
    pub scrap: Content,
    /// What is wrong with gauges and couplers.
    pub faults: Faults,
    /// There is dye in the loop.
    pub dye: bool,
    /// What has escaped at each place since the dye went in, kg.
    pub stains: [f64; SPOTS],
    /// Time since stains were last looked after, s.
    pub stain_time: f64,
    /// What the last search at each place showed.
    pub search: [Option<Finding>; SPOTS],
    /// Readings written down before and after the work.
    pub noted: [Option<Readings>; 2],
    /// Charge on the new label, kg.
    pub label: Option<f64>,
    /// Times that refrigerant was let out by hand.
    pub ventings: u32,
    /// Injuries so far.
    pub injuries: u32,
    /// The recovery machine's cylinder and separator.
    pub station: Station,
    /// Number of cans on the shelf.
    pub cans_on_shelf: u32,
}

/// Gauge pressure behind a joint from which opening it hurts, Pa (own figure: 5 psi).
pub const HURTS: f64 = 35e3;

/// Refrigerant in the loop below which nothing worth the name is vented, kg (own figure: what a deep recovery leaves).
const TRACES: f64 = 0.03;

/// What happened by itself in a tick.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Happened {
    /// A can burst.
    pub burst: bool,
    /// The charging cylinder's valve shut itself at the set weight.
    pub dosed: bool,
    /// The recovery machine stopped itself.
    pub stopped: Option<Stop>,
}

impl Shop {
    /// Brings gauge set and hoses to a vehicle, both couplers on, valves shut, service hose open to the room.
    pub fn new(plant: &mut Plant) -> Self {
        let residue = plant.network.node(plant.places.accumulator).state.p_air;
        let places = manifold::connect(plant, residue);
        let openings = Openings::new(&mut plant.network, &plant.places);
        let t = plant.day().t;
        let mut shop = Self {
            hands: Hands {
                low_coupled: true,
                high_coupled: true,
                low_valve: 0.0,
                high_valve: 0.0,
                purging: false,
                attached: Attached::Nothing,
                cans_taken: 0,
                clamp: None,
                timing: false,
                vacuum_gauge: GaugePlace::default(),
                scale_zero: 0.0,
            },
            instruments: Instruments {
                low: gauge::compound(),
                high: gauge::high_pressure(),
                vent: gauge::vent_thermometer(plant.cabin.vent.t),
                cabin: gauge::vent_thermometer(plant.cabin.air.t),
                scale: gauge::scale(),
                clamp: meters::clamp(t),
                stopwatch: 0.0,
                vacuum: vacuum::vacuum_gauge(),
            },
            identifier: Identifier::default(),
            places,
            pump_oil: PumpOil::default(),
            shelf: Content::default(),
            supplied: 0.0,
            shelf_supply: 0.0,
            brought: Content::default(),
            lost: Content::default(),
            openings,
            bench: [None; PARTS],
            renewed: [0; PARTS],
            oil: OilWork::default(),
            scrap: Content::default(),
            faults: Faults::default(),
            dye: false,
            stains: [0.0; SPOTS],
            stain_time: 0.0,
            search: [None; SPOTS],
            noted: [None; 2],
            label: None,
            ventings: 0,
            injuries: 0,
            station: Station {
                away: Stored {
                    content: Content::default(),
                    t,
                },
                at_start: 0.0,
                separator: 0.0,
            },
            cans_on_shelf: 0,
        };
        shop.set_laws(plant);
        for _ in 0..200 {
            shop.read(plant, 0.1);
        }
        shop
    }

    /// Screws a full can at room temperature onto the service hose; what hung there before is put aside.
    pub fn take_can(&mut self, plant: &mut Plant, self_sealing: bool) {
        self.take_can_of(plant, plant.network.gas(), self_sealing);
    }

    /// As [`take_can`](Self::take_can), a can of `gas`. Where that is neither the vehicle's nor its partner of R-12 and R-134a, the
    /// vehicle's is taken.
    pub fn take_can_of(&mut self, plant: &mut Plant, gas: Gas, self_sealing: bool) {
        self.put_aside(plant);
        let t = plant.day().t;
        plant.swap_shell(self.places.can_shell, can::METAL, t);
        let inside = plant.places.inside();
        let content = can::full();
        plant
            .network
            .refill_with(self.places.can, gas, can::VOLUME, content, t, inside);
        self.supplied += can::NET;
        self.brought.add(&can::full(), 1.0);
        self.hands.cans_taken += 1;
        self.hands.attached = Attached::Can(Can::new(self.hands.cans_taken, self_sealing));
    }

    /// Connects a charging cylinder that holds so much refrigerant (kg), at room temperature, its valve shut.
    pub fn take_cylinder(&mut self, plant: &mut Plant, holds: f64) {
        self.put_aside(plant);
        let t = plant.day().t;
        let content = Content::refrigerant(holds);
        self.fill_vessel(
            plant,
            cylinder::CHARGING_VOLUME,
            content,
            t,
            cylinder::CHARGING_METAL,
        );
        self.supplied += holds;
        self.brought.add(&content, 1.0);
        self.hands.attached = Attached::Cylinder(Cylinder {
            stance: Stance::Upright,
            open: false,
            shuts_at: None,
        });
    }

    /// Connects the recovery machine with its cylinder as it was left, switched off.
    pub fn take_machine(&mut self, plant: &mut Plant) {
        self.put_aside(plant);
        let Stored { content, t } = core::mem::take(&mut self.station.away);
        self.fill_vessel(
            plant,
            cylinder::RECOVERY_VOLUME,
            content,
            t,
            cylinder::RECOVERY_METAL,
        );
        self.hands.attached = Attached::Machine(Machine {
            running: false,
            stops_at: recovery::STOPS_AT,
            down: 0.0,
        });
    }

    /// Gives the machine another cylinder that holds so much already (kg); the one before goes to the shelf. Whether the machine
    /// hangs on the hose or not.
    pub fn change_cylinder(&mut self, plant: &mut Plant, holds: f64) {
        let t = plant.day().t;
        let content = Content::refrigerant(holds);
        if let Attached::Machine(m) = &mut self.hands.attached {
            m.running = false;
            let old = self.fill_vessel(
                plant,
                cylinder::RECOVERY_VOLUME,
                content,
                t,
                cylinder::RECOVERY_METAL,
            );
            self.shelf.add(&old, 1.0);
        } else {
            let old = core::mem::replace(&mut self.station.away, Stored { content, t });
            self.shelf.add(&old.content, 1.0);
        }
        self.brought.add(&content, 1.0);
        self.station.at_start = holds;
    }

    /// Takes off whatever hangs on the service hose, whose end is then open to the room. A can or charging cylinder goes to the
    /// shelf; a pierced can whose tap stands open empties itself into the room on the way.
    pub fn put_aside(&mut self, plant: &mut Plant) {
        let attached = core::mem::take(&mut self.hands.attached);
        if attached == Attached::Nothing {
            return;
        }
        let t = plant.network.node(self.places.can).state.t;
        let room_t = plant.day().t;
        let left = self.fill_vessel(plant, can::VOLUME, Content::default(), room_t, can::METAL);
        match attached {
            Attached::Nothing => {}
            Attached::Can(c) => {
                if c.open() && !c.self_sealing {
                    self.lost.add(&left, 1.0);
                    self.supplied -= left[REFRIGERANT];
                    self.ventings += 1;
                } else {
                    self.shelf.add(&left, 1.0);
                    self.shelf_supply += left[REFRIGERANT];
                }
                self.cans_on_shelf += 1;
            }
            Attached::Cylinder(_) => {
                self.shelf.add(&left, 1.0);
                self.shelf_supply += left[REFRIGERANT];
            }
            // The bottle keeps what the hose did not get.
            Attached::Nitrogen(_) => self.brought.add(&left, -1.0),
            Attached::Machine(_) => self.station.away = Stored { content: left, t },
            Attached::Pump(_) => plant.network.count_to_room(&left, 1.0),
        }
    }

    /// Puts a vessel of the given volume, content, temperature and metal where the service hose ends; returns what was there.
    fn fill_vessel(
        &mut self,
        plant: &mut Plant,
        volume: f64,
        content: Content,
        t: f64,
        metal: f64,
    ) -> Content {
        plant.swap_shell(self.places.can_shell, metal, t);
        plant.network.refill(self.places.can, volume, content, t).0
    }

    /// Takes a joint apart. With pressure or liquid behind it that hurts; true when it did.
    pub fn open_joint(&mut self, plant: &Plant, joint: Joint) -> bool {
        let (pressure, liquid) = self.openings.behind(plant, joint);
        self.openings.joints[joint as usize] = Fit::Open;
        self.ventings += u32::from(pressure > HURTS && self.holds(plant));
        self.hurt(pressure > HURTS || liquid)
    }

    fn hurt(&mut self, hurts: bool) -> bool {
        self.injuries += u32::from(hurts);
        hurts
    }

    /// Takes a core out of its port, or puts a new one in. Taking it out under pressure with the coupler off hurts; true when it
    /// did.
    pub fn set_core(&mut self, plant: &Plant, side: Side, fitted: bool) -> bool {
        let coupled = match side {
            Side::Low => self.hands.low_coupled,
            Side::High => self.hands.high_coupled,
        };
        let pressure = self.openings.behind_port(plant, side);
        let port = &mut self.openings.ports[side as usize];
        let out = port.core && !fitted;
        port.core = fitted;
        port.old_core &= !fitted;
        let blows = out && !coupled && pressure > HURTS;
        self.ventings += u32::from(blows && self.holds(plant));
        self.hurt(blows)
    }

    /// Puts a joint together.
    pub fn make_joint(&mut self, joint: Joint, seal: Seal) {
        self.openings.joints[joint as usize] = Fit::Made(seal);
    }

    /// Lays a part on the bench.
    pub fn take_part(&mut self, plant: &mut Plant, part: Part) {
        let (bench, lost) = parts::take_out(plant, part);
        self.lost.add(&lost, 1.0);
        self.bench[part as usize] = Some(bench);
    }

    /// Puts the part from the bench back in.
    pub fn refit_part(&mut self, plant: &mut Plant, part: Part) {
        if let Some(bench) = self.bench[part as usize].take() {
            parts::put_in(plant, part, &bench);
        }
    }

    /// Throws the part on the bench away and lays a new one there, sealed and with the oil it comes with.
    pub fn new_part(&mut self, plant: &mut Plant, part: Part) {
        if let Some(old) = self.bench[part as usize].take() {
            self.scrap[OIL] += old.oil;
            self.scrap[WATER] += old.bound;
            self.oil.scrapped += old.oil;
            let oil = part.ships_with(plant);
            self.oil.shipped += oil;
            self.brought[OIL] += oil;
            parts::renew(plant, part);
            self.renewed[part as usize] += 1;
            let seat = old.seat.map(|_| Seat::of(&plant.vehicle.orifice));
            self.bench[part as usize] = Some(OnBench {
                oil,
                seat,
                ..OnBench::default()
            });
        }
    }

    /// Turns a part on the bench over above the measuring cup; gives what ran out, kg.
    pub fn drain_part(&mut self, part: Part) -> f64 {
        let Some(bench) = &mut self.bench[part as usize] else {
            return 0.0;
        };
        let out = bench.oil * part.drains();
        bench.oil -= out;
        self.oil.drained[part as usize] += out;
        self.oil.waste += out;
        out
    }

    /// Pours oil (kg) from the bottle into a part on the bench.
    pub fn pour_oil(&mut self, plant: &Plant, part: Part, kg: f64, kind: OilKind) {
        if let Some(bench) = &mut self.bench[part as usize] {
            bench.oil += kg;
            self.oil.poured[part as usize] += kg;
            self.note_oil(plant, kg, kind);
        }
    }

    /// Presses oil (kg) through the low-side port into the loop.
    pub fn inject_oil(&mut self, plant: &mut Plant, kg: f64, kind: OilKind) {
        let mut oil = Content::default();
        oil[OIL] = kg;
        plant.network.inject(plant.places.accumulator, &oil);
        self.oil.injected += kg;
        self.note_oil(plant, kg, kind);
    }

    fn note_oil(&mut self, plant: &Plant, kg: f64, kind: OilKind) {
        self.brought[OIL] += kg;
        self.oil.kind = Some(kind);
        let mineral = kind == OilKind::Mineral;
        if mineral != (plant.network.gas() == Gas::R12) {
            self.oil.wrong_kind += kg;
        }
    }

    /// What is seen in a part: nothing unless it is out or one of its joints is apart.
    pub fn inspect(&self, plant: &Plant, part: Part) -> Option<parts::Seen> {
        if let Some(bench) = &self.bench[part as usize] {
            return Some(bench.seen);
        }
        // The tube is seen only out of its line.
        let apart = part != Part::Orifice && part.joints().iter().any(|j| self.openings.apart(*j));
        apart.then(|| parts::look(plant, part))
    }

    /// Refrigerant recovered so far into the cylinder now with the machine, kg.
    pub fn recovered(&self, plant: &Plant) -> f64 {
        let held = match self.hands.attached {
            Attached::Machine(_) => {
                plant.network.node(self.places.can).content.whole()[REFRIGERANT]
            }
            _ => self.station.away.content.whole()[REFRIGERANT],
        };
        held - self.station.at_start
    }

    /// There is enough refrigerant in the loop that letting it out counts as venting: more than traces.
    fn holds(&self, plant: &Plant) -> bool {
        let p = plant.places;
        let held: f64 = (p.discharge..=p.suction)
            .map(|i| plant.network.node(i).content.whole()[REFRIGERANT])
            .sum();
        held > TRACES
    }

    /// Refrigerant that cans and charging cylinders have given, kg.
    pub fn given(&self, plant: &Plant) -> f64 {
        let left = match self.hands.attached {
            Attached::Can(_) | Attached::Cylinder(_) => {
                plant.network.node(self.places.can).content.whole()[REFRIGERANT]
            }
            _ => 0.0,
        };
        (self.supplied - left - self.shelf_supply).max(0.0)
    }

    /// Connects dry nitrogen, its regulator backed off and its valve shut.
    pub fn take_nitrogen(&mut self, plant: &mut Plant) {
        self.put_aside(plant);
        let (t, p) = (plant.day().t, plant.day().p);
        let content = nitrogen::full(0.0, p, t);
        self.fill_vessel(plant, nitrogen::VOLUME, content, t, nitrogen::METAL);
        self.brought.add(&content, 1.0);
        self.hands.attached = Attached::Nitrogen(Nitrogen::default());
    }

    /// Sets the regulator, Pa gauge; does nothing without one.
    pub fn regulate(&mut self, plant: &mut Plant, set: f64) {
        if let Attached::Nitrogen(n) = &mut self.hands.attached {
            n.set = set;
            let (t, p) = (plant.day().t, plant.day().p);
            let content = nitrogen::full(set, p, t);
            let old = self.fill_vessel(plant, nitrogen::VOLUME, content, t, nitrogen::METAL);
            self.brought.add(&content, 1.0);
            self.brought.add(&old, -1.0);
        }
    }

    /// Notes once a second what escapes with dye in it.
    fn stain(&mut self, plant: &Plant, dt: f64) {
        self.stain_time += dt;
        if self.stain_time >= 1.0 {
            for spot in Spot::ALL {
                let lost = spot.escape(plant, self).refrigerant * self.stain_time;
                self.stains[spot as usize] += lost;
            }
            self.stain_time = 0.0;
        }
    }

    /// The instruments as they stand, to write down.
    pub fn readings(&self, plant: &Plant) -> Readings {
        let i = &self.instruments;
        let s = &plant.settings;
        Readings {
            low: i.low.reading(),
            high: i.high.reading(),
            vent: i.vent.reading(),
            ambient: plant.day().t,
            humidity: meters::humidity(plant),
            rpm: if s.engine_on { s.engine_rpm } else { 0.0 },
        }
    }

    /// Weight of what stands on the scale, kg: the can, or a cylinder with what it holds.
    fn on_scale(&self, plant: &Plant) -> f64 {
        let content = plant.network.node(self.places.can).content.total();
        match self.hands.attached {
            Attached::Nothing | Attached::Nitrogen(_) | Attached::Pump(_) => 0.0,
            Attached::Can(_) => can::TARE + content,
            Attached::Cylinder(_) => cylinder::CHARGING_TARE + content,
            Attached::Machine(_) => cylinder::RECOVERY_TARE + content,
        }
    }

    /// Sets the scale to zero with what stands on it.
    pub fn zero_scale(&mut self, plant: &Plant) {
        self.hands.scale_zero = self.on_scale(plant);
    }

    /// Screws the vacuum pump, at rest and with its isolation valve shut, onto the service hose; `speed` is its free-air
    /// displacement, m3/s. Its inlet is full of the room's air.
    pub fn take_pump(&mut self, plant: &mut Plant, speed: f64) {
        self.put_aside(plant);
        let (air, t) = (plant.network.room_air(vacuum::INLET_VOLUME), plant.day().t);
        self.fill_vessel(plant, vacuum::INLET_VOLUME, air, t, can::METAL);
        plant.network.count_to_room(&air, -1.0);
        self.hands.attached = Attached::Pump(VacuumPump {
            speed,
            on: false,
            valve_open: false,
            ballast: false,
        });
    }

    /// Sets every link and shell of the shop as the hands have it.
    pub fn set_laws(&mut self, plant: &mut Plant) {
        let (h, p) = (&self.hands, &self.places);
        let net = &mut plant.network;
        net.set_law(
            p.low_port,
            manifold::valve(f64::from(u8::from(h.low_coupled && !self.faults.stuck[0]))),
        );
        net.set_law(
            p.high_port,
            manifold::valve(f64::from(u8::from(h.high_coupled && !self.faults.stuck[1]))),
        );
        self.openings.set_laws(net, [h.low_coupled, h.high_coupled]);
        net.set_law(p.low_valve, manifold::valve(h.low_valve));
        net.set_law(p.high_valve, manifold::valve(h.high_valve));
        let (flows, stance) = match h.attached {
            Attached::Can(c) => (c.opening(), c.stance),
            Attached::Cylinder(c) => (f64::from(u8::from(c.open)), c.stance),
            Attached::Nothing
            | Attached::Machine(_)
            | Attached::Nitrogen(_)
            | Attached::Pump(_) => (0.0, Stance::Upright),
        };
        let tap = |of| manifold::valve(if stance == of { flows } else { 0.0 });
        let upright = match h.attached {
            // A regulator gives and does not take back.
            Attached::Nitrogen(n) => manifold::check_valve(f64::from(u8::from(n.open))),
            Attached::Pump(pump) => vacuum::isolation(&pump),
            _ => tap(Stance::Upright),
        };
        net.set_law(p.tap_vapour, upright);
        net.set_law(p.tap_liquid, tap(Stance::Inverted));
        let room_t = net.node(ROOM).state.t;
        let running = h.attached.machine().is_some_and(|m| m.running);
        net.set_law(p.machine, recovery::law(running, room_t));
        let open_end = h.attached == Attached::Nothing;
        net.set_law(p.hose_end, manifold::hose_end(open_end, h.purging));
        let wall = match &h.attached {
            Attached::Pump(pump) => vacuum::exhaust(pump, &self.pump_oil),
            other => manifold::burst(other.can().is_some_and(|c| c.burst)),
        };
        net.set_law(p.can_wall, wall);
        let shell = &mut plant.shells[p.can_shell];
        (shell.around, shell.inside, shell.outside) = match h.attached {
            Attached::Can(Can { bath: Some(t), .. }) => {
                (Around::Bath(t), can::INSIDE, can::IN_WATER)
            }
            Attached::Can(_) | Attached::Nothing | Attached::Pump(_) => {
                (Around::Room, can::INSIDE, can::IN_AIR)
            }
            Attached::Cylinder(_) | Attached::Machine(_) | Attached::Nitrogen(_) => {
                (Around::Room, cylinder::INSIDE, cylinder::OUTSIDE)
            }
        };
    }

    /// Lets a tick pass: a can over its limit bursts, machine and cylinder shut themselves, the pump's oil takes what passes it, the instruments follow.
    pub fn tick(&mut self, plant: &mut Plant, dt: f64) -> Happened {
        let p = self.places;
        let mut happened = Happened::default();
        self.openings.breathe(plant, dt);
        let held = plant.network.node(p.can).content.whole()[REFRIGERANT];
        match &mut self.hands.attached {
            Attached::Can(can) => {
                let over = plant.network.node(p.can).state.p - plant.day().p > can::BURST;
                happened.burst = over && !can.burst;
                can.burst |= over;
            }
            Attached::Cylinder(c) => {
                if c.shuts_at.is_some_and(|at| held <= at) {
                    c.open = false;
                    c.shuts_at = None;
                    happened.dosed = true;
                }
            }
            Attached::Machine(m) if m.running => {
                recovery::separate(plant, p.can, &mut self.station);
                happened.stopped = recovery::stop(plant, m, p.service_hose, p.can, dt);
                m.running = happened.stopped.is_none();
            }
            Attached::Pump(pump) if pump.on => {
                let exhaust = plant.network.link(p.can_wall);
                let (inlet, flow) = (
                    &plant.network.node(p.can).state,
                    vacuum::throughput(exhaust),
                );
                self.pump_oil.pump(pump, inlet, flow, plant.day().p, dt);
                let law = vacuum::exhaust(pump, &self.pump_oil);
                plant.network.set_law(p.can_wall, law);
            }
            Attached::Nitrogen(n) if n.open => {
                let given = nitrogen::make_up(plant, p.can, n.set);
                self.brought.add(&given, 1.0);
            }
            Attached::Nothing
            | Attached::Machine(_)
            | Attached::Nitrogen(_)
            | Attached::Pump(_) => {}
        }
        if self.hands.timing {
            self.instruments.stopwatch += dt;
        }
        if self.dye {
            self.stain(plant, dt);
        }
        if happened != Happened::default() {
            self.set_laws(plant);
        }
        self.read(plant, dt);
        happened
    }

    /// Takes a sample at a service port into the refrigerant identifier.
    ///
    /// # Errors
    /// [`NoSample`] without a coupler on the port, without pressure behind it, or while a sample is being worked on.
    pub fn identify(&mut self, plant: &Plant, port: Port) -> Result<(), NoSample> {
        let (coupled, node) = match port {
            Port::Low => (self.hands.low_coupled, plant.places.accumulator),
            Port::High => (self.hands.high_coupled, plant.places.discharge),
        };
        if !coupled {
            return Err(NoSample::NoCoupler { port });
        }
        self.identifier.take(plant, node)
    }

    fn read(&mut self, plant: &Plant, dt: f64) {
        self.identifier.pass(dt);
        let p = plant.day().p;
        let on_scale = self.on_scale(plant) - self.hands.scale_zero;
        let node = |id| &plant.network.node(id).state;
        let i = &mut self.instruments;
        let [low, high] = self.faults.offset;
        i.low.follow(node(self.places.low_hose).p - p + low, dt);
        i.high.follow(node(self.places.high_hose).p - p + high, dt);
        if let Some(at) = self.hands.clamp {
            i.clamp.follow(meters::felt(plant, at), dt);
        }
        i.vent.follow(plant.cabin.vent.t, dt);
        i.cabin.follow(plant.cabin.air.t, dt);
        i.scale.follow(on_scale, dt);
        let felt = match (self.hands.vacuum_gauge, self.hands.attached.pump()) {
            (GaugePlace::Loop, _) => node(plant.places.accumulator).p,
            (GaugePlace::Pump, Some(_)) => node(self.places.can).p,
            (GaugePlace::Pump, None) => p,
        };
        // Beyond its range the sensor does not feel how far.
        i.vacuum.follow(felt.min(1.1 * i.vacuum.most), dt);
    }
}
