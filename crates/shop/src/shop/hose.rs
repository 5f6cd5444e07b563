//! What is brought to the end of the service hose and taken away again: cans, cylinders, machine, pump, nitrogen.

use super::{CHANGE, Shop};
use crate::{
    attached::Attached,
    can::{self, Can, Stance},
    cylinder::{self, Cylinder, Stored},
    nitrogen::{self, Nitrogen},
    recovery::{self, RecoveryMachine, Station},
    vacuum::{self, VacuumPump},
};
use lowside_fluids::{Apart, Blend, Refrigerant};
use lowside_plant::{
    plant::Plant,
    species::{Content, REFRIGERANT},
};

/// So much refrigerant of one gas (kg) that is to meet the loop's, and how much of it is R-12.
fn full_of(plant: &Plant, gas: Refrigerant, kg: f64) -> Result<(Content, f64), Apart> {
    Blend::mixes(plant.network.gas(), gas)?;
    Ok((Content::refrigerant(kg), Blend::r12_in(gas) * kg))
}

impl Shop {
    /// Screws a full can for the hoses' gas, at room temperature, onto the service hose; what hung there before is put aside.
    ///
    /// # Errors
    /// As [`take_can_of`](Self::take_can_of).
    pub fn take_can(&mut self, plant: &mut Plant, self_sealing: bool) -> Result<(), Apart> {
        self.take_can_of(plant, self.hands.hoses, self_sealing)
    }

    /// As [`take_can`](Self::take_can), a can of `gas`.
    ///
    /// # Errors
    /// When `gas` does not mix with the loop's; nothing has changed.
    pub fn take_can_of(
        &mut self,
        plant: &mut Plant,
        gas: Refrigerant,
        self_sealing: bool,
    ) -> Result<(), Apart> {
        let full = full_of(plant, gas, can::NET)?;
        self.put_aside(plant);
        self.fill_vessel(plant, can::VOLUME, full, can::METAL);
        self.supplied += can::NET;
        self.brought.add(&can::full(), 1.0);
        self.hands.cans_taken += 1;
        self.hands.attached = Attached::Can(Can::new(self.hands.cans_taken, self_sealing));
        Ok(())
    }

    /// Connects a charging cylinder that holds so much refrigerant (kg), at room temperature, its valve shut.
    ///
    /// # Errors
    /// When `gas` does not mix with the loop's; nothing has changed.
    pub fn take_cylinder(
        &mut self,
        plant: &mut Plant,
        gas: Refrigerant,
        holds: f64,
    ) -> Result<(), Apart> {
        let full = full_of(plant, gas, holds)?;
        self.put_aside(plant);
        self.fill_vessel(
            plant,
            cylinder::CHARGING_VOLUME,
            full,
            cylinder::CHARGING_METAL,
        );
        self.supplied += holds;
        self.brought.add(&full.0, 1.0);
        self.hands.attached = Attached::Cylinder(Cylinder {
            stance: Stance::Upright,
            open: false,
            shuts_at: None,
        });
        Ok(())
    }

    /// Connects the recovery machine kept for `gas` with its cylinder as it was left, switched off.
    ///
    /// # Errors
    /// When `gas` does not mix with the loop's; nothing has changed.
    pub fn take_machine(&mut self, plant: &mut Plant, gas: Refrigerant) -> Result<(), Apart> {
        Blend::mixes(plant.network.gas(), gas)?;
        self.put_aside(plant);
        if self.station.gas != gas {
            let fresh = || Station::new(gas, plant.day().t);
            let other = self.other_station.take().unwrap_or_else(fresh);
            self.other_station = Some(core::mem::replace(&mut self.station, other));
        }
        let stored = core::mem::take(&mut self.station.away);
        self.fill_vessel_at(
            plant,
            cylinder::RECOVERY_VOLUME,
            (stored.content, stored.r12),
            stored.t,
            cylinder::RECOVERY_METAL,
        );
        self.hands.attached = Attached::Machine(RecoveryMachine {
            running: false,
            stops_at: recovery::STOPS_AT,
            down: 0.0,
        });
        Ok(())
    }

    /// Gives the machine another cylinder that holds so much already (kg); the one before goes to the shelf. Whether the machine
    /// hangs on the hose or not.
    ///
    /// # Errors
    /// When the machine's gas does not mix with the loop's; nothing has changed.
    pub fn change_cylinder(&mut self, plant: &mut Plant, holds: f64) -> Result<(), Apart> {
        let t = plant.day().t;
        let (content, r12) = full_of(plant, self.station.gas, holds)?;
        if let Attached::Machine(m) = &mut self.hands.attached {
            m.running = false;
            let old = self.fill_vessel(
                plant,
                cylinder::RECOVERY_VOLUME,
                (content, r12),
                cylinder::RECOVERY_METAL,
            );
            self.shelf.add(&old.0, 1.0);
        } else {
            let fresh = Stored { content, r12, t };
            let old = core::mem::replace(&mut self.station.away, fresh);
            self.shelf.add(&old.content, 1.0);
        }
        self.brought.add(&content, 1.0);
        self.station.at_start = holds;
        Ok(())
    }

    /// Takes off whatever hangs on the service hose, whose end is then open to the room; with a hand valve open, for as long as a change
    /// takes, though something else be brought at once (what valves shut into the hose stays there: a simplification). A can or charging cylinder goes to the
    /// shelf; a pierced can whose tap stands open empties itself into the room on the way.
    pub fn put_aside(&mut self, plant: &mut Plant) {
        let attached = core::mem::take(&mut self.hands.attached);
        if attached == Attached::Nothing {
            return;
        }
        if self.hands.low_valve + self.hands.high_valve > 0.0 {
            self.changing = CHANGE;
        }
        let t = plant.network.node(self.manifold.can).state.t;
        let none = (Content::default(), 0.0);
        let (left, r12) = self.fill_vessel(plant, can::VOLUME, none, can::METAL);
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
            Attached::Machine(_) => {
                self.station.away = Stored {
                    content: left,
                    r12,
                    t,
                };
            }
            Attached::Pump(_) => plant.network.count_to_room(&left, 1.0),
        }
    }

    /// Puts a vessel of the given volume, content with its R-12 (kg) and metal, at room temperature, where the service hose ends;
    /// returns what was there.
    fn fill_vessel(
        &mut self,
        plant: &mut Plant,
        volume: f64,
        content: (Content, f64),
        metal: f64,
    ) -> (Content, f64) {
        let t = plant.day().t;
        self.fill_vessel_at(plant, volume, content, t, metal)
    }

    /// As [`fill_vessel`](Self::fill_vessel), of a temperature (K).
    fn fill_vessel_at(
        &mut self,
        plant: &mut Plant,
        volume: f64,
        content: (Content, f64),
        t: f64,
        metal: f64,
    ) -> (Content, f64) {
        plant.swap_shell(self.manifold.can_shell, metal, t);
        let place = self.manifold.can;
        plant.network.exchange(place, volume, content, t, true)
    }

    /// Refrigerant recovered so far, kg: into the cylinder now with the machine, and with another gas's machine before.
    pub fn recovered(&self, plant: &Plant) -> f64 {
        let before = self
            .other_station
            .map_or(0.0, |s| s.away.content.whole()[REFRIGERANT] - s.at_start);
        let held = match self.hands.attached {
            Attached::Machine(_) => {
                plant.network.node(self.manifold.can).content.whole()[REFRIGERANT]
            }
            _ => self.station.away.content.whole()[REFRIGERANT],
        };
        held - self.station.at_start + before
    }

    /// Refrigerant that cans and charging cylinders have given, kg; what burst cans lost was not given.
    pub fn given(&self, plant: &Plant) -> f64 {
        let left = match self.hands.attached {
            Attached::Can(_) | Attached::Cylinder(_) => {
                plant.network.node(self.manifold.can).content.whole()[REFRIGERANT]
            }
            _ => 0.0,
        };
        (self.supplied - left - self.shelf_supply - self.spilt).max(0.0)
    }

    /// Connects dry nitrogen, its regulator backed off and its valve shut.
    pub fn take_nitrogen(&mut self, plant: &mut Plant) {
        self.put_aside(plant);
        let (t, p) = (plant.day().t, plant.day().p);
        let content = nitrogen::full(0.0, p, t);
        self.fill_vessel(plant, nitrogen::VOLUME, (content, 0.0), nitrogen::METAL);
        self.brought.add(&content, 1.0);
        self.hands.attached = Attached::Nitrogen(Nitrogen::default());
    }

    /// Sets the regulator, Pa gauge; does nothing without one.
    pub fn regulate(&mut self, plant: &mut Plant, set: f64) {
        if let Attached::Nitrogen(n) = &mut self.hands.attached {
            n.set = set;
            let (t, p) = (plant.day().t, plant.day().p);
            let content = nitrogen::full(set, p, t);
            let old = self.fill_vessel(plant, nitrogen::VOLUME, (content, 0.0), nitrogen::METAL);
            self.brought.add(&content, 1.0);
            self.brought.add(&old.0, -1.0);
        }
    }

    /// Weight of what stands on the scale, kg: the can, or a cylinder with what it holds.
    pub(super) fn on_scale(&self, plant: &Plant) -> f64 {
        let content = plant.network.node(self.manifold.can).content.total();
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
        let air = plant.network.room_air(vacuum::INLET_VOLUME);
        self.fill_vessel(plant, vacuum::INLET_VOLUME, (air, 0.0), can::METAL);
        plant.network.count_to_room(&air, -1.0);
        self.hands.attached = Attached::Pump(VacuumPump {
            speed,
            on: false,
            valve_open: false,
            ballast: false,
        });
    }
}
