//! The shop: what the technician has connected and set, and what the instruments show.

use lowside_fluids::Gas;
use lowside_plant::{plant::Plant, shell::Around, species::Content};
use serde::{Deserialize, Serialize};

use crate::{
    can::{self, Can, Stance},
    gauge::{self, Instrument},
    identifier::{Identifier, NoSample, Port},
    manifold::{self, Places},
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
    /// The can on the service hose.
    pub can: Option<Can>,
    /// Cans taken so far.
    pub cans_taken: u32,
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
    /// What went out of the bay with used cans, kg.
    pub shelf: Content,
    /// Number of cans on the shelf.
    pub cans_on_shelf: u32,
}

impl Shop {
    /// Brings gauge set and hoses to a vehicle, both couplers on, valves shut, service hose open to the room.
    pub fn new(plant: &mut Plant) -> Self {
        let residue = plant.network.node(plant.places.accumulator).state.p_air;
        let places = manifold::connect(plant, residue);
        let t = plant.day().t;
        let mut shop = Self {
            hands: Hands {
                low_coupled: true,
                high_coupled: true,
                low_valve: 0.0,
                high_valve: 0.0,
                purging: false,
                can: None,
                cans_taken: 0,
            },
            instruments: Instruments {
                low: gauge::compound(),
                high: gauge::high_pressure(),
                vent: gauge::vent_thermometer(plant.cabin.vent.t),
                cabin: gauge::vent_thermometer(plant.cabin.air.t),
                scale: gauge::scale(),
            },
            identifier: Identifier::default(),
            places,
            shelf: Content::default(),
            cans_on_shelf: 0,
        };
        plant.shells[places.can_shell].t = t;
        shop.set_laws(plant);
        for _ in 0..200 {
            shop.read(plant, 0.1);
        }
        shop
    }

    /// Screws a full can of `gas` at room temperature onto the service hose; one already there goes to the shelf. Where the gas is
    /// neither the vehicle's nor its partner of R-12 and R-134a, the vehicle's is taken.
    pub fn take_can(&mut self, plant: &mut Plant, gas: Gas) {
        self.drop_can(plant);
        let t = plant.day().t;
        plant.network.refill_with(
            self.places.can,
            gas,
            can::VOLUME,
            can::full(),
            t,
            plant.places.inside(),
        );
        plant.set_shell_temperature(self.places.can_shell, t);
        self.hands.cans_taken += 1;
        self.hands.can = Some(Can {
            number: self.hands.cans_taken,
            stance: Stance::Upright,
            open: false,
            bath: None,
            burst: false,
        });
    }

    /// Takes the can off the service hose, whose end is then open to the room, and puts it on the shelf.
    pub fn drop_can(&mut self, plant: &mut Plant) {
        if self.hands.can.take().is_none() {
            return;
        }
        let (left, _) = plant.network.refill(
            self.places.can,
            can::VOLUME,
            Content::default(),
            plant.day().t,
        );
        self.shelf.add(&left, 1.0);
        self.cans_on_shelf += 1;
    }

    /// Sets every link and shell of the shop as the hands have it.
    pub fn set_laws(&mut self, plant: &mut Plant) {
        let (h, p) = (&self.hands, &self.places);
        let net = &mut plant.network;
        net.set_law(
            p.low_port,
            manifold::valve(f64::from(u8::from(h.low_coupled))),
        );
        net.set_law(
            p.high_port,
            manifold::valve(f64::from(u8::from(h.high_coupled))),
        );
        net.set_law(p.low_valve, manifold::valve(h.low_valve));
        net.set_law(p.high_valve, manifold::valve(h.high_valve));
        let tap = |stance| {
            manifold::valve(f64::from(u8::from(
                h.can.is_some_and(|c| c.open && c.stance == stance),
            )))
        };
        net.set_law(p.tap_vapour, tap(Stance::Upright));
        net.set_law(p.tap_liquid, tap(Stance::Inverted));
        net.set_law(p.hose_end, manifold::hose_end(h.can.is_none(), h.purging));
        net.set_law(p.can_wall, manifold::burst(h.can.is_some_and(|c| c.burst)));
        let shell = &mut plant.shells[p.can_shell];
        (shell.around, shell.outside) = match h.can.and_then(|c| c.bath) {
            Some(t) => (Around::Bath(t), can::IN_WATER),
            None => (Around::Room, can::IN_AIR),
        };
    }

    /// Lets a tick pass: a can over its limit bursts, the instruments follow. True when a can burst.
    pub fn tick(&mut self, plant: &mut Plant, dt: f64) -> bool {
        let over = plant.network.node(self.places.can).state.p - plant.day().p > can::BURST;
        let mut bang = false;
        if let Some(can) = &mut self.hands.can
            && over
            && !can.burst
        {
            can.burst = true;
            bang = true;
            self.set_laws(plant);
        }
        self.read(plant, dt);
        bang
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
        let node = |id| &plant.network.node(id).state;
        let i = &mut self.instruments;
        i.low.follow(node(self.places.low_hose).p - p, dt);
        i.high.follow(node(self.places.high_hose).p - p, dt);
        i.vent.follow(plant.cabin.vent.t, dt);
        i.cabin.follow(plant.cabin.air.t, dt);
        let on_scale = if self.hands.can.is_some() {
            can::TARE + plant.network.node(self.places.can).content.total()
        } else {
            0.0
        };
        i.scale.follow(on_scale, dt);
    }
}
