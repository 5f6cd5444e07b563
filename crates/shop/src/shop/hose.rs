//! What is brought to the end of the service hose and taken away again: cans, cylinders, machine, pump, nitrogen.

use super::Shop;
use crate::{
    attached::Attached,
    can::{self, Can, Stance},
    cylinder::{self, Cylinder, Stored},
    nitrogen::{self, Nitrogen},
    recovery::{self, Machine},
    vacuum::{self, VacuumPump},
};
use lowside_fluids::Gas;
use lowside_plant::{
    plant::Plant,
    species::{Content, REFRIGERANT},
};

impl Shop {
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

    /// Weight of what stands on the scale, kg: the can, or a cylinder with what it holds.
    pub(super) fn on_scale(&self, plant: &Plant) -> f64 {
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
}
