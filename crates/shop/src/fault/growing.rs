//! Faults that come about while a bay runs: after a while, at once or little by little.
//!
//! They set the same parameters as a fault that was there from the start, by the same rows. What the loop holds, and how joints were made
//! up, is no parameter: that is changed by hands.

use lowside_plant::{
    leak::{Leak, Size},
    plant::Plant,
};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::{Applies, Cure, Fault, Kind, Place, named};
use crate::Shop;

/// A fault that is to come, or that grows.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Growing {
    #[serde(serialize_with = "write", deserialize_with = "read")]
    fault: &'static Fault,
    /// Values from which and to which it grows, SI.
    from: f64,
    to: f64,
    /// When it begins, by the shop's clock, and how long it takes to grow, s.
    begins: f64,
    lasts: f64,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "as the serializer asks")]
fn write<S: Serializer>(fault: &&'static Fault, s: S) -> Result<S::Ok, S::Error> {
    s.serialize_str(fault.id)
}

fn read<'de, D: Deserializer<'de>>(d: D) -> Result<&'static Fault, D::Error> {
    let id = String::deserialize(d)?;
    named(&id).ok_or_else(|| de::Error::custom(format_args!("unknown fault `{id}`")))
}

impl Growing {
    /// Its value at a time of the shop's clock, SI; none before it begins.
    fn value(&self, clock: f64) -> Option<f64> {
        let passed = clock - self.begins;
        if passed >= self.lasts {
            return Some(self.to);
        }
        let share = passed / self.lasts;
        (passed >= 0.0).then_some(self.from + share * (self.to - self.from))
    }
}

impl Fault {
    /// Can it come about while a bay runs?
    pub fn comes_about(&self) -> bool {
        match self.field.applies {
            Applies::Plant(_)
            | Applies::PlantSwitch(_)
            | Applies::Shop(_)
            | Applies::ShopSwitch(_)
            | Applies::Passage => true,
            Applies::Places => matches!(self.place, Place::Site(_)),
            Applies::Start(_) => false,
        }
    }

    /// Can it come little by little? What is stuck is stuck, and a hole is there or not.
    pub fn grows(&self) -> bool {
        let all = self.comes_about() && self.field.kind != Kind::Switch;
        all && !matches!(self.field.applies, Applies::Places)
    }

    /// Gives it a value, SI.
    pub(super) fn set(&self, plant: &mut Plant, shop: &mut Shop, value: f64) {
        match (self.field.applies, self.place) {
            (Applies::Passage, Place::Passage(at)) => plant.restrict(at, value),
            (Applies::Places, Place::Site(at)) => {
                plant.mend(at);
                let size = match self.field.kind {
                    Kind::Length => Size::Hole(value),
                    _ => Size::Standing(value),
                };
                plant.add_leak(Leak { at, size });
            }
            (applies, _) => {
                applies.to_plant(plant, value);
                applies.to_shop(shop, value);
            }
        }
    }

    /// Returns the value at which what can grow stands, SI; of the rest that of a sound vehicle.
    fn value(&self, plant: &mut Plant, shop: &mut Shop) -> f64 {
        match (self.field.applies, self.place) {
            (Applies::Plant(of), _) => *of(plant),
            (Applies::Shop(of), _) => *of(shop),
            (Applies::Passage, Place::Passage(at)) => plant.open_share(at),
            _ => self.field.sound.of(&plant.vehicle),
        }
    }
}

impl Shop {
    /// Lets a fault come about `after` so many seconds and grow `over` so many to a value, SI, from where it stands by then.
    pub fn plant_fault(
        &mut self,
        plant: &mut Plant,
        fault: &'static Fault,
        to: f64,
        [after, over]: [f64; 2],
    ) {
        self.growing.retain(|g| g.fault != fault);
        let from = fault.value(plant, self);
        self.growing.push(Growing {
            fault,
            from,
            to,
            begins: self.clock + after,
            lasts: over,
        });
        self.grow(plant);
    }

    /// Takes a fault away that came about, or is to come.
    pub fn clear_fault(&mut self, plant: &mut Plant, fault: &'static Fault) {
        self.growing.retain(|g| g.fault != fault);
        match fault.place {
            Place::Site(at) => plant.mend(at),
            _ => fault.heal(plant, self),
        }
    }

    /// What a cure is for grows no further; what is still to come comes.
    pub(super) fn stop_growing(&mut self, by: Cure) {
        let clock = self.clock;
        self.growing
            .retain(|g| g.fault.cure != by || g.begins > clock);
    }

    /// Gives every fault that grows its value of now, and lets go of those that have grown up.
    pub(crate) fn grow(&mut self, plant: &mut Plant) {
        if self.growing.is_empty() {
            return;
        }
        let (clock, mut all) = (self.clock, core::mem::take(&mut self.growing));
        all.retain_mut(|g| {
            match g.value(clock) {
                Some(value) => g.fault.set(plant, self, value),
                None => g.from = g.fault.value(plant, self),
            }
            clock < g.begins + g.lasts
        });
        self.growing = all;
    }
}
