//! The shop: what the technician has connected and set, and what the instruments show.

use lowside_fluids::Refrigerant;
use lowside_plant::{
    leak::{Site, Size},
    network::{Law, LinkId, NodeId, ROOM},
    plant::Plant,
    shell::Around,
    species::{Content, REFRIGERANT},
};
use serde::{Deserialize, Serialize};

use crate::{
    attached::Attached,
    can::{self, Can, Stance},
    cylinder::{self, Stored},
    detect::{Finding, SPOTS, Spot},
    fault::Growing,
    fixings::JointTool,
    gauge::{self, Instrument},
    hold,
    identifier::{Identifier, NoSample, Port},
    joints::{GRAM_A_YEAR, Joint, LowPort, Openings, Side},
    label::Label,
    manifold::{self, Manifold},
    meters::{self, Errors, Faults, Point},
    nitrogen,
    oil::OilWork,
    parts::{OnBench, PARTS},
    protection::Worn,
    record::Readings,
    recovery::{self, Station, Stop},
    vacuum::{self, GaugePlace, PumpOil},
    weighed::Account,
};

mod bench;
mod hose;
mod retrofit;

pub use retrofit::{CUT_OUT_CLOSES, SCREW};

/// What the hands have set.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a coupler, a valve or a key of its own"
)]
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
    /// Whose fittings the gauge set's hoses have.
    pub hoses: Refrigerant,
    /// What hangs on the service hose.
    pub attached: Attached,
    /// Cans taken so far.
    pub cans_taken: u32,
    /// Where the clamp thermometer sits.
    pub clamp: Option<Point>,
    /// The meter is connected at the clutch's plug.
    pub clutch_meter: bool,
    /// The stopwatch runs.
    pub timing: bool,
    /// Where the vacuum gauge is.
    pub vacuum_gauge: GaugePlace,
    /// What the scale's zero key has set aside, kg.
    pub scale_zero: f64,
    /// What is in hand to take joints apart.
    #[serde(default)]
    pub joint_tool: JointTool,
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
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Shop {
    /// What the hands have set.
    pub hands: Hands,
    /// What the instruments show.
    pub instruments: Instruments,
    /// What is worn against refrigerant.
    #[serde(default)]
    pub worn: Worn,
    /// The refrigerant identifier.
    pub identifier: Identifier,
    /// Where hoses and valves are in the network.
    #[serde(skip)]
    pub manifold: Manifold,
    /// The oil in the vacuum pump.
    pub pump_oil: PumpOil,
    /// What went out of the bay with used cans and cylinders, kg.
    pub shelf: Content,
    /// Refrigerant that came in with cans and charging cylinders and did not blow out of a can pulled off open, kg.
    pub supplied: f64,
    /// How much of that is back on the shelf, kg.
    pub shelf_supply: f64,
    /// Refrigerant that burst cans have lost, kg. It is told and decides nothing, so no fingerprint of the state has it.
    pub spilt: f64,
    /// Refrigerant in the vessel on the service hose a tick ago, kg.
    held: f64,
    /// Everything that came into the bay by hand (cans, cylinders, parts, oil, nitrogen), kg.
    pub brought: Content,
    /// What got lost into the room without passing a link (an open can pulled off, an open part), kg.
    pub lost: Content,
    /// Joints and ports.
    pub openings: Openings,
    /// Parts out of the vehicle, in the order of [`crate::parts::Part::ALL`].
    pub bench: [Option<OnBench>; PARTS],
    /// Which parts' bolts are out, in the same order.
    #[serde(default)]
    pub(crate) unbolted: [bool; PARTS],
    /// Time for which the engine has shaken each while it hung loose, s.
    #[serde(default)]
    pub(crate) shaken: [f64; PARTS],
    /// New parts fitted so far, in the same order.
    pub renewed: [u32; PARTS],
    /// What was done with oil.
    pub oil: OilWork,
    /// What went into the scrap with parts, kg.
    pub scrap: Content,
    /// What is wrong with gauges and couplers.
    pub faults: Faults,
    /// What is going wrong: faults that come about while the bay runs.
    #[serde(default)]
    pub(crate) growing: Vec<Growing>,
    /// What sound instruments show too much.
    #[serde(default)]
    pub errors: Errors,
    /// There is dye in the loop.
    pub dye: bool,
    /// What has escaped at each place since the dye went in, kg.
    pub stains: [f64; SPOTS],
    /// Time since stains were last looked after, s.
    pub stain_time: f64,
    /// Places that oil was seen to spray from, until hands worked at them.
    #[serde(default)]
    pub oiled: [bool; SPOTS],
    /// What the last search at each place showed.
    pub search: [Option<Finding>; SPOTS],
    /// Bay time at which hands last worked at each place, s.
    pub worked: [Option<f64>; SPOTS],
    /// What the clamp last read at each end of the orifice tube with the clutch in, K: liquid line, evaporator inlet.
    pub across: [Option<f64>; 2],
    /// Readings written down before and after the work.
    pub noted: [Option<Readings>; 2],
    /// Holds under vacuum.
    pub holds: hold::HoldDetector,
    /// The new label under the hood.
    pub label: Option<Label>,
    /// Turns of the cycling switch's screw so far, anticlockwise counted negative.
    pub switch_turns: f64,
    /// What is in the hoses of the gauge set that hangs on the wall.
    pub other_set: Option<[Stored; 3]>,
    /// Bay time that the shop has seen pass, s.
    pub clock: f64,
    /// The account of what is in the loop by weight.
    pub(crate) account: Account,
    /// Times that refrigerant was let out by hand.
    pub ventings: u32,
    /// Refrigerant that has left by the open service hose since it last did not, kg.
    by_hose: f64,
    /// The same by joints that hands have made up without an O-ring.
    by_joints: f64,
    /// Time for which the service hose is still open while one thing on it is changed for another, s.
    changing: f64,
    /// Injuries so far.
    pub injuries: u32,
    /// Cylinder and separator of the recovery machine that is in use.
    pub station: Station,
    /// The same of the machine for the other gas, once it has been used.
    pub other_station: Option<Station>,
    /// Number of cans on the shelf.
    pub cans_on_shelf: u32,
}

/// Gauge pressure behind a joint from which opening it hurts, Pa (own figure: 5 psi).
pub const HURTS: f64 = 35e3;

/// Refrigerant let out at a stretch by the open service hose, or by joints without O-rings, that counts as letting it out, kg: an ounce
/// (own figure). A purge done well takes a few grams, and an honest recovery leaves less in a hose.
const LETS_OUT: f64 = 0.028;

/// Time for which the service hose is open while one thing on it is changed for another, s (own figure, plausible 2-10).
const CHANGE: f64 = 3.0;
/// Oil that comes out of one place from which it leaves a stain at once, kg/s (own figure: a drop of 50 mg within a minute).
const OILS: f64 = 1e-6;
/// Leak of a vehicle that comes in from which its place is stained with oil, kg/s: 40 g a year (common practice looks for oil first; the
/// figure is our own).
const STAINS: f64 = 40.0 * GRAM_A_YEAR;

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
        let residue = plant.network.node(plant.circuit.low_side()).state.p_air;
        let manifold = manifold::connect(plant, residue);
        let openings = Openings::new(
            &mut plant.network,
            &plant.circuit,
            plant.vehicle.refrigerant,
            plant.vehicle.compressor_port,
        );
        let t = plant.day().t;
        let mut shop = Self {
            hands: Hands {
                low_coupled: true,
                high_coupled: true,
                low_valve: 0.0,
                high_valve: 0.0,
                purging: false,
                hoses: plant.vehicle.refrigerant,
                attached: Attached::Nothing,
                cans_taken: 0,
                clamp: None,
                clutch_meter: false,
                timing: false,
                vacuum_gauge: GaugePlace::default(),
                scale_zero: 0.0,
                joint_tool: JointTool::default(),
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
            worn: Worn::default(),
            identifier: Identifier::default(),
            manifold,
            pump_oil: PumpOil::default(),
            shelf: Content::default(),
            supplied: 0.0,
            shelf_supply: 0.0,
            spilt: 0.0,
            held: 0.0,
            brought: Content::default(),
            lost: Content::default(),
            openings,
            bench: [None; PARTS],
            unbolted: [false; PARTS],
            shaken: [0.0; PARTS],
            renewed: [0; PARTS],
            oil: OilWork::default(),
            scrap: Content::default(),
            faults: Faults::default(),
            growing: Vec::new(),
            errors: Errors::default(),
            dye: false,
            stains: [0.0; SPOTS],
            stain_time: 0.0,
            oiled: [false; SPOTS],
            search: [None; SPOTS],
            worked: [None; SPOTS],
            across: [None; 2],
            noted: [None; 2],
            holds: hold::HoldDetector::default(),
            label: None,
            switch_turns: 0.0,
            other_set: None,
            clock: 0.0,
            account: Account::default(),
            ventings: 0,
            by_hose: 0.0,
            by_joints: 0.0,
            changing: 0.0,
            injuries: 0,
            station: Station::new(plant.vehicle.refrigerant, t),
            other_station: None,
            cans_on_shelf: 0,
        };
        shop.set_laws(plant);
        for _ in 0..200 {
            shop.read(plant, 0.1);
        }
        shop
    }

    /// Puts a state that was read into this shop as it was built: what it has in the network stays where it is.
    pub fn put(&mut self, state: Self) {
        let built = core::mem::replace(self, state);
        self.manifold = built.manifold;
        self.openings.put_with(&built.openings);
    }

    /// Notes once a second what escapes with dye in it.
    fn stain(&mut self, plant: &Plant, dt: f64) {
        self.stain_time += dt;
        if self.stain_time >= 1.0 {
            for spot in Spot::all() {
                let lost = spot.escape(plant, self).refrigerant * self.stain_time;
                self.stains[spot.index()] += lost;
            }
            self.stain_time = 0.0;
        }
    }

    /// Notes where oil comes out fast enough to be seen as a stain.
    fn look_for_oil(&mut self, plant: &Plant) {
        let by_sites = Site::ALL.map(|site| plant.oil_leaks_out(site));
        let most = by_sites.into_iter().fold(0.0, f64::max);
        if most.max(self.openings.oil_out(&plant.network)) < OILS {
            return;
        }
        for spot in Spot::all() {
            self.oiled[spot.index()] |= spot.escape(plant, self).oil >= OILS;
        }
    }

    /// Every place with a visible stain of oil: one that was leaking when the vehicle came, or from which oil has sprayed since. What sits in
    /// the evaporator's case is not seen, and hands that work at a place wipe it.
    pub fn stained(&self, plant: &Plant) -> [bool; SPOTS] {
        let mut stained = self.oiled;
        for leak in plant.leaks() {
            stained[Spot::Site(leak.at).index()] |= match leak.size {
                Size::Standing(flow) => flow >= STAINS,
                Size::Hole(_) => true,
            };
        }
        for joint in Joint::ALL {
            let came_so = !self.openings.was_opened(joint);
            let leaks = self.openings.fit(joint).stains(STAINS);
            stained[Spot::Joint(joint).index()] |= came_so && leaks;
        }
        for site in [Site::EvaporatorInlet, Site::EvaporatorOutlet] {
            stained[Spot::Site(site).index()] = false;
        }
        stained
    }

    /// Hands have worked at a place.
    pub(crate) fn work_at(&mut self, spot: Spot) {
        self.oiled[spot.index()] = false;
        self.worked[spot.index()] = Some(self.clock);
    }

    /// Every place that hands have worked at has been searched since, by a search that clears it, and no last search shows a leak.
    pub fn repairs_cleared(&self) -> bool {
        let mut worked = self
            .worked
            .iter()
            .zip(&self.search)
            .filter_map(|(at, f)| Some(((*at)?, f)));
        let cleared =
            |(at, f): (f64, &Option<Finding>)| f.is_some_and(|f| f.at >= at && f.clears());
        self.worked.iter().any(Option::is_some)
            && worked.all(cleared)
            && !self.search.iter().flatten().any(|f| f.found)
    }

    /// Vapour that joints and parts would let out if the loop stood at saturation at 20 degC, kg/s, the ports aside: their caps are
    /// their seal. More than any record can hold where something is open or has a hole.
    pub fn standing_leak(&self, plant: &Plant) -> f64 {
        let parts = plant.leaks().iter().map(|leak| match (leak.at, leak.size) {
            (Site::LowPort | Site::HighPort, _) => 0.0,
            (_, Size::Standing(flow)) => flow,
            (_, Size::Hole(_)) => f64::INFINITY,
        });
        self.openings.joints_leak() + parts.sum::<f64>()
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

    /// Puts the gauges where they rest on a set that has hung at its ports for a while: on what is behind each, unless its coupler does not
    /// reach the core.
    pub fn rest_gauges(&mut self, plant: &Plant) {
        let day = plant.day().p;
        let rest = |side: Side, hose: NodeId, stuck: bool| {
            let inside = plant.network.node(hose).state.p - day;
            if stuck {
                inside
            } else {
                self.openings.behind_port(plant, side)
            }
        };
        let [low, high] = [
            rest(Side::Low, self.manifold.low_hose, self.faults.stuck[0]),
            rest(Side::High, self.manifold.high_hose, self.faults.stuck[1]),
        ];
        let [more_low, more_high] = self.gauges_show_more();
        self.instruments.low.rest_at(low + more_low);
        self.instruments.high.rest_at(high + more_high);
        self.open_account(plant);
    }

    /// What both gauges show too much, Pa.
    fn gauges_show_more(&self) -> [f64; 2] {
        core::array::from_fn(|side| self.faults.offset[side] + self.errors.gauges[side])
    }

    /// The link between low-side hose and loop: that of the port that hands work at.
    pub fn low_port(&self) -> LinkId {
        let p = &self.manifold;
        match self.openings.low_tap() {
            LowPort::Accumulator => p.low_port,
            LowPort::Compressor => p.compressor_port.unwrap_or(p.low_port),
        }
    }

    fn port_law(&self, side: Side, pressed: bool) -> Law {
        let port = &self.openings.ports[side as usize];
        manifold::valve(if pressed { port.opens() } else { 0.0 })
    }

    /// Returns what hangs on the service hose now; what is on its way to it does not.
    pub(crate) fn hanging(&self) -> Attached {
        if self.changing > 0.0 {
            Attached::Nothing
        } else {
            self.hands.attached
        }
    }

    /// Sets every link and shell of the shop as the hands have it.
    pub fn set_laws(&mut self, plant: &mut Plant) {
        let (h, p) = (&self.hands, &self.manifold);
        let net = &mut plant.network;
        let pressed = h.low_coupled && !self.faults.stuck[0];
        for link in [Some(p.low_port), p.compressor_port].into_iter().flatten() {
            let here = link == self.low_port();
            net.set_law(link, self.port_law(Side::Low, pressed && here));
        }
        net.set_law(
            p.high_port,
            self.port_law(Side::High, h.high_coupled && !self.faults.stuck[1]),
        );
        self.openings.set_laws(net, [h.low_coupled, h.high_coupled]);
        net.set_law(p.low_valve, manifold::valve(h.low_valve));
        net.set_law(p.high_valve, manifold::valve(h.high_valve));
        let hangs = self.hanging();
        let (flows, stance) = match hangs {
            Attached::Can(c) => (c.opening(), c.stance),
            Attached::Cylinder(c) => (f64::from(u8::from(c.open)), c.stance),
            Attached::Nothing
            | Attached::Machine(_)
            | Attached::Nitrogen(_)
            | Attached::Pump(_) => (0.0, Stance::Upright),
        };
        let tap = |of| manifold::valve(if stance == of { flows } else { 0.0 });
        let upright = match hangs {
            // A regulator gives and does not take back.
            Attached::Nitrogen(n) => manifold::check_valve(f64::from(u8::from(n.open))),
            Attached::Pump(pump) => vacuum::isolation(&pump),
            _ => tap(Stance::Upright),
        };
        net.set_law(p.tap_vapour, upright);
        let rocked = h.attached.can().is_some_and(|c| c.rocked);
        net.set_offtake(p.tap_vapour, manifold::can_top(rocked));
        net.set_law(p.tap_liquid, tap(Stance::Inverted));
        let room_t = net.node(ROOM).state.t;
        let running = hangs.machine().is_some_and(|m| m.running);
        net.set_law(p.machine, recovery::law(running, room_t));
        let open_end = hangs == Attached::Nothing;
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
            Attached::Can(Can { rocked: true, .. }) => (Around::Room, can::INSIDE, can::IN_HAND),
            Attached::Can(_) | Attached::Nothing | Attached::Pump(_) => {
                (Around::Room, can::INSIDE, can::IN_AIR)
            }
            Attached::Cylinder(_) | Attached::Machine(_) | Attached::Nitrogen(_) => {
                (Around::Room, cylinder::INSIDE, cylinder::OUTSIDE)
            }
        };
    }

    /// Lets `dt` seconds pass on the stopwatch, which goes by the clock whenever the vehicle takes its time.
    pub fn time(&mut self, dt: f64) {
        if self.hands.timing {
            self.instruments.stopwatch += dt;
        }
    }

    /// Lets a tick pass: a can over its limit bursts, machine and cylinder shut themselves, the pump's oil takes what passes it, the instruments follow.
    pub fn tick(&mut self, plant: &mut Plant, dt: f64) -> Happened {
        let p = self.manifold;
        let mut happened = Happened::default();
        self.clock += dt;
        self.grow(plant);
        self.openings.breathe(plant, dt);
        let mut changed = self.openings.pass(dt);
        changed |= self.openings.feel(plant);
        changed |= self.shake(plant, dt);
        self.breathe_on_bench(plant, dt);
        if self.changing > 0.0 {
            self.changing = (self.changing - dt).max(0.0);
            changed |= self.changing <= 0.0;
        }
        let held = plant.network.node(p.can).content.whole()[REFRIGERANT];
        match &mut self.hands.attached {
            Attached::Can(can) => {
                if can.burst {
                    self.spilt += (self.held - held).max(0.0);
                }
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
        self.held = held;
        self.holds.tick(plant, &self.hands, dt);
        if self.dye {
            self.stain(plant, dt);
        }
        // Once a second: what sprays goes on for longer.
        if self.clock.floor() > (self.clock - dt).floor() {
            self.look_for_oil(plant);
        }
        if changed || happened != Happened::default() {
            self.set_laws(plant);
        }
        self.read(plant, dt);
        self.keep_account(plant, dt);
        self.count_let_out(plant, dt);
        happened
    }

    /// Refrigerant that leaves by the open end of the service hose, kg/s.
    pub fn out_of_hose(&self, plant: &Plant) -> f64 {
        let inside = &plant.network.node(self.manifold.service_hose).state;
        let share = 1.0 - (inside.p_air + inside.p_water) / inside.p.max(1.0);
        plant.network.link(self.manifold.hose_end).flow.max(0.0) * share.max(0.0)
    }

    /// Refrigerant that leaves where hands have made joints up without an O-ring, kg/s.
    pub fn out_of_joints(&self, plant: &Plant) -> f64 {
        let coupled = [self.hands.low_coupled, self.hands.high_coupled];
        self.openings.escapes_without_ring(&plant.network, coupled)
    }

    /// Counts what is let out by the open hose and by joints without O-rings, once for as long as it blows; `dt` seconds pass.
    fn count_let_out(&mut self, plant: &Plant, dt: f64) {
        let (hose, joints) = (self.out_of_hose(plant), self.out_of_joints(plant));
        for (so_far, flow) in [(&mut self.by_hose, hose), (&mut self.by_joints, joints)] {
            let before = *so_far;
            *so_far = if flow > 0.0 { before + flow * dt } else { 0.0 };
            self.ventings += u32::from(before < LETS_OUT && *so_far >= LETS_OUT);
        }
    }

    /// Takes a sample at a service port into the refrigerant identifier.
    ///
    /// # Errors
    /// [`NoSample`] without a coupler on the port, without pressure behind it, or while a sample is being worked on.
    pub fn identify(&mut self, plant: &Plant, port: Port) -> Result<(), NoSample> {
        let (coupled, side) = match port {
            Port::Low => (self.hands.low_coupled, Side::Low),
            Port::High => (self.hands.high_coupled, Side::High),
        };
        let node = self.openings.port_node(side);
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
        let [low, high] = self.gauges_show_more();
        let (i, errors) = (&mut self.instruments, self.errors);
        i.low.follow(node(self.manifold.low_hose).p - p + low, dt);
        i.high
            .follow(node(self.manifold.high_hose).p - p + high, dt);
        if let Some(at) = self.hands.clamp {
            i.clamp.follow(meters::felt(plant, at) + errors.clamp, dt);
            let end = [Point::LiquidLine, Point::EvaporatorIn]
                .iter()
                .position(|p| *p == at);
            if let Some(end) = end.filter(|_| plant.drive.engaged) {
                self.across[end] = Some(i.clamp.pointer());
            }
        }
        i.vent.follow(plant.cabin.vent.t + errors.vent, dt);
        i.cabin.follow(plant.cabin.air.t + errors.cabin, dt);
        i.scale.follow(on_scale, dt);
        let felt = match (self.hands.vacuum_gauge, self.hands.attached.pump()) {
            (GaugePlace::Loop, _) => node(plant.circuit.low_side()).p,
            (GaugePlace::Pump, Some(_)) => node(self.manifold.can).p,
            (GaugePlace::Pump, None) => p,
        };
        // Beyond its range the sensor does not feel how far.
        i.vacuum.follow(felt.min(1.1 * i.vacuum.most), dt);
    }
}
