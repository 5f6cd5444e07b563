//! Acts on what drives a part, holds it and feeds it: battery, plugs, belt, bolts, caps, spring locks; and the hub turned by hand.

use lowside_plant::{
    loose::{Lead, Plug},
    plant::Plant,
};
use lowside_shop::{Shop, fixings::JointTool, parts::Part};
use serde::{Deserialize, Serialize};

use super::{
    Refused,
    bench::{fitted, on_bench},
};

/// An act on what drives, holds and feeds a part.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum FixingAct {
    /// Take the battery's earth lead off its post, or put it on; with the engine off.
    Battery {
        /// True to put it on.
        on: bool,
    },
    /// Pull a plug, bridge it or push it on.
    Plug {
        /// Which.
        at: Lead,
        /// How it is then; a wire goes across the low-pressure switch's alone.
        state: Plug,
    },
    /// Take the drive belt off the compressor's pulley, or put it on; with the engine off and the compressor bolted in.
    Belt {
        /// True to put it on.
        on: bool,
    },
    /// Take the bolts out that hold a part, or put them in; with the engine off and the part in its place.
    Bolts {
        /// Compressor, condenser or accumulator.
        part: Part,
        /// True to put them in.
        on: bool,
    },
    /// Take the caps off a part on the bench, or put them on.
    PartCaps {
        /// The part.
        part: Part,
        /// True to put them on.
        on: bool,
    },
    /// Take a tool for joints in hand.
    JointTool {
        /// Which.
        tool: JointTool,
    },
    /// Turn the compressor's hub ten times by hand, with the engine off.
    TurnHub,
}

impl FixingAct {
    /// Does the act, or refuses and changes nothing.
    pub(super) fn apply(self, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
        match self {
            Self::Battery { on } => {
                at_rest(plant)?;
                plant.settings.loose.battery = !on;
            }
            Self::Plug { at, state } => {
                if state == Plug::Bridged && at != Lead::LowSwitch {
                    return Err(Refused::NotBridged(at));
                }
                if at == Lead::CutOut && plant.drive.cut_out_opens().is_none() {
                    return Err(Refused::NoCutOut);
                }
                plant.settings.loose.set_plug(at, state);
            }
            Self::Belt { on } => {
                at_rest(plant)?;
                fitted(shop, Part::Compressor)?;
                if shop.is_unbolted(Part::Compressor) {
                    return Err(Refused::Unbolted(Part::Compressor));
                }
                plant.settings.loose.belt = !on;
            }
            Self::Bolts { part, on } => {
                at_rest(plant)?;
                fitted(shop, part)?;
                if !part.is_bolted() {
                    return Err(Refused::NoBolts(part));
                }
                if part == Part::Compressor && !on && !plant.settings.loose.belt {
                    return Err(Refused::BeltOn);
                }
                shop.set_bolts(part, on);
            }
            Self::PartCaps { part, on } => {
                on_bench(shop, part)?;
                if let Some(bench) = &mut shop.bench[part as usize] {
                    bench.bare = !on;
                }
            }
            Self::JointTool { tool } => shop.hands.joint_tool = tool,
            Self::TurnHub => {
                at_rest(plant)?;
                fitted(shop, Part::Compressor)?;
                plant.turn_by_hand();
            }
        }
        Ok(())
    }
}

/// The engine does not run, and nobody turns it by hand.
fn at_rest(plant: &Plant) -> Result<(), Refused> {
    let left = plant.turning_by_hand();
    if plant.settings.engine_on {
        Err(Refused::EngineRuns)
    } else if left > 0.0 {
        Err(Refused::Busy { left })
    } else {
        Ok(())
    }
}

/// The engine can be started: its starter has current and no hand is at the hub.
pub(super) fn can_start(plant: &Plant) -> Result<(), Refused> {
    if plant.settings.loose.battery {
        Err(Refused::BatteryOff)
    } else {
        at_rest(plant).or_else(|why| match why {
            // It runs already.
            Refused::EngineRuns => Ok(()),
            why => Err(why),
        })
    }
}
