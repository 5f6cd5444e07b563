//! What holds joints and parts besides their seals: the spring of a coupling, bolts and brackets, caps; and what comes of it when that is
//! left off. None of it is off in a vehicle that comes in.
//!
//! An act on a whole part (take out, put back) does what is not done one by one: plug, belt, bolts and caps come off with the part and go
//! back with it. What was taken off by itself has to be put back by itself.

use lowside_fluids::moisture::SIEVE_CAPACITY;
use lowside_plant::{
    plant::Plant,
    species::{Content, WATER},
};
use lowside_units::Quantity;
use serde::{Deserialize, Serialize};

use crate::{
    Shop,
    joints::{BREATH, Joint},
    parts::Part,
};

/// What is in hand to take joints apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum JointTool {
    /// Whichever the joint asks for.
    #[default]
    Fitting,
    /// Two wrenches, one to hold against the other.
    Wrenches,
    /// The tool that spreads the spring of a coupling.
    SpringLock,
}

impl JointTool {
    /// Returns whether a joint comes apart with it.
    pub fn parts(self, joint: Joint) -> bool {
        match self {
            Self::Fitting => true,
            Self::Wrenches => !joint.has_spring_lock(),
            Self::SpringLock => joint.has_spring_lock(),
        }
    }

    /// Its name in messages.
    pub fn name(self) -> &'static str {
        match self {
            Self::Fitting => "tool that fits",
            Self::Wrenches => "two wrenches",
            Self::SpringLock => "spring-lock tool",
        }
    }
}

impl Joint {
    /// Returns whether a garter spring in a cage holds it: both ends of the liquid line. Nuts hold the others.
    pub fn has_spring_lock(self) -> bool {
        matches!(self, Self::CondenserOut | Self::EvaporatorIn)
    }
}

impl Part {
    /// Returns whether bolts or a bracket hold it to the vehicle, and not its lines alone.
    pub fn is_bolted(self) -> bool {
        matches!(self, Self::Compressor | Self::Condenser | Self::Accumulator)
    }

    /// Open ends that it has off the vehicle.
    fn ends(self) -> f64 {
        self.joints().len() as f64
    }
}

/// Time for which the engine shakes a part that hangs on its lines alone until its O-rings are rubbed, s (own figure, plausible minutes to
/// days: short, so that it shows while one stands beside it).
pub const SHAKES: f64 = 120.0;

impl Shop {
    /// Returns whether a part's bolts are out, in the vehicle or beside it.
    pub fn is_unbolted(&self, part: Part) -> bool {
        self.unbolted[part as usize]
    }

    /// Takes a part's bolts out or puts them in.
    pub fn set_bolts(&mut self, part: Part, on: bool) {
        self.unbolted[part as usize] = !on;
        self.shaken[part as usize] = 0.0;
    }

    /// Lets the engine shake for `dt` seconds what hangs loose; true when a ring is rubbed through by it.
    pub(crate) fn shake(&mut self, plant: &Plant, dt: f64) -> bool {
        if !plant.settings.engine_on {
            return false;
        }
        let mut rubbed = false;
        for (at, part) in Part::ALL.into_iter().enumerate() {
            let before = self.shaken[at];
            if self.unbolted[at] && self.bench[at].is_none() && before < SHAKES {
                self.shaken[at] = before + dt;
                if self.shaken[at] >= SHAKES {
                    rubbed = true;
                    for joint in part.joints() {
                        self.openings.rub(*joint);
                    }
                }
            }
        }
        rubbed
    }

    /// Lets parts whose caps are off breathe the room's air for `dt` seconds: desiccant and oil take up its water.
    pub(crate) fn breathe_on_bench(&mut self, plant: &mut Plant, dt: f64) {
        for part in Part::ALL {
            let Some(bench) = self.bench[part as usize].as_mut().filter(|b| b.bare) else {
                continue;
            };
            let passes = plant.network.room_air(part.ends() * BREATH * dt)[WATER];
            let keeps = match part {
                Part::Accumulator => &mut bench.bound,
                _ if bench.oil > 0.0 => &mut bench.oil_water,
                _ => continue,
            };
            let most = match part {
                Part::Accumulator => plant.vehicle.accumulator.desiccant.si() * SIEVE_CAPACITY,
                _ => bench.oil * bench.oils.water_at_saturation(),
            };
            let mut water = Content::default();
            water[WATER] = passes.min((most - *keeps).max(0.0));
            *keeps += water[WATER];
            plant.network.count_to_room(&water, -1.0);
        }
    }
}
